import { readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { readTransferText } from '../../src/store/transfer-job.js';
import { size } from '../setup/size.js';
import { filesIn, got, makeJob, newFolder, troubleIn } from './sample-job.js';

async function exported(): Promise<{ text: string; file: string; made: Awaited<ReturnType<typeof makeJob>> }> {
  const made = await makeJob(3);
  await made.job.close();
  const file = join(newFolder(), 'job.json');
  got(made.store.exportJob(made.job.id, file));
  return { text: readFileSync(file, 'utf8'), file, made };
}

test('a job goes out as one private file and comes in elsewhere with every entry', async () => {
  const { file, made } = await exported();
  expect((statSync(file).mode & 0o777).toString(8)).toBe('600');
  const there = openStore(join(newFolder(), 'new'));
  const head = got(await there.importJob(file));
  expect(head).toMatchObject({ name: 'Test-bench rotor', entries: 4, procedure: 'regrease-in-place' });
  const job = got(await there.open(head.id));
  expect(job.entries).toEqual(made.job.entries);
  expect(job.head.summary).toEqual({ phase: 'open' });
  await job.close();
  expect(JSON.parse(readFileSync(file, 'utf8'))).toMatchObject({
    rotorside: 'job',
    format: 1,
    procedure: { id: 'regrease-in-place', version: '1', hash: 'abc123' },
  });
});

test('taking a job in twice makes one; nothing is overwritten, neither on the way out', async () => {
  const { file, text, made } = await exported();
  const one = got(await made.store.importJob(file));
  const two = got(await made.store.importJob(file));
  expect(new Set([one.id, two.id, made.job.id]).size).toBe(1);
  expect(got(made.store.list())).toHaveLength(1);
  const trouble = troubleIn(made.store.exportJob(made.job.id, file));
  expect(trouble.code).toBe('exists');
  expect(trouble.sentence).toMatch(/already there.*Choose another name/);
  expect(readFileSync(file, 'utf8')).toBe(text);
  expect(troubleIn(made.store.exportJob(made.job.id, '/no/such/folder/x.json')).code).toBe('gone');
});

const change = (text: string, with_: (job: Record<string, unknown>) => void): string => {
  const job = JSON.parse(text);
  with_(job);
  return JSON.stringify(job);
};

test.each([
  [
    'a newer format',
    (text: string) => change(text, (job) => (job.format = 2)),
    'newer',
    /newer version.*format 2.*update/,
  ],
  ['a cut file', (text: string) => text.slice(0, 400), 'damaged', /cut off/],
  ['a changed value', (text: string) => text.replace('0.2', '0.9'), 'damaged', /check sum/],
  ['a changed name', (text: string) => text.replace('"name":"Test', '"name":"Text'), 'damaged', /check sum/],
  ['another JSON file', () => '{"name":"x"}', 'invalid', /no job exported/],
  ['a list', () => '[]', 'invalid', /no job exported/],
  ['a text', () => 'hello', 'invalid', /no job exported/],
  ['an empty file', () => '', 'invalid', /no job exported/],
])('%s is refused with a clear word', async (_, make, code, words) => {
  const { text, made } = await exported();
  const file = join(newFolder(), 'in.json');
  writeFileSync(file, make(text));
  const before = filesIn(made.folder);
  const trouble = troubleIn(await made.store.importJob(file));
  expect(trouble.code).toBe(code);
  expect(trouble.sentence).toMatch(words);
  expect(filesIn(made.folder)).toEqual(before);
  rmSync(file);
  expect(troubleIn(await made.store.importJob(file)).code).toBe('gone');
  expect(troubleIn(await made.store.importJob(newFolder())).code).toBe('invalid');
});

test('an altered export file never gives other entries than those that went out', async () => {
  const { text, made } = await exported();
  const bytes = Buffer.from(text);
  fc.assert(
    fc.property(fc.nat(bytes.length - 1), fc.integer({ min: 1, max: 255 }), (at, flip) => {
      const altered = Buffer.from(bytes);
      altered[at] = altered[at]! ^ flip;
      const read = readTransferText(altered.toString('utf8'));
      if (read.ok) expect(read.value.entries).toEqual(made.job.entries);
      else expect(read.trouble.sentence).not.toBe('');
    }),
    { numRuns: size(120, 20_000) },
  );
});

test('whatever stands in a file, reading it gives a result', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.json(),
        fc.string(),
        fc.object().map((one) => JSON.stringify({ rotorside: 'job', format: 1, ...one })),
      ),
      (text) => {
        expect(readTransferText(text).ok).toBe(false);
      },
    ),
    { numRuns: size(120, 20_000) },
  );
  expect(
    readTransferText(
      `{"rotorside":"job","format":1,"name":"x","summary":{},"checksum":"a","entries":${'['.repeat(200_000)}${']'.repeat(200_000)}}`,
    ).ok,
  ).toBe(false);
});
