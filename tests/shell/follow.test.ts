/** A job that follows another carries what it reads of it: its sheet is the same where the other is not. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { carrying } from '../../src/commands/job-basis.js';
import type { Draft, Entry } from '../../src/engine/journal/entry.js';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { carriedValues, earlierValues } from '../../src/engine/state/earlier.js';
import { type Library, type Shipped, tablesOf } from '../../src/library/library.js';
import { readDocument } from '../../src/procedure/document.js';
import { newContent } from '../../src/store/job-file.js';
import { openStore } from '../../src/store/open-store.js';
import { writeTransfer } from '../../src/store/transfer-job.js';
import { allModels } from '../training/library.js';
import { goodFile, newFolder, run } from './shell.js';

const lookFile = fileURLToPath(new URL('../procedure/replays/inspect.replay.yaml', import.meta.url));
const fileOf = (path: string): ReplayFile =>
  readDocument<ReplayFile>(readFileSync(path, 'utf8'), path, replaySchema).value!;
const compiled = fileURLToPath(new URL('../../dist/shipped.json', import.meta.url));
const shipped = JSON.parse(readFileSync(compiled, 'utf8')) as Shipped;
const library: Library = {
  tables: tablesOf(shipped.tables),
  procedures: new Map(shipped.procedures.map((p) => [p.procedure.procedure, p])),
  rotors: new Map(),
};
type First = Extract<Draft, { kind: 'job' }>;

const file = { ...fileOf(goodFile), invented: false };
const parent = replay(allModels.get(file.procedure)!, file);
const lookModel = allModels.get('inspect-after-run')!;
const known = earlierValues(lookModel.procedure, parent.state);
if (!known.ok) throw new Error(known.message);
const look = replay(lookModel, { ...fileOf(lookFile), invented: false }, { earlier: known.values });

/** Puts a job into a folder with its times, as an export from elsewhere brings it. */
async function put(
  data: string,
  name: string,
  [head, ...rest]: readonly Entry[],
  bend: (first: First) => First | Promise<First>,
) {
  const first = await bend(head as First);
  const entries = [{ ...first, seq: 1, at: head?.at } as Entry, ...rest];
  const out = join(newFolder(), 'job.json');
  writeTransfer(newContent('made-for-a-test', name, entries, { finished: true }), out);
  const taken = await openStore(data).importJob(out);
  if (!taken.ok) throw new Error(taken.trouble.sentence);
  return { id: taken.value.id, entries };
}

/** Both jobs in a new folder; the one that follows with or without the figures in its first entry. */
async function both(carries: boolean) {
  const data = newFolder();
  const before = await put(data, 'First', parent.state.entries, (first) => first);
  const after = await put(data, 'Look', look.state.entries, ({ earlierValues: _, ...first }) => {
    const bare = { ...first, earlier: before.id };
    return carries
      ? carrying(library, data, bare, async (id) => (id === before.id ? before.entries : undefined))
      : bare;
  });
  const sheet = await run('sheet', after.id, '--data', data);
  expect(sheet).toMatchObject({ code: 0, err: '' });
  expect(sheet.out).not.toContain('NOT FINISHED');
  return { data, before, after, sheet: sheet.out };
}

async function moved(from: string, id: string) {
  const out = join(newFolder(), 'job.json');
  expect((await run('export', id, out, '--data', from)).code).toBe(0);
  const data = newFolder();
  const imported = await run('import', out, '--data', data);
  expect(imported.code).toBe(0);
  return {
    imported,
    sheet: (await run('sheet', '--data', data)).out,
    html: (await run('sheet', '--data', data, '--format', 'html')).out,
  };
}

test('its first entry holds what its procedure reads, and nothing else', async () => {
  const { after } = await both(true);
  const first = after.entries[0];
  if (first?.kind !== 'job') throw new Error('no first entry');
  expect(new Map(Object.entries(first.earlierValues ?? {}))).toEqual(known.values);
  // Read off in the first job: 2.3 mL and 1.4 mL.
  expect(first.earlierValues).toMatchObject({ 'dose_set@a': 2.3, 'dose_set@b': 1.4 });
  const read = new Set(Object.values(lookModel.procedure.follows?.reads ?? {}).map((r) => r.key));
  expect(Object.keys(first.earlierValues ?? {}).filter((name) => !read.has(name.split('@')[0] ?? ''))).toEqual([]);
});

/** Each folder gives a job its own number; the code on the tag holds it too. */
const same = (sheet: string): string =>
  sheet
    .replace(/\b(first|look)(-|\\2d )[0-9a-z]{8}/g, '$1')
    .replace(/(<title>QR code of the words on this tag<\/title>.*?<path d=")[^"]*/g, '$1');

test('taken into an empty folder it has the same sheet', async () => {
  const here = await both(true);
  const there = await moved(here.data, here.after.id);
  expect(there.imported.err).toBe('');
  expect(same(there.sheet)).toBe(same(here.sheet));
  expect(same(there.html)).toBe(same((await run('sheet', here.after.id, '--data', here.data, '--format', 'html')).out));
});

test('a job that was begun before reads the other one; where that is not, it says so', async () => {
  const here = await both(false);
  // What the first entry carries is part of the record, and so of its check number.
  const bare = (sheet: string): string =>
    same(sheet).replace(/(This record: \d+ entries, check number) [0-9a-f]+/, '$1');
  expect(bare(here.sheet)).toBe(bare((await both(true)).sheet));
  const there = await moved(here.data, here.after.id);
  expect(there.imported.err).toContain('it is not here');
  expect(there.sheet).toContain('NOT FINISHED');
});

test('figures that its procedure does not read, or reads as another type, do not count', () => {
  const { values, unfit } = carriedValues(lookModel.procedure, {
    'machine@job': 7,
    'top_speed@job': 'fast',
    'work_a@job': [true],
    'strange@job': 1,
    'rotor@job': 'R-1',
    'dose_set@a': 2.3,
  });
  expect([...values]).toEqual([
    ['rotor@job', 'R-1'],
    ['dose_set@a', 2.3],
  ]);
  expect(unfit).toBe(4);
});

test('of a forged journal the import tells how many do not fit', async () => {
  const data = newFolder();
  const forged = await put(data, 'Forged', look.state.entries, (first) => ({
    ...first,
    earlierValues: { ...first.earlierValues, 'machine@job': 7, 'strange@job': 1 },
  }));
  const there = await moved(data, forged.id);
  expect(there.imported.err).toContain(
    'Of the figures of the job that this one follows 2 do not fit and do not count.',
  );
});

test('a store takes plain values of bounded size only', async () => {
  const deep = { kind: 'job', name: 'x', procedure: 'p', version: '1', hash: 'h', by: 'AP' } as const;
  const refused: Record<string, unknown> = {
    list: [1],
    text: 'x',
    nothing: null,
    nested: { 'a@job': { b: 1 } },
    none: { 'a@job': null },
    infinite: { 'a@job': Number.POSITIVE_INFINITY },
    mixed: { 'a@job': [1, 'x'] },
    lists: { 'a@job': [[1]] },
    unnamed: { a: 1 },
    longName: { [`${'a'.repeat(400)}@job`]: 1 },
    longText: { 'a@job': 'x'.repeat(20_001) },
    longList: { 'a@job': Array(10_001).fill(true) },
    many: Object.fromEntries(Array.from({ length: 501 }, (_, n) => [`k${n}@job`, 1])),
  };
  for (const [what, earlierValues] of Object.entries(refused)) {
    const made = await openStore(newFolder()).create('x', { ...deep, earlierValues } as First);
    expect({ what, ok: made.ok }).toEqual({ what, ok: false });
  }
  const good = { 'a@job': 1, 'b@a': 'x', 'c@a.front': true, 'd@job': [1, 2], 'e@job': ['x'], 'f@job': [true, false] };
  const made = await openStore(newFolder()).create('x', { ...deep, earlierValues: good });
  if (!made.ok) throw new Error(made.trouble.sentence);
  expect(made.value.entries[0]).toMatchObject({ earlierValues: good });
  await made.value.close();
});
