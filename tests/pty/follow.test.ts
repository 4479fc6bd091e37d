/** A job that follows a finished one: which may be followed, what comes over from it, and its sheet. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { replay } from '../../src/engine/replay/replay.js';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { modelOf } from '../../src/procedure/model.js';
import { summaryOf } from '../../src/screens/words/summary.js';
import { newContent } from '../../src/store/job-file.js';
import { writeTransfer } from '../../src/store/transfer-job.js';
import { Driver, practiceFile, readReplay } from './drive.js';
import { closeTerminals, type TerminalUnderTest } from './harness.js';
import { newProgram, type Program } from './program.js';
import { screenReader, shipped } from './read-screen.js';

const first = readReplay(practiceFile);
const look = readReplay(new URL('../procedure/replays/inspect.replay.yaml', import.meta.url));
const { procedure } = shipped(look.procedure);

let program: Program;
beforeEach(() => {
  program = newProgram();
});
afterEach(() => {
  closeTerminals();
  program.remove();
});

/** Puts a job into the program's data, as its own screens would have left it. */
async function put(file: ReplayFile, practice = false): Promise<void> {
  const { procedure, hash, tables } = shipped(file.procedure);
  const made = replay(modelOf(procedure, hash, tables, calculators), { ...file, invented: practice });
  if (!made.ok) throw new Error(made.message);
  const folder = mkdtempSync(join(tmpdir(), 'rotorside-pty-'));
  const exported = join(folder, 'job.json');
  const entries = [...made.state.entries];
  if (entries[0]?.kind === 'job' && practice) entries[0] = { ...entries[0], practice: 'college-30kw' };
  writeTransfer(newContent('made-for-a-test', file.name, entries, summaryOf(made.state, 'job')), exported);
  const taken = await program.run('import', exported);
  rmSync(folder, { recursive: true });
  expect(taken).toMatchObject({ code: 0 });
}
const half = { ...first, name: 'Half done', steps: first.steps.slice(0, 30) };

const flat = (screen: string): string => screen.replace(/[\s\u00a0]+/g, ' ');

async function newLook(term: TerminalUnderTest, known = false): Promise<void> {
  const home = await term.waitFor('Start a job');
  term.write(/(\d) +Start a job/.exec(home)?.[1] ?? '');
  if (known) {
    // The rotor of the finished job; practice and what is half done make none known.
    await term.waitFor('Which rotor?');
    expect(term.screen()).not.toMatch(/^ *3 /m);
    await term.taken();
    term.write('2');
  }
  await term.waitFor('Which procedure?');
  // The same key again is a press of its own only after a rest.
  await term.rest();
  term.write('2');
}

test('without a finished job to follow it says so and starts nothing', async () => {
  await put(half);
  await put({ ...first, name: 'Only practised' }, true);
  const term = program.open();
  await newLook(term);
  await term.waitFor((s) => flat(s).includes('reads a finished job of “Regrease a bearing in place”'));
  expect(flat(term.screen())).toContain('and there is none here. Finish that job first, or import it.');
  expect(flat(term.screen())).toContain('no finished job to follow yet');
  expect(term.screen()).toContain('Which procedure?');
});

test('offers finished jobs only, takes their values over, and its sheet says what it follows', async () => {
  await put(half);
  await put({ ...first, name: 'Only practised' }, true);
  await put(first);
  program.stand('2026-04-13T08:00:00Z');
  const term = program.open();
  await newLook(term, true);
  await term.waitFor('Which finished job does it follow?');
  expect(term.screen()).toMatch(/^ *1 +College test bench 30 kW rotor +\(finished /m);
  expect(term.screen()).not.toMatch(/Half done|Only practised/);
  await term.rest();
  term.write('1');
  await term.waitFor('Name of the job');
  term.write(`${look.name}\r`);
  await term.waitFor('Your initials');
  term.write('AP\r');
  await term.waitFor('Who works on it?');
  term.write('3');
  await term.waitFor('Initials of the apprentice');
  term.write('AP\r');
  await term.waitFor('Initials of the mentor');
  term.write('MN\r');
  // Hours that it runs on a usual day, as in the first job.
  await term.waitFor('Known from earlier jobs');
  await term.taken();
  term.write('1');
  await term.waitFor('Before you begin');
  await term.rest();
  term.press('enter');
  // Machine and rotor as they were named in the first job.
  await term.waitFor('Is it this rotor');
  const named = first.steps.flatMap((s) => ('step' in s && s.answers?.machine ? [s.answers] : []))[0];
  expect(flat(term.screen().replaceAll('┃', ' '))).toContain(
    `Check that the plate reads ${String(named?.machine)}, rotor ${String(named?.rotor)}.`,
  );

  const driver = new Driver({ program, reader: screenReader(procedure), procedure, file: look, pace: 'fast' });
  let place = '';
  for (let more = true; more; ) {
    const now = await driver.stands(term);
    // A log of one column asks the same again: the driver would not see that it went on.
    if (now.kind === 'step' && now.step.repeat && now.wants === 'question' && now.step.ask?.length === 1) {
      // Each bearing has a log of its own, and the driver counts the rows of a step.
      if (now.place !== place) driver.setRow(now.step.id, 0);
      place = now.place;
      driver.pass(now);
      const { keys, given } = driver.keysFor(now, term.screen());
      await driver.press(term, keys);
      await term.rest();
      await term.taken();
      driver.done(now, given);
    } else more = await driver.step(term);
  }
  term.press('ctrl-c');
  await term.exit;

  const md = (await program.run('sheet', look.name, '--format', 'md')).out;
  expect(md).toMatch(/\| Follows the job \| \S+ \|/);
  expect(md).toContain('## From the first sheet');
  const json = JSON.parse((await program.run('sheet', look.name, '--format', 'json')).out);
  expect(json.head).toMatchObject({ finished: true, open: [] });
  expect((await program.run('sheet', json.head.earlier, '--format', 'md')).out).toContain(`Job sheet: ${first.name}`);
  // What was dosed then, read off in the first job: 2.3 mL and 1.4 mL.
  const then = json.groups.flatMap((g: { figures: { key: string; value: number }[] }) =>
    g.figures.filter((f) => f.key === 'dose_then').map((f) => f.value),
  );
  expect(then).toEqual([2.3, 1.4]);
  expect((await program.run('sheet', look.name, '--format', 'html')).out).toContain('Follows the job');

  // Elsewhere, without the first job, it is the same sheet: it carries what it reads.
  const elsewhere = mkdtempSync(join(tmpdir(), 'rotorside-pty-'));
  const exported = join(elsewhere, 'job.json');
  expect(await program.run('export', look.name, exported)).toMatchObject({ code: 0 });
  const there = join(elsewhere, 'data');
  expect(await program.run('import', exported, '--data', there)).toMatchObject({ code: 0 });
  // Each folder gives a job its own number.
  const same = (sheet: string): string => sheet.replace(/\| Job number \| \S+ \||\*\*Job:\*\* \S+/g, '');
  expect(same((await program.run('sheet', look.name, '--format', 'md', '--data', there)).out)).toBe(same(md));
  rmSync(elsewhere, { recursive: true });
});
