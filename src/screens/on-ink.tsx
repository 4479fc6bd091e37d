/** The pages drawn by ink, which reads no keys. */
import { render } from 'ink';
import type { Terminal } from './app-contract.js';
import type { PageStack } from './page-stack.js';
import { Root } from './root.js';

export function mount(stack: PageStack, terminal: Terminal) {
  const instance = render(<Root stack={stack} />, {
    stdout: terminal.stdout,
    ...(terminal.stderr ? { stderr: terminal.stderr } : {}),
    maxFps: 60,
    exitOnCtrlC: false,
    patchConsole: false,
    isScreenReaderEnabled: terminal.screenReader,
  });
  return { ended: instance.waitUntilExit(), unmount: () => instance.unmount() };
}
