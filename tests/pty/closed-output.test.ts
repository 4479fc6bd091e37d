/** A command whose terminal is closed before it has written: nobody is left to tell, and no disk was full. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { closeTerminals, openTerminal } from './harness.js';
import { cli } from './program.js';

afterEach(() => closeTerminals());

/** Holds the program before it writes until `go` is there; its output is open by then. */
const holding = (at: string, go: string): string =>
  `import { existsSync, writeFileSync } from 'node:fs';
process.stdout.isTTY;
writeFileSync(${JSON.stringify(at)}, '');
while (!existsSync(${JSON.stringify(go)})) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
`;

test('it ends with 129 and complains of nothing', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'rotorside-closed-'));
  const [at, go, code, err] = ['at', 'go', 'code', 'err'].map((n) => join(folder, n)) as [
    string,
    string,
    string,
    string,
  ];
  const hold = join(folder, 'hold.mjs');
  writeFileSync(hold, holding(at, go));
  const command = `"${process.execPath}" --import "file://${hold}" "${cli}" calc speed-factor bore=25 outside=52 speed=12000`;
  // A shell that hears no hang-up lets the program outlive its window.
  const term = openTerminal({
    command: '/bin/sh',
    args: ['-c', `trap '' HUP; ${command} 2>"${err}"; echo $? >"${code}.new"; mv "${code}.new" "${code}"`],
  });
  const there = async (file: string): Promise<void> => {
    while (!existsSync(file)) await new Promise((resolve) => setTimeout(resolve, 20));
  };
  await there(at);
  term.hangUp();
  writeFileSync(go, '');
  await there(code);
  // At most the shell's own word for such an end.
  expect(readFileSync(err, 'utf8')).toMatch(/^(Hangup\n)?$/);
  expect(readFileSync(code, 'utf8')).toBe('129\n');
  rmSync(folder, { recursive: true });
});
