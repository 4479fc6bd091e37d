/** The real program in a real terminal: what no fake terminal shows. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { closeTerminals, openTerminal, type TerminalOptions, type TerminalUnderTest } from './harness.js';

afterEach(closeTerminals);

const start = (
  options: Partial<TerminalOptions> = {},
  folder = mkdtempSync(join(tmpdir(), 'rotorside-')),
): TerminalUnderTest => openTerminal({ args: ['dist/cli.js', '--data', folder], ...options });

/** A person does not answer two screens with one key in a moment; the held-key guard sees to that. */
const breath = 600;

/** Types one answer and waits for the screen that follows, as a person does. */
async function say(term: TerminalUnderTest, text: string, next: string | RegExp): Promise<void> {
  term.write(text);
  await term.waitFor(next);
}

async function begin(term: TerminalUnderTest): Promise<void> {
  await term.waitFor('Start a job');
  await say(term, '1', 'Which procedure');
  await term.settled(breath);
  await say(term, '1', 'Name of the job');
  await say(term, 'Bench job\r', 'Your initials');
  await say(term, 'AP\r', 'Who works on it?');
  await say(term, '1', 'Before you begin');
  await term.settled(breath);
  await say(term, '\r', 'Name the machine');
}

test('a job begun, left and found again, with what was being typed', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'rotorside-'));
  const term = start({}, folder);
  await begin(term);
  await say(term, 'Invented motor', '> Invented motor');
  await term.settled(600);
  term.write('\x03');
  expect((await term.exit).code).toBe(130);

  const again = start({}, folder);
  await again.waitFor('Bench job');
  await say(again, '1', 'Next: Whole job, Name the machine.');
  await again.settled(breath);
  await say(again, '\r', '> Invented motor');
  await say(again, ' 30\r', 'Recorded  Machine: Invented motor 30');
  again.press('escape');
  await again.waitFor('type on');
  again.press('escape');
  await again.waitFor('leave this job');
  await say(again, 'l', 'Start a job');
  again.write('q');
  expect((await again.exit).code).toBe(0);
});

test('no frame scrolls the terminal, at any size, nor after a resize in mid-typing', async () => {
  const term = start();
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
    await term.settled();
    expect(term.screen()).toContain('> Motor');
  }
  // What a window made lower pushes up is the terminal's own; what stood there before is kept.
  expect(term.raw()).not.toContain('\x1b[3J');
});

test('with NO_COLOR nothing is coloured', async () => {
  const term = start({ noColor: true });
  await begin(term);
  expect(term.raw()).not.toMatch(/\x1b\[(?:3[0-7]|9[0-7]|38;|2m)/);
});

test('a locale without UTF-8 gets ASCII', async () => {
  const term = start({ lang: 'C' });
  await begin(term);
  expect(term.screen()).toMatch(/^[\x20-\x7e\n]*$/);
});

test('a held Enter walks into no answer', async () => {
  const term = start();
  await begin(term);
  await say(term, 'Motor\r', 'Rotor or serial number');
  await say(term, 'R1\r', 'Bearings to open');
  for (let i = 0; i < 40; i++) {
    term.write('\r');
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
  await term.settled();
  expect(term.screen()).toContain('Bearings to open');
  expect(term.screen()).toContain('Recorded  Rotor or serial number: R1');
});
