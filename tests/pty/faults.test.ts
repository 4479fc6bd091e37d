/** The disk fails under an open job: the screen says so in one sentence, keeps the question and goes on when it can. */
import { existsSync, readFileSync, renameSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { noMounts, onSmallDisk, remount } from '../store/private-mount.js';
import { goOn, practiceFile, readReplay } from './drive.js';
import { closeTerminals, type TerminalUnderTest } from './harness.js';
import { jobBefore } from './job-at.js';
import { newProgram, type Program } from './program.js';

afterEach(() => closeTerminals());

const file = readReplay(practiceFile);
const flat = (screen: string): string => screen.replace(/\s+/g, ' ');

async function opened(program: Program): Promise<TerminalUnderTest> {
  const term = program.open(['resume']);
  await goOn(term);
  await term.waitFor('Balls, as claimed');
  return term;
}

/** Presses the answer: refused with a sentence, the question stays, and other pages can be looked at. */
async function refused(term: TerminalUnderTest, sentence: RegExp): Promise<void> {
  term.write('1');
  const said = flat(await term.waitFor((s) => /could not be saved/.test(flat(s))));
  expect(said).toMatch(sentence);
  expect(said.match(/could not be saved/g)).toHaveLength(1);
  expect(said).toContain('Balls, as claimed');
  expect(said).not.toContain('Recorded Balls');
  // Usable: why, menu, and back.
  term.write('w');
  await term.waitFor('If you skip this');
  term.press('escape');
  await term.waitFor('Balls, as claimed');
  term.write('m');
  await term.waitFor('Correct an earlier reading');
  term.press('escape');
  await term.waitFor('Balls, as claimed');
}

async function worksAgain(program: Program, term: TerminalUnderTest, before: number): Promise<void> {
  await term.rest();
  term.write('1');
  await term.waitFor('Limiting speed, open');
  await term.rest();
  term.write('13000\r');
  await term.waitFor('PA66 (nylon)');
  const entries = program.entries(file.name);
  expect(entries).toHaveLength(before + 2);
  expect(entries.slice(-2)).toMatchObject([{ key: 'hybrid_claim' }, { key: 'open_limit', value: 13_000 }]);
}

/** Leaves that many bytes free. */
function fill(folder: string, leave: number): string {
  const filling = join(folder, 'fill');
  const { bavail, bsize } = statfsSync(folder);
  writeFileSync(filling, Buffer.alloc(Math.max(0, bavail * bsize - leave)));
  return filling;
}

describe('the data folder', () => {
  test('moved away and put back', async () => {
    const program = newProgram();
    await jobBefore(program, file, 'make', 'a');
    const before = program.entries(file.name).length;
    const term = await opened(program);
    renameSync(program.data, `${program.data}-away`);
    await refused(
      term,
      new RegExp(`This entry could not be saved because .*All ${before} entries before it are kept\\.`),
    );
    expect(existsSync(program.data)).toBe(false);
    renameSync(`${program.data}-away`, program.data);
    await worksAgain(program, term, before);
    program.remove();
  });

  test('removed for good: nothing is made in its place, and the program can be left', async () => {
    const program = newProgram();
    await jobBefore(program, file, 'make', 'a');
    const term = await opened(program);
    rmSync(program.data, { recursive: true });
    await refused(term, /This entry could not be saved because /);
    term.press('ctrl-c');
    expect(await term.exit).toEqual({ code: 130 });
    expect(existsSync(join(program.data, 'jobs'))).toBe(false);
    program.remove();
  });
});

describe.skipIf(noMounts !== undefined)(`a disk of its own${noMounts ? ` (skipped: ${noMounts})` : ''}`, () => {
  test('full, then with room again', async () => {
    await onSmallDisk('2m', async (disk) => {
      const program = newProgram(join(disk, 'data'));
      await jobBefore(program, file, 'make', 'a');
      const before = program.entries(file.name).length;
      const term = await opened(program);
      const filling = fill(disk, 0);
      await refused(
        term,
        new RegExp(
          `This entry could not be saved because the disk is full\\. All ${before} entries before it are kept\\. Free some space`,
        ),
      );
      rmSync(filling);
      await worksAgain(program, term, before);
      term.press('ctrl-c');
      await term.exit;
      program.remove();
    });
  });

  test('full when a job is begun: no half job, and the form stays', async () => {
    await onSmallDisk('1m', async (disk) => {
      const program = newProgram(join(disk, 'data'));
      await jobBefore(program, file, 'make', 'a');
      const filling = fill(disk, 0);
      const term = program.open();
      await term.waitFor('Start a job');
      term.write(/(\d) +Start a job/.exec(term.screen())?.[1] ?? '');
      const which = await term.waitFor('Which procedure?');
      term.write(/(\d) +Regrease /.exec(which)?.[1] ?? '');
      await term.waitFor('Name of the job');
      term.write('Another rotor\r');
      await term.waitFor('Your initials');
      term.write('AB\r');
      await term.waitFor('Who works on it?');
      term.write('1');
      await term.waitFor('Before you begin');
      await term.rest();
      term.write('\r');
      const said = flat(await term.waitFor((s) => /could not be saved|is full/.test(flat(s))));
      expect(said).toMatch(/The new job could not be saved because the disk is full\. Other jobs are not touched\./);
      rmSync(filling);
      expect(program.entries(file.name).length).toBeGreaterThan(10);
      term.press('ctrl-c');
      expect(await term.exit).toEqual({ code: 130 });
      expect((await program.run('sheet', 'Another rotor')).code).toBe(1);
      program.remove();
    });
  });

  test('turned read-only, then writable again', async () => {
    await onSmallDisk('2m', async (disk) => {
      const program = newProgram(join(disk, 'data'));
      await jobBefore(program, file, 'make', 'a');
      const before = program.entries(file.name).length;
      const term = await opened(program);
      remount(disk, 'ro');
      await refused(
        term,
        new RegExp(
          `This entry could not be saved because the disk can only be read\\. All ${before} entries before it are kept`,
        ),
      );
      remount(disk, 'rw');
      await worksAgain(program, term, before);
      term.press('ctrl-c');
      await term.exit;
      program.remove();
    });
  });

  test('read-only from the start: the job can be looked at and says why it can only be that', async () => {
    await onSmallDisk('2m', async (disk) => {
      const program = newProgram(join(disk, 'data'));
      await jobBefore(program, file, 'make', 'a');
      remount(disk, 'ro');
      const term = program.open(['resume']);
      const said = flat(await term.waitFor('leave this job'));
      expect(said).toContain('can only be looked at because the disk can only be read');
      await goOn(term);
      await term.waitFor('Balls, as claimed');
      await term.rest();
      term.write('1');
      await term.taken();
      expect(term.screen()).toContain('Balls, as claimed');
      term.press('ctrl-c');
      expect(await term.exit).toEqual({ code: 130 });
      program.remove();
    });
  });
});

test('a damaged job is offered back in part, with what that means, and the damaged file is kept', async () => {
  const program = newProgram();
  await jobBefore(program, file, 'make', 'a');
  const entries = program.entries(file.name);
  const [id] = readFileSync(join(program.data, 'index.jsonl'), 'utf8').match(/[a-z0-9-]+-[a-z0-9]{8}/) ?? [];
  const job = join(program.data, 'jobs', `${id}.json`);
  const text = readFileSync(job, 'utf8');
  rmSync(join(program.data, 'previous'), { recursive: true, force: true });
  writeFileSync(job, text.slice(0, Math.floor(text.length * 0.7)));
  const term = program.open(['resume']);
  const said = flat(await term.waitFor('This job is damaged'));
  expect(said).toMatch(/\d+ entries up to .* can be had back from .*, and the damaged file is kept aside/);
  await term.rest();
  term.write('2');
  await term.waitFor('leave this job');
  await term.waitFor((s) => /The damaged file .* was set aside as .*damaged/.test(flat(s)));
  const back = program.entries(file.name);
  expect(back.length).toBeGreaterThan(5);
  // What was recovered, and a note in the job that tells of it and of what is missing.
  expect(back.slice(0, -1)).toEqual(entries.slice(0, back.length - 1));
  expect(back.at(-1)).toMatchObject({ kind: 'note', text: expect.stringMatching(/^Recovered\. .*Missing: entry \d+/) });
  term.press('ctrl-c');
  await term.exit;
  program.remove();
});
