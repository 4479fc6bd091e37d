import { mkdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { defaultDataFolder, openStore } from '../../src/store/open-store.js';
import { answer, filesIn, first, got, makeJob, newFolder, troubleIn } from './sample-job.js';

test('a job comes back as it was written, from another window, in order and stamped', async () => {
  const folder = newFolder();
  let now = Date.parse('2031-05-04T09:00:00Z');
  const clock = (): Date => {
    now += 1000;
    return new Date(now);
  };
  const store = openStore(folder, { clock, random: () => 'abcdefgh' });
  const job = got(await store.create('Motor Ä 12/7', first, { phase: 'open' }));
  expect(job.id).toBe('motor-a-12-7-abcdefgh');
  const added = got(
    job.append([answer(0.35), { kind: 'note', by: 'CD', place: 'job', text: 'bell \u0007 \ud800 \u202e ü' }]),
  );
  expect(added.map(({ seq, at, by }) => [seq, at, by])).toEqual([
    [2, '2031-05-04T09:00:02.000Z', 'AB'],
    [3, '2031-05-04T09:00:02.000Z', 'CD'],
  ]);
  await job.close();
  const again = got(await openStore(folder).open(job.id));
  expect(again.entries).toEqual(job.entries);
  expect(again.readOnly).toBe(false);
  await again.close();
});

test('the list has the summary of the last save', async () => {
  const folder = newFolder();
  const store = openStore(folder);
  const one = got(await store.create('One', { ...first, practice: 'rotor-1' }));
  const two = got(await store.create('Two', first));
  got(one.append(answer(1), { phase: 'clean', percent: 40, waiting: true }));
  const heads = got(store.list());
  expect(heads.map(({ id }) => id)).toEqual([two.id, one.id]);
  expect(heads[1]).toEqual({
    id: one.id,
    name: 'One',
    practice: 'rotor-1',
    whose: 'AB',
    procedure: 'regrease-in-place',
    changed: one.entries[1]!.at,
    entries: 2,
    summary: { phase: 'clean', percent: 40, waiting: true },
  });
  await one.close();
  await two.close();
});

test('an empty or missing folder has no jobs and is not made by looking', () => {
  const folder = join(newFolder(), 'not', 'yet');
  expect(got(openStore(folder).list())).toEqual([]);
  expect(() => statSync(folder)).toThrow();
});

test('everything is private to its owner', async () => {
  const { folder, store, job } = await makeJob(2);
  job.setDraftTexts([{ where: 'residue|a|volume', text: '0.3' }]);
  got(await store.setPreferences({ bell: true }));
  await job.close();
  for (const name of filesIn(folder)) {
    const stat = statSync(join(folder, name));
    expect([name, (stat.mode & 0o777).toString(8)]).toEqual([name, stat.isDirectory() ? '700' : '600']);
  }
});

test.each([
  '../x',
  '..',
  '',
  '/etc/passwd',
  'a/b-abcdefgh',
  'con',
  'job-ABCDEFGH',
  `${'a'.repeat(90)}-abcdefgh`,
  '\0-abcdefgh',
])('the id %j is refused', async (id) => {
  const store = openStore(newFolder());
  expect(troubleIn(await store.open(id)).code).toBe('unknown-job');
  expect(troubleIn(store.exportJob(id, '/tmp/never')).code).toBe('unknown-job');
});

test('no name leads out of the folder', async () => {
  const folder = newFolder();
  for (const name of ['../../up', '/abs', 'CON', '.', 'a\0b', '机器', '\u202ehidden', 'x'.repeat(200)]) {
    const job = got(await openStore(folder).create(name, first));
    expect(job.id).toMatch(/^[a-z0-9][a-z0-9-]*-[a-z0-9]{8}$/);
    await job.close();
    got(await openStore(folder).open(job.id, { readOnly: true }));
  }
  expect(filesIn(join(folder, 'jobs'))).toHaveLength(8);
});

test('an entry that is not well formed is refused with what was expected, and nothing changes', async () => {
  const { job, file } = await makeJob(1);
  const before = statSync(file).mtimeMs;
  for (const bad of [
    answer(Number.NaN),
    answer(Number.POSITIVE_INFINITY),
    { kind: 'undo', by: 'AB', of: 9 } as const,
  ]) {
    expect(troubleIn(job.append(bad)).code).toBe('invalid');
  }
  expect(troubleIn(job.append(answer(Number.NaN))).sentence).toMatch(/value: expected a number/);
  expect(job.entries).toHaveLength(2);
  expect(statSync(file).mtimeMs).toBe(before);
  got(job.append(answer(1)));
  await job.close();
});

test('typed texts come back until they are taken away', async () => {
  const { store, job } = await makeJob(1);
  const typed = [
    { where: 'residue|a|volume', text: '0.3' },
    { where: 'residue|b|volume', text: '0,4' },
  ];
  job.setDraftTexts(typed);
  await job.close();
  const again = got(await store.open(job.id));
  expect(again.draftTexts()).toEqual(typed);
  again.setDraftTexts(typed.slice(1));
  await again.close();
  const third = got(await store.open(job.id));
  expect(third.draftTexts()).toEqual(typed.slice(1));
  third.setDraftTexts([]);
  await third.close();
  const fourth = got(await store.open(job.id));
  expect(fourth.draftTexts()).toEqual([]);
  await fourth.close();
});

test('the one text of an older file comes back too, and what is none does not', async () => {
  const { folder, store, job } = await makeJob(1);
  await job.close();
  mkdirSync(join(folder, 'drafts'), { recursive: true });
  const file = join(folder, 'drafts', `${job.id}.json`);
  writeFileSync(file, JSON.stringify({ where: 'residue|a|volume', text: '0.3' }));
  const old = got(await store.open(job.id));
  expect(old.draftTexts()).toEqual([{ where: 'residue|a|volume', text: '0.3' }]);
  await old.close();
  const good = { where: 'x', text: '1' };
  writeFileSync(file, JSON.stringify({ drafts: [null, 7, { where: 1, text: '1' }, { where: 'x' }, good] }));
  const odd = got(await store.open(job.id));
  expect(odd.draftTexts()).toEqual([good]);
  await odd.close();
});

test('of a great many typed texts the newest are kept', async () => {
  const { store, job } = await makeJob(1);
  job.setDraftTexts(Array.from({ length: 30 }, (_, i) => ({ where: `at ${i}`, text: 'x'.repeat(30_000) })));
  await job.close();
  const again = got(await store.open(job.id));
  expect(again.draftTexts().at(-1)).toEqual({ where: 'at 29', text: 'x'.repeat(20_000) });
  expect(again.draftTexts().length).toBeLessThan(10);
  await again.close();
});

// XDG Base Directory Specification: $XDG_DATA_HOME, else ~/.local/share; a relative path is to be ignored. [P]
test('the data folder follows the platform', () => {
  expect(defaultDataFolder({}, 'linux', '/home/a')).toBe('/home/a/.local/share/rotorside');
  expect(defaultDataFolder({ XDG_DATA_HOME: '/d' }, 'linux', '/home/a')).toBe('/d/rotorside');
  expect(defaultDataFolder({ XDG_DATA_HOME: 'd' }, 'linux', '/home/a')).toBe('/home/a/.local/share/rotorside');
  expect(defaultDataFolder({}, 'darwin', '/Users/a')).toBe('/Users/a/Library/Application Support/rotorside');
  expect(defaultDataFolder({ ROTORSIDE_DATA: '/x' }, 'linux', '/home/a')).toBe('/x');
});

test('whether a job could be saved is told before anybody fills one in', () => {
  const folder = newFolder();
  expect(openStore(join(folder, 'not', 'there', 'yet')).canSave()).toEqual({ ok: true, value: true });
  writeFileSync(join(folder, 'file'), 'x');
  const trouble = troubleIn(openStore(join(folder, 'file')).canSave());
  expect(trouble).toMatchObject({ code: 'gone', sentence: expect.stringContaining('No job can be saved in') });
  expect(trouble.sentence).toContain('a file stands where the folder should be');
});

test('a job that is only looked at keeps up with the program that works on it', async () => {
  const { folder, job } = await makeJob(2);
  const look = got(await openStore(folder).open(job.id, { readOnly: true }));
  expect(look.reread()).toBe(false);
  got(job.append(answer(7)));
  expect(look.entries).toHaveLength(3);
  expect(look.reread()).toBe(true);
  expect(look.entries).toHaveLength(4);
  expect(look.reread()).toBe(false);
  // Whoever works on it knows what it wrote.
  expect(job.reread()).toBe(false);
  await job.close();
});
