import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { jobText, newContent, readJobText } from '../../src/store/job-file.js';
import { openStore } from '../../src/store/open-store.js';
import { anyCharacter } from '../setup/any-character.js';
import { size } from '../setup/size.js';
import { answer, first, got, newFolder, troubleIn } from './sample-job.js';

const id = 'fuzzed-abcdefgh';
const hostile = fc.string({ unit: anyCharacter, maxLength: 60 });
const entryBody = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => answer(value)),
  hostile.map((text) => ({ kind: 'note', by: 'AB', place: 'job', text }) as const),
  fc
    .dictionary(hostile, fc.integer())
    .map((figures) => ({ kind: 'done', by: '', step: 's', place: 'b', figures }) as const),
);
const journal = fc.array(entryBody, { maxLength: 12 }).map(
  (bodies) =>
    [first, ...bodies].map((body, index) =>
      // As the store does, so that what is compared is what JSON can hold.
      JSON.parse(JSON.stringify({ ...body, seq: index + 1, at: new Date(1.9e12 + index).toISOString() })),
    ) as Entry[],
);

test('what is written is what is read, whatever people type', () => {
  fc.assert(
    fc.property(journal, hostile, (entries, name) => {
      const read = readJobText(jobText(newContent(id, name, entries, { note: name })), id);
      expect(read).toMatchObject({ kind: 'good', content: { name, summary: { note: name } } });
      expect(read.kind === 'good' && read.content.entries).toEqual(entries);
    }),
    { numRuns: size(80, 10_000) },
  );
});

type Harm = (bytes: Buffer) => Buffer;
const harm: fc.Arbitrary<Harm> = fc.oneof(
  fc.double({ min: 0, max: 1, noNaN: true }).map(
    (part): Harm =>
      (bytes) =>
        bytes.subarray(0, Math.floor(part * bytes.length)),
  ),
  fc.tuple(fc.nat(), fc.integer({ min: 1, max: 255 })).map(
    ([at, flip]): Harm =>
      (bytes) => {
        const copy = Buffer.from(bytes);
        copy[at % copy.length]! ^= flip;
        return copy;
      },
  ),
  fc.tuple(fc.nat(), fc.nat(400)).map(
    ([at, length]): Harm =>
      (bytes) =>
        Buffer.from(bytes).fill(0, at % bytes.length, Math.min(bytes.length, (at % bytes.length) + length)),
  ),
  fc.tuple(fc.nat(), fc.nat(300)).map(
    ([at, length]): Harm =>
      (bytes) => {
        const from = at % bytes.length;
        return Buffer.concat([bytes.subarray(0, from), bytes.subarray(from + length)]);
      },
  ),
  fc.tuple(fc.nat(), fc.uint8Array({ minLength: 1, maxLength: 50 })).map(
    ([at, put]): Harm =>
      (bytes) =>
        Buffer.concat([bytes.subarray(0, at % bytes.length), put, bytes.subarray(at % bytes.length)]),
  ),
  fc.uint8Array({ maxLength: 200 }).map(
    (all): Harm =>
      () =>
        Buffer.from(all),
  ),
  fc.json().map(
    (text): Harm =>
      () =>
        Buffer.from(text),
  ),
);

test('a harmed file gives either the right entries, or a proven beginning of them', () => {
  fc.assert(
    fc.property(journal, fc.array(harm, { minLength: 1, maxLength: 3 }), (entries, harms) => {
      let bytes = Buffer.from(jobText(newContent(id, 'Fuzzed', entries)));
      for (const one of harms) if (bytes.length > 0) bytes = one(bytes) as Buffer<ArrayBuffer>;
      const read = readJobText(bytes.toString('utf8'), id);
      if (read.kind === 'good') expect(read.content.entries).toEqual(entries);
      else if (read.kind === 'damaged') {
        expect(read.why).not.toBe('');
        const part = read.part?.entries ?? [];
        expect(part).toEqual(entries.slice(0, part.length));
      }
    }),
    { numRuns: size(300, 100_000) },
  );
});

test('through the store: a harmed job never escapes as an exception, loses no proven entry, and leaves others alone', async () => {
  const folder = newFolder();
  const store = openStore(folder);
  const other = got(await store.create('Other', first));
  await other.close();
  const otherFile = join(folder, 'jobs', `${other.id}.json`);
  const otherText = readFileSync(otherFile, 'utf8');
  const file = join(folder, 'jobs', `${id}.json`);
  mkdirSync(join(folder, 'previous'), { recursive: true });
  await fc.assert(
    fc.asyncProperty(journal, harm, async (entries, one) => {
      const before = jobText(newContent(id, 'Fuzzed', entries.slice(0, -1).length ? entries.slice(0, -1) : entries));
      const bytes = one(Buffer.from(jobText(newContent(id, 'Fuzzed', entries))));
      writeFileSync(file, bytes);
      writeFileSync(join(folder, 'previous', `${id}.json`), before);
      const opened = await store.open(id);
      if (opened.ok) {
        expect(opened.value.entries).toEqual(entries);
        await opened.value.close();
      } else {
        expect(['damaged', 'newer']).toContain(opened.trouble.code);
        expect(readFileSync(file)).toEqual(Buffer.from(bytes));
        if (opened.trouble.code === 'damaged') {
          const job = got(await store.open(id, { recover: true }));
          expect(job.entries.length).toBeGreaterThanOrEqual(Math.max(1, entries.length - 1));
          expect(job.entries).toEqual(entries.slice(0, job.entries.length));
          await job.close();
        } else expect(troubleIn(opened).sentence).toMatch(/newer version/);
      }
      expect(readFileSync(otherFile, 'utf8')).toBe(otherText);
      expect(got(store.list())).toHaveLength(2);
    }),
    { numRuns: size(80, 10_000) },
  );
});
