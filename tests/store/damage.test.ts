import {
  existsSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { answer, first, got, type Made, makeJob, troubleIn } from './sample-job.js';

interface Fault {
  readonly name: string;
  readonly harm: (made: Made) => void;
  /** Entries that must come back, of the five that were there. */
  readonly back: number;
  readonly why: RegExp;
}

const editLine = (made: Made, change: (lines: string[]) => string[]): void =>
  writeFileSync(made.file, change(readFileSync(made.file, 'utf8').split('\n')).join('\n'));

const faults: readonly Fault[] = [
  { name: 'an empty file', harm: ({ file }) => writeFileSync(file, ''), back: 4, why: /is empty/ },
  {
    name: 'a file of zeros of the same length',
    harm: ({ file }) => writeFileSync(file, Buffer.alloc(readFileSync(file).length)),
    back: 4,
    why: /only zeros/,
  },
  { name: 'a file cut in its head', harm: ({ file }) => truncateSync(file, 20), back: 4, why: /cut off|no entry/ },
  {
    name: 'a file that lost its last line',
    harm: (made) => editLine(made, (lines) => lines.slice(0, -2)),
    back: 5,
    why: /cut off/,
  },
  {
    name: 'a file cut in its third entry: the previous save has more',
    harm: (made) => editLine(made, (lines) => [...lines.slice(0, 3), lines[3]!.slice(0, 30)]),
    back: 4,
    why: /line 4 \(entry 3\) is cut off/,
  },
  {
    name: 'bad JSON with a right beginning',
    harm: ({ file }) => writeFileSync(file, '{"format":1,'),
    back: 4,
    why: /line 2 \(entry 1\)/,
  },
  {
    name: 'a number changed by hand: check sum',
    harm: ({ file }) => writeFileSync(file, readFileSync(file, 'utf8').replace('"value":0.4', '"value":4.4')),
    back: 4,
    why: /line 6 \(entry 5\) does not match its check sum/,
  },
  {
    name: 'an entry taken out: it is in the previous save, and the file goes on from there',
    harm: (made) => editLine(made, (lines) => lines.filter((_, index) => index !== 3)),
    back: 5,
    why: /line 4 \(entry 3\) does not match/,
  },
  {
    name: 'the name changed by hand: check sum of the head',
    harm: ({ file }) => writeFileSync(file, readFileSync(file, 'utf8').replace('Test-bench', 'Text-bench')),
    back: 5,
    why: /first line/,
  },
  {
    name: 'a missing file',
    harm: ({ file }) => renameSync(file, `${file}.elsewhere`),
    back: 4,
    why: /missing/,
  },
  {
    name: 'a link in place of the file',
    harm: ({ file }) => {
      renameSync(file, `${file}.elsewhere`);
      symlinkSync(`${file}.elsewhere`, file);
    },
    back: 4,
    why: /no ordinary file/,
  },
];

describe.each(faults)('$name', ({ harm, back, why }) => {
  test(`says so, offers ${back} of 5 entries, changes nothing until asked, then goes on`, async () => {
    const made = await makeJob(4);
    const { store, job, file, folder } = made;
    const entries = job.entries;
    await job.close();
    const other = got(await store.create('Other', first));
    await other.close();
    harm(made);
    const harmed = existsSync(file) ? readFileSync(file) : undefined;
    const previous = readFileSync(join(folder, 'previous', `${job.id}.json`));

    const trouble = troubleIn(await store.open(job.id));
    expect(trouble).toMatchObject({ code: 'damaged', offer: { entries: back, last: entries[back - 1]!.at } });
    expect(trouble.sentence).toMatch(why);
    expect(existsSync(file) ? readFileSync(file) : undefined).toEqual(harmed);
    const look = got(await store.open(job.id, { readOnly: true, recover: true }));
    expect(look.entries).toEqual(entries.slice(0, back));
    expect(existsSync(file) ? readFileSync(file) : undefined).toEqual(harmed);

    const saved = await openStore(folder).open(job.id, { recover: true });
    const again = got(saved);
    expect(again.entries).toEqual(entries.slice(0, back));
    expect(readFileSync(join(folder, 'previous', `${job.id}.json`))).toEqual(previous);
    if (harmed) {
      const [aside] = readdirSync(join(folder, 'damaged'));
      expect(readFileSync(join(folder, 'damaged', aside!))).toEqual(harmed);
    }
    got(again.append(answer(9)));
    await again.close();
    expect(got(await store.open(job.id, { readOnly: true })).entries).toHaveLength(back + 1);
    expect(got(await store.open(other.id, { readOnly: true })).entries).toEqual(other.entries);
    expect(got(store.list()).map(({ fault }) => fault)).toEqual([undefined, undefined]);
  });
});

test('a save cut short beside a good file is no news and is cleared away', async () => {
  const { store, job, file, folder } = await makeJob(3);
  await job.close();
  const left = `${file}.tmp-0123456789abcdef`;
  writeFileSync(left, readFileSync(file, 'utf8').slice(0, 100));
  expect(got(store.list())).toHaveLength(1);
  const again = got(await store.open(job.id));
  expect(again.entries).toEqual(job.entries);
  await again.close();
  expect(readdirSync(join(folder, 'jobs'))).toEqual([`${job.id}.json`]);
});

test('a newer complete save beside a damaged file is what is offered', async () => {
  const { store, job, file, folder } = await makeJob(3);
  const previous = readFileSync(file);
  got(job.append(answer(4)));
  await job.close();
  renameSync(file, `${file}.tmp-0123456789abcdef`);
  writeFileSync(file, previous.subarray(0, 300));
  const trouble = troubleIn(await store.open(job.id));
  expect(trouble.offer).toMatchObject({ entries: 5, from: 'unfinished save' });
  const again = got(await store.open(job.id, { recover: true }));
  expect(again.entries).toEqual(job.entries);
  await again.close();
  expect(readdirSync(join(folder, 'jobs'))).toEqual([`${job.id}.json`]);
});

test('with nothing to be had back the file is left as it is', async () => {
  const { store, job, file, folder } = await makeJob(0);
  await job.close();
  writeFileSync(file, 'nothing of use');
  expect(troubleIn(await store.open(job.id, { recover: true }))).toMatchObject({ code: 'damaged' });
  expect(troubleIn(await store.open(job.id, { recover: true })).sentence).toMatch(/left as it is/);
  expect(readFileSync(file, 'utf8')).toBe('nothing of use');
  expect(readdirSync(folder)).not.toContain('damaged');
  expect(got(store.list())[0]!.fault).toMatch(/damaged/);
});

test('a job of a newer version is refused and left alone, also when only an entry is new', async () => {
  const { store, job, file } = await makeJob(1);
  await job.close();
  const newer = readFileSync(file, 'utf8').replace('"format":1', '"format":2');
  writeFileSync(file, newer);
  expect(troubleIn(await store.open(job.id, { recover: true }))).toMatchObject({ code: 'newer' });
  expect(troubleIn(await store.open(job.id)).sentence).toMatch(/newer version .*update rotorside/);
  expect(readFileSync(file, 'utf8')).toBe(newer);
});

describe('what is missing of a damaged job', () => {
  const harmed = async (change: (lines: string[]) => string[], previous = false) => {
    const made = await makeJob(4);
    await made.job.close();
    if (!previous) rmSync(join(made.folder, 'previous'), { recursive: true });
    editLine(made, change);
    return { made, trouble: troubleIn(await made.store.open(made.job.id)) };
  };
  const at = '20\\d\\d-\\d\\d-\\d\\d \\d\\d:\\d\\d';

  test('a line that somebody put in is passed over: nothing is missing', async () => {
    const { made, trouble } = await harmed((lines) => [...lines.slice(0, 3), '<<<<<<< theirs', ...lines.slice(3)]);
    expect(trouble.offer).toMatchObject({ entries: 5, from: 'good part' });
    expect(trouble.offer?.missing).toBeUndefined();
    expect(trouble.sentence).toContain('line 4 (entry 3) is cut off or garbled');
    expect(trouble.sentence).toContain('5 entries up to');
    expect(trouble.sentence).toContain('No entry is missing.');
    expect(got(await made.store.open(made.job.id, { recover: true })).entries).toEqual(made.job.entries);
  });
  test('an altered line ends what is proven: it and those after it are named, by step, question and time', async () => {
    const { trouble } = await harmed((lines) => lines.map((l, i) => (i === 3 ? l.replace('"by":"', '"by":"X') : l)));
    expect(trouble.offer?.entries).toBe(2);
    expect(trouble.sentence).toMatch(/line 4 \(entry 3\) does not match its check sum/);
    expect(trouble.sentence).toMatch(
      new RegExp(
        `Missing: entry 3 \\(answer, step \\S+, question \\S+, at \\S+, ${at} UTC[^)]*\\); entry 4 \\(answer.*\\); entry 5 \\(answer.*\\). Answer that again`,
      ),
    );
  });
  test('of a line that is torn its readable rest is told, of one that is gone its number', async () => {
    const { trouble } = await harmed((lines) => [...lines.slice(0, 4), lines[4]!.slice(0, 60)]);
    expect(trouble.offer?.entries).toBe(3);
    expect(trouble.sentence).toMatch(/Missing: entry 4 \(.*\); entry 5 \(nothing of it can be read\)/);
  });
  test('where its file is gone, whatever came after the previous save', async () => {
    const made = await makeJob(4);
    await made.job.close();
    rmSync(made.file);
    expect(troubleIn(await made.store.open(made.job.id)).sentence).toContain(
      'Missing: whatever was recorded after that',
    );
  });
});
