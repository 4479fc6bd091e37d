/** The real program in a real terminal: what no fake terminal shows. */
// @ts-nocheck

import { afterEach, beforeEach, expect, test } from 'vitest';
import { closeTerminals, holdDown, type TerminalUnderTest } from './harness.js';
import { newProgram, type Program } from './program.js';

let program: Program;
beforeEach(() => {
  program = newProgram();
});
afterEach(() => {
  closeTerminals();
  program.remove();
});

/** Types one answer and waits for the screen that follows, as a person does. */
async function say(term: TerminalUnderTest, text: string, next: string | RegExp): Promise<void> {
  term.write(text);
  await term.waitFor(next);
}

async function begin(term: TerminalUnderTest): Promise<void> {
  await term.waitFor('Start a job');
  await say(term, '1', 'Which procedure');
  await term.rest();
  await say(term, '1', 'Name of the job');
  await say(term, 'Bench job\r', 'Your initials');
  await say(term, 'AP\r', 'Who works on it?');
  await say(term, '1', 'Before you begin');
  await term.rest();
  await say(term, '\r', 'Name the machine');
}

test('a job begun, left and found again, with what was being typed', async () => {
  const term = program.open();
  await begin(term);
  await say(term, 'Invented motor', '> Invented motor');
  await program.keeps('Invented motor');
  term.write('\x03');
  expect((await term.exit).code).toBe(130);

  const again = program.open();
  await again.waitFor('Bench job');
  await say(again, '1', 'Next: Whole job, Name the machine.');
  await again.rest();
  await say(again, '\r', '> Invented motor');
  await say(again, ' 30\r', 'Recorded  Machine: Invented motor 30');
  again.press('escape');
  await again.waitFor('type on');
  await again.rest();
  again.press('escape');
  await again.waitFor('leave this job');
  await say(again, 'l', 'Start a job');
  again.write('q');
  expect((await again.exit).code).toBe(0);
});

test('no frame scrolls the terminal, at any size, nor after a resize in mid-typing', async () => {
  const term = program.open();
  await begin(term);
  await say(term, 'Motor', '> Motor');
  expect(term.scrolledOff()).toEqual([]);
  for (const [cols, rows] of [
    [60, 20],
    [120, 40],
    [44, 12],
    [80, 24],
  ] as const) {
    term.resize(cols, rows);
    await term.waitFor('> Motor');
    await term.taken();
    expect(term.screen()).toContain('> Motor');
  }
  // What a window made lower pushes up is the terminal's own; what stood there before is kept.
  expect(term.raw()).not.toContain('\x1b[3J');
});

test('with NO_COLOR nothing is coloured', async () => {
  const term = program.open([], { noColor: true });
  await begin(term);
  expect(term.raw()).not.toMatch(/\x1b\[(?:3[0-7]|9[0-7]|38;|2m)/);
});

test('a locale without UTF-8 gets ASCII', async () => {
  const term = program.open([], { lang: 'C' });
  await begin(term);
  expect(term.screen()).toMatch(/^[\x20-\x7e\n]*$/);
});

test('a held Enter walks into no answer', async () => {
  const term = program.open();
  await begin(term);
  await say(term, 'Motor\r', 'Rotor or serial number');
  await say(term, 'R1\r', 'Bearings to open');
  await holdDown(term, program.clock, '\r', 1500);
  expect(term.screen()).toContain('Bearings to open');
  expect(term.screen()).toContain('Recorded  Rotor or serial number: R1');
});
