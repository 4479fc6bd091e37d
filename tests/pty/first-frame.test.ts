/** The first frame stands before ink is loaded: what is typed or resized meanwhile, and how ink goes over it. */
import xterm from '@xterm/headless';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { putJob } from '../store/put-job.js';
import { closeTerminals } from './harness.js';
import { newProgram, type Program } from './program.js';
import { shipped } from './read-screen.js';

let program: Program;
beforeEach(() => {
  program = newProgram();
});
afterEach(() => {
  closeTerminals();
  program.remove();
});

/** Where ink's frame begins: up over the first one, which is erased. */
// biome-ignore lint/complexity/useRegexLiterals: escape characters read better in a string
const over = new RegExp('\\u001b\\[\\d+A\\r\\u001b\\[J');

/** Every cell of a screen with its letter and its style. */
async function cells(written: string): Promise<string[]> {
  const term = new xterm.Terminal({ cols: 80, rows: 24, allowProposedApi: true });
  await new Promise<void>((done) => term.write(written, done));
  return Array.from({ length: 24 }, (_, y) => {
    const line = term.buffer.active.getLine(y);
    return Array.from({ length: 80 }, (_cell, x) => {
      const c = line?.getCell(x);
      return c?.getChars().trim() ? [c.getChars(), c.isBold(), c.isDim(), c.isInverse(), c.getFgColor()].join('') : ' ';
    }).join('');
  });
}

test('ink draws the same frame over it, letter by letter and style by style', async () => {
  const term = program.open();
  await term.waitFor('Start a job');
  await term.waitFor(() => over.test(term.raw()));
  await term.taken();
  const [first = '', second] = term.raw().split(over);
  expect(first).toContain('Start a job');
  expect(second).toContain('Start a job');
  const drawn = await cells(first);
  expect(drawn).toEqual(await cells(term.raw()));
  expect(drawn.join('')).toContain('S');
  expect(term.raw()).not.toContain('\u001b[3J');
});

test('no key is lost that is pressed as soon as it stands', async () => {
  const term = program.open();
  await term.waitFor('Start a job');
  term.write('?');
  await term.waitFor('All keys');
  term.write('\u0003');
  expect((await term.exit).code).toBe(130);
});

test('Ctrl-C, SIGTERM and a closed window end it as soon as it stands', async () => {
  for (const [end, code] of [['\u0003', 130] as const, ['SIGTERM', 143] as const]) {
    const term = program.open();
    await term.waitFor('Start a job');
    if (end === 'SIGTERM') term.kill(end);
    else term.write(end);
    expect((await term.exit).code).toBe(code);
    expect(term.raw()).toContain('\u001b[?25h');
  }
});

for (const [cols, rows] of [
  [50, 24],
  [80, 12],
  [110, 40],
  [50, 12],
] as const)
  test(`made ${cols} by ${rows} between the first frame and ink's`, async () => {
    const term = program.open();
    await term.waitFor('Start a job');
    await term.stop();
    term.resize(cols, rows);
    term.kill('SIGCONT');
    await term.waitFor(() => over.test(term.raw()));
    await term.taken();
    const screen = term.lines();
    expect(screen.filter((l) => l.includes('Start a job'))).toHaveLength(1);
    expect(screen.filter((l) => /^ rotorside/.test(l))).toHaveLength(1);
    expect(screen.filter((l) => l.includes('q close'))).toHaveLength(1);
    // What is pressed in the moment of coming back does not count.
    await term.rest();
    term.write('q');
    expect((await term.exit).code).toBe(0);
  });

test.each([
  // One in which nobody typed anything yet stands before what is said openly.
  ['not worked on yet', [], 'Before you begin'],
  [
    'begun',
    [{ kind: 'answer', by: 'AP', step: 'machine', place: 'job', key: 'machine', value: 'Motor 1', typed: 'Motor 1' }],
    'PRACTICE',
  ],
] as const)('resume goes straight to the job, %s: the list of jobs does not flash up', async (_is, more, shows) => {
  const { procedure, hash } = shipped('regrease-in-place');
  const { procedure: id, version } = procedure;
  const job = { kind: 'job', by: 'AP', name: 'The quiet one', procedure: id, version, hash, practice: 'quiet-one' };
  const entries = [{ ...job, apprentice: 'AP' }, ...more].map(
    (e, i) => ({ ...e, seq: i + 1, at: '2026-03-02T08:00:00Z' }) as Entry,
  );
  await putJob(program.data, 'The quiet one', entries);
  const term = program.open(['resume']);
  await term.waitFor(shows);
  await term.taken();
  expect(term.raw()).not.toMatch(/Start a job|Go on with a job/);
  term.write('\u0003');
  expect((await term.exit).code).toBe(130);
});
