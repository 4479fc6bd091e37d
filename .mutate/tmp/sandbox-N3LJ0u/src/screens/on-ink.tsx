/** The session drawn by ink, and its keys taken from it. */
// @ts-nocheck

import { render } from 'ink';
import type { Pacer, Terminal } from './app-contract.js';
import { Root } from './root.js';
import type { Session } from './session.js';

export function mount(session: Session, terminal: Terminal, pacer: Pacer | undefined) {
  const instance = render(<Root session={session} pacer={pacer} />, {
    stdin: terminal.stdin,
    stdout: terminal.stdout,
    ...(terminal.stderr ? { stderr: terminal.stderr } : {}),
    maxFps: 60,
    exitOnCtrlC: false,
    patchConsole: false,
    isScreenReaderEnabled: terminal.screenReader,
  });
  return { ended: instance.waitUntilExit(), unmount: () => instance.unmount() };
}
