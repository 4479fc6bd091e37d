/** The kept list of the last changed jobs says what a listing of all says, whatever happened in between. */
import {
  appendFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { jobText, newContent } from '../../src/store/job-file.js';
import { openStore, type Store } from '../../src/store/open-store.js';
import { size } from '../setup/size.js';
import { answer, first, got, newFolder } from './sample-job.js';

const count = 230;
const idOf = (index: number): string => `job-${String(index).padStart(8, '0')}`;
const fileOf = (folder: string, id: string): string => join(folder, 'jobs', `${id}.json`);

function put(folder: string, id: string, minute: number): void {
  const at = new Date(Date.UTC(2020, 0, 1) + minute * 60_000).toISOString();
  writeFileSync(fileOf(folder, id), jobText(newContent(id, `Name of ${id}`, [{ ...first, seq: 1, at }])));
}

/** A folder whose list is kept and has settled: its last change lies back. */
function manyJobs(): { folder: string; store: Store } {
  const folder = newFolder();
  mkdirSync(join(folder, 'jobs'));
  for (let i = 0; i < count; i++) put(folder, idOf(i), i);
  const store = openStore(folder);
  const past = new Date(Date.now() - 60_000);
  utimesSync(join(folder, 'jobs'), past, past);
  for (let i = 0; i < 3; i++) same(store);
  return { folder, store };
}

function same(store: Store): void {
  const { jobs, count: all } = got(store.latest());
  const listed = got(store.list());
  expect(jobs).toEqual(listed.slice(0, 24));
  expect(all).toBe(listed.length);
}

const work = async (store: Store, id: string): Promise<void> => {
  const job = got(await store.open(id));
  got(job.append(answer(0.3)));
  await job.close();
};

test('nothing but its own file is read while nothing has changed', () => {
  const { folder, store } = manyJobs();
  renameSync(join(folder, 'index.jsonl'), join(folder, 'away'));
  const { mtime, size } = statSync(join(folder, 'away'));
  writeFileSync(join(folder, 'index.jsonl'), Buffer.alloc(size));
  utimesSync(join(folder, 'index.jsonl'), mtime, mtime);
  const { jobs, count: all } = got(store.latest());
  expect(jobs[0]?.name).toBe(`Name of ${idOf(count - 1)}`);
  expect(all).toBe(count);
});

test('after work on a job only what the index has gained is read, and the file is renewed', async () => {
  const { folder, store } = manyJobs();
  const before = readFileSync(join(folder, 'latest.json'), 'utf8');
  await work(store, idOf(3));
  expect(got(store.latest()).jobs[0]?.id).toBe(idOf(3));
  expect(readFileSync(join(folder, 'latest.json'), 'utf8')).not.toBe(before);
  same(store);
});

test('what is kept is taken from its own file while that is sound, and from the jobs where it is not', async () => {
  const { folder, store } = manyJobs();
  const file = join(folder, 'latest.json');
  const index = join(folder, 'index.jsonl');
  const newest = `Name of ${idOf(count - 1)}`;
  const names = () =>
    got(store.latest())
      .jobs.slice(0, 2)
      .map((j) => j.name);
  const edit = (change: (text: string) => string) => writeFileSync(file, change(readFileSync(file, 'utf8')));
  const mark = () => edit((text) => text.replace(newest, 'As kept'));
  mark();
  expect(names()[0]).toBe('As kept');
  // What was worked on since is added, once.
  for (let i = 0; i < 2; i++) {
    await work(store, idOf(3));
    expect(names()).toEqual([`Name of ${idOf(3)}`, 'As kept']);
    expect(new Set(got(store.latest()).jobs.map((j) => j.id)).size).toBe(24);
  }
  const whole = (change: (head: { jobs: Record<string, unknown>[]; [name: string]: unknown }) => void) => () =>
    edit((text) => {
      const head = JSON.parse(text);
      change(head);
      return JSON.stringify(head);
    });
  const line = readFileSync(index, 'utf8').split('\n').at(-1) ?? '';
  const lines = (bytes: number) => () =>
    appendFileSync(index, `\n${line}`.repeat(Math.ceil(bytes / (line.length + 1))));
  lines(400_000)();
  expect(names()[1]).toBe('As kept');
  for (const spoil of [
    whole((head) => Object.assign(head, { format: 2 })),
    whole((head) => head.jobs.pop()),
    whole((head) => Object.assign(head.jobs[5]!, { entries: 'x' })),
    whole((head) => Object.assign(head, { names: '1:2:3' })),
    whole((head) => Object.assign(head, { tail: 'AAAA' })),
    lines(510_000),
  ]) {
    edit((text) => text.replaceAll('As kept', newest));
    same(store);
    mark();
    spoil();
    // Looked at again: the folder has changed since.
    utimesSync(join(folder, 'jobs'), new Date(), new Date());
    utimesSync(index, new Date(), new Date());
    expect(names()).toEqual([`Name of ${idOf(3)}`, newest]);
  }
});

test('few jobs are not worth a file', async () => {
  const folder = newFolder();
  const store = openStore(folder);
  await got(await store.create('One', first)).close();
  same(store);
  expect(readdirSync(folder)).not.toContain('latest.json');
  expect(got(openStore(join(folder, 'none')).latest())).toEqual({ jobs: [], count: 0 });
});

const cut = (file: string): void => truncateSync(file, Math.floor(statSync(file).size / 2));
let fresh = 0;
const happenings: Record<string, (folder: string, store: Store, n: number) => void | Promise<void>> = {
  'an answer': (_f, store, n) => work(store, idOf(n)).catch(() => undefined),
  'a new job': async (_f, store, n) => got(await store.create(`New ${n}`, first)).close(),
  'a job taken away': (folder, _s, n) => rmSync(fileOf(folder, idOf(n)), { force: true }),
  'a job put in by hand': (folder, _s, n) => put(folder, `extra-${String(++fresh).padStart(8, '0')}`, n * 3),
  'one put in for another': (folder, _s, n) => {
    rmSync(fileOf(folder, idOf(n)), { force: true });
    put(folder, `other-${String(++fresh).padStart(8, '0')}`, n * 2);
  },
  'the index cut': (folder) => cut(join(folder, 'index.jsonl')),
  'the index gone': (folder) => rmSync(join(folder, 'index.jsonl'), { force: true }),
  'rubbish in the index': (folder) => appendFileSync(join(folder, 'index.jsonl'), '\n{"id":'),
  'its own file cut': (folder) => cut(join(folder, 'latest.json')),
  'its own file gone': (folder) => rmSync(join(folder, 'latest.json'), { force: true }),
  'its own file empty': (folder) => writeFileSync(join(folder, 'latest.json'), ''),
  'its own file of zeros': (folder) => writeFileSync(join(folder, 'latest.json'), Buffer.alloc(3000)),
  'its names cut': (folder) => cut(join(folder, 'latest.names')),
  'its names of another listing': (folder) => writeFileSync(join(folder, 'latest.names'), 'a.json\nb.json'),
  'its own file of another form': (folder) => writeFileSync(join(folder, 'latest.json'), '{"format":1,"jobs":[1]}\nx'),
};

test('whatever happens, it says what the whole list says', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.constantFrom(...Object.keys(happenings)), fc.nat(count - 1)), {
        minLength: 1,
        maxLength: 8,
      }),
      async (steps) => {
        const { folder, store } = manyJobs();
        for (const [what, n] of steps) {
          if (what.startsWith('its') && !readdirSync(folder).includes('latest.json')) continue;
          if (what.startsWith('the index') && !readdirSync(folder).includes('index.jsonl')) continue;
          await happenings[what]?.(folder, store, n);
          same(store);
        }
        rmSync(folder, { recursive: true });
      },
    ),
    { numRuns: size(12, 400) },
  );
});
