// @ts-nocheck
import {
  appendFileSync,
  mkdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { jobText, newContent } from '../../src/store/job-file.js';
import { openStore } from '../../src/store/open-store.js';
import { answer, first, got, makeJob, newFolder } from './sample-job.js';

function manyJobs(count: number): string {
  const folder = newFolder();
  mkdirSync(join(folder, 'jobs'));
  for (let index = 0; index < count; index++) {
    const id = `job-${String(index).padStart(8, '0')}`;
    const at = new Date(Date.UTC(2031, 0, 1) + index * 1000).toISOString();
    const content = newContent(id, `Job ${index}`, [{ ...first, seq: 1, at }], { phase: 'open', percent: index % 100 });
    writeFileSync(join(folder, 'jobs', `${id}.json`), jobText(content));
  }
  return folder;
}

test('10,000 jobs are listed from one small read', () => {
  const folder = manyJobs(10_000);
  expect(got(openStore(folder).list())).toHaveLength(10_000);
  const heads = got(openStore(folder).list());
  expect(heads).toHaveLength(10_000);
  expect(heads[0]!.name).toBe('Job 9999');
  for (let index = 0; index < 10_000; index += 1000) {
    writeFileSync(join(folder, 'jobs', `job-${String(index).padStart(8, '0')}.json`), 'not read');
  }
  const past = new Date(Date.now() - 5000);
  utimesSync(join(folder, 'jobs'), past, past);
  expect(got(openStore(folder).list()).filter(({ fault }) => fault)).toEqual([]);
});

test.each([
  ['missing', (file: string) => rmSync(file)],
  ['empty', (file: string) => writeFileSync(file, '')],
  ['cut short', (file: string) => truncateSync(file, statSync(file).size - 20)],
  ['zeros', (file: string) => writeFileSync(file, Buffer.alloc(500))],
  ['bad JSON in the middle', (file: string) => appendFileSync(file, '\n{"id":\n{}')],
  ['of another shape', (file: string) => writeFileSync(file, '\n{"id":"x","name":3}\n[1,2]\nnull')],
  [
    'a folder',
    (file: string) => {
      rmSync(file);
      mkdirSync(file);
    },
  ],
])('an index that is %s is built anew from the jobs', async (_, harm) => {
  const { folder, store, job } = await makeJob(2);
  const other = got(await store.create('Other', first));
  await job.close();
  await other.close();
  const heads = got(store.list());
  harm(join(folder, 'index.jsonl'));
  expect(got(openStore(folder).list())).toEqual(heads);
  expect(got(openStore(folder).list())).toEqual(heads);
});

test('a job put into the folder by hand is listed, one taken out is not', async () => {
  const { folder, store, job, file } = await makeJob(2);
  await job.close();
  const copy = 'copied-job-abcdefgh';
  writeFileSync(join(folder, 'jobs', `${copy}.json`), readFileSync(file));
  writeFileSync(join(folder, 'jobs', 'not a job.json'), '{}');
  expect(
    got(store.list())
      .map(({ id }) => id)
      .sort(),
  ).toEqual([copy, job.id].sort());
  rmSync(file);
  expect(got(store.list()).map(({ id }) => id)).toEqual([copy]);
});

test('a save whose line in the index was lost (killed in between) shows all the same', async () => {
  const { folder, store, job } = await makeJob(1);
  await job.close();
  const index = join(folder, 'index.jsonl');
  const before = readFileSync(index);
  const { atime, mtime } = statSync(index);
  await new Promise((resolve) => setTimeout(resolve, 20));
  const again = got(await store.open(job.id));
  got(again.append(answer(2), { phase: 'later' }));
  writeFileSync(index, before);
  utimesSync(index, atime, mtime);
  expect(got(openStore(folder).list())[0]).toMatchObject({ entries: 3, summary: { phase: 'later' } });
  await again.close();
});

test('the index does not grow for ever', async () => {
  const { folder, store, job } = await makeJob(0);
  for (let turn = 0; turn < 1100; turn++) appendFileSync(join(folder, 'index.jsonl'), `\n${JSON.stringify(job.head)}`);
  got(store.list());
  expect(readFileSync(join(folder, 'index.jsonl'), 'utf8').split('\n').filter(Boolean)).toHaveLength(1);
  await job.close();
});
