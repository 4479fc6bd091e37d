import { readFileSync, renameSync, rmSync, statfsSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Conf from 'conf';
import { describe, expect, test } from 'vitest';
import type { Draft } from '../../src/engine/journal/entry.js';
import { openStore } from '../../src/store/open-store.js';
import { noMounts, onSmallDisk, remount } from './private-mount.js';
import { answer, filesIn, first, got, makeJob, newFolder, troubleIn } from './sample-job.js';

/** Leaves this many bytes free. */
function fill(folder: string, leave: number): string {
  const file = join(folder, 'fill');
  const { bavail, bsize } = statfsSync(folder);
  writeFileSync(file, Buffer.alloc(Math.max(0, bavail * bsize - leave)));
  return file;
}

const longNote = (size: number): Draft => ({ kind: 'note', by: 'AB', place: 'job', text: 'x'.repeat(size) });

describe.skipIf(noMounts !== undefined)(`a disk of its own${noMounts ? ` (skipped: ${noMounts})` : ''}`, () => {
  // The reason for our proof after each write: on a disk that is all but full conf cuts a good file short, silently.
  test('conf alone replaces a good file by a cut one without a word', async () => {
    await onSmallDisk('1m', async (folder) => {
      const conf = new Conf<Record<string, unknown>>({ cwd: folder, configName: 'plain' });
      conf.store = { good: 'y'.repeat(200_000) };
      fill(folder, 100_000);
      conf.store = { good: 'x'.repeat(300_000) };
      expect(() => JSON.parse(readFileSync(join(folder, 'plain.json'), 'utf8'))).toThrow();
    });
  });

  test.each([0, 4096, 8192, 16_384, 20_000, 32_768])(
    'full but for %i bytes: refused, kept, and right after space is made',
    async (leave) => {
      await onSmallDisk('1m', async (folder) => {
        const { store, job, file } = await makeJob(2, folder);
        got(job.append(longNote(15_000)));
        const entries = job.entries;
        const text = readFileSync(file, 'utf8');
        const filling = fill(folder, leave);
        // Either it fits, or it is refused and all is as before.
        const result = job.append(longNote(18_000));
        if (!result.ok) {
          expect(result.trouble).toMatchObject({ code: 'full' });
          expect(result.trouble.sentence).toBe(
            'This entry could not be saved because the disk is full. All 4 entries before it are kept. ' +
              'Free some space and try again.',
          );
          expect(job.entries).toBe(entries);
          expect(readFileSync(file, 'utf8')).toBe(text);
          expect(job.readOnly).toBe(false);
        }
        if (leave <= 20_000) expect(result.ok).toBe(false);
        rmSync(filling);
        if (!result.ok) got(job.append(longNote(18_000)));
        expect(job.entries).toHaveLength(5);
        await job.close();
        expect(got(await openStore(folder).open(job.id)).entries).toEqual(job.entries);
        expect(got(store.list())[0]!.entries).toBe(5);
      });
    },
  );

  test('a new job on a full disk leaves nothing behind and others are not touched', async () => {
    await onSmallDisk('1m', async (folder) => {
      const { store, job } = await makeJob(2, folder);
      await job.close();
      const before = filesIn(join(folder, 'jobs'));
      const filling = fill(folder, 0);
      expect(troubleIn(await store.create('Second', first))).toMatchObject({ code: 'full' });
      expect(filesIn(join(folder, 'jobs'))).toEqual(before);
      rmSync(filling);
      const second = got(await store.create('Second', first));
      await second.close();
      expect(got(store.list())).toHaveLength(2);
    });
  });

  test('an export that does not fit leaves no half file', async () => {
    await onSmallDisk('1m', async (disk) => {
      const { store, job } = await makeJob(2);
      got(job.append(longNote(20_000)));
      fill(disk, 8192);
      expect(troubleIn(store.exportJob(job.id, join(disk, 'out.json'))).code).toBe('full');
      expect(filesIn(disk)).toEqual(['fill']);
      await job.close();
    });
  });

  test('where files can have no second name, the previous generation is a copy', async () => {
    const { folder, job, file } = await makeJob(2);
    await onSmallDisk('1m', async (elsewhere) => {
      // Links never reach over to another disk.
      rmSync(join(folder, 'previous'), { recursive: true });
      symlinkSync(elsewhere, join(folder, 'previous'));
      const before = readFileSync(file, 'utf8');
      got(job.append(answer(3)));
      expect(readFileSync(join(elsewhere, `${job.id}.json`), 'utf8')).toBe(before);
      await job.close();
    });
  });

  test('a disk that turns read-only: refused, kept, and right when it can be written again', async () => {
    await onSmallDisk('1m', async (folder) => {
      const { store, job } = await makeJob(2, folder);
      const entries = job.entries;
      remount(folder, 'ro');
      const trouble = troubleIn(job.append(answer(7)));
      expect(trouble.code).toBe('read-only');
      expect(trouble.sentence).toMatch(
        /because the disk can only be read\. All 3 entries before it are kept\. Make it/,
      );
      expect(job.entries).toBe(entries);
      expect(got(store.list())).toHaveLength(1);
      expect(troubleIn(await store.create('New', first)).code).toBe('read-only');
      const look = got(await openStore(folder).open(job.id));
      expect(look.readOnly).toBe(true);
      expect(look.entries).toEqual(entries);
      remount(folder, 'rw');
      got(job.append(answer(7)));
      await job.close();
      expect(got(await openStore(folder).open(job.id, { readOnly: true })).entries).toHaveLength(4);
    });
  });

  test('a job opened on a read-only disk can be looked at and says why it can only be that', async () => {
    await onSmallDisk('1m', async (folder) => {
      const { store, job } = await makeJob(2, folder);
      await job.close();
      remount(folder, 'ro');
      const look = got(await store.open(job.id));
      expect(look.readOnly).toBe(true);
      expect(look.whyReadOnly).toMatch(/only be looked at because the disk can only be read/);
      expect(troubleIn(look.append(answer(1))).sentence).toMatch(/could not be saved.*only be looked at/);
      look.setDraftTexts([{ where: 'x', text: '1' }]);
      await look.close();
    });
  });
});

test('the folder taken away while open: refused, nothing made in its place, and it goes on when it is back', async () => {
  const base = newFolder();
  const folder = join(base, 'data');
  const { job } = await makeJob(2, folder);
  const entries = job.entries;
  renameSync(folder, join(base, 'elsewhere'));
  const trouble = troubleIn(job.append(answer(7)));
  expect(trouble.code).toBe('gone');
  expect(trouble.sentence).toMatch(/All 3 entries before it are kept\. Put it back/);
  expect(filesIn(base)).not.toContain('data');
  expect(job.entries).toBe(entries);
  // Longer than the lock needs to notice that it is gone.
  await new Promise((resolve) => setTimeout(resolve, 2500));
  expect(troubleIn(job.append(answer(7))).code).toBe('gone');
  renameSync(join(base, 'elsewhere'), folder);
  got(job.append(answer(7)));
  await job.close();
  expect(got(await openStore(folder).open(job.id, { readOnly: true })).entries).toHaveLength(4);
});

test('a clock set back is told of, and entries keep their order', async () => {
  const folder = newFolder();
  let now = '2031-05-04T09:00:00.000Z';
  const store = openStore(folder, { clock: () => new Date(now) });
  const job = got(await store.create('Clock', first));
  now = '2031-05-04T08:59:30.000Z';
  const soon = job.append(answer(1));
  expect(soon.ok && soon.notice).toBeUndefined();
  now = '2019-01-01T00:00:00.000Z';
  const result = job.append(answer(2));
  expect(result).toMatchObject({
    ok: true,
    notice: expect.stringMatching(/clock of this computer was set back: it says 201[89].*Set the clock right/),
  });
  now = 'no time';
  expect(troubleIn(job.append(answer(3))).sentence).toMatch(/clock gives no time/);
  await job.close();
  const again = got(await openStore(folder).open(job.id, { readOnly: true }));
  expect(again.entries.map(({ seq }) => seq)).toEqual([1, 2, 3]);
});

test('saves stay atomic inside a Snap terminal, where conf would write in place', async () => {
  const { folder, job, file } = await makeJob(1);
  process.env.SNAP = '/snap/terminal/1';
  try {
    const before = readFileSync(file, 'utf8');
    got(job.append(answer(2)));
    // Written in place, the linked previous generation would have changed along.
    expect(readFileSync(join(folder, 'previous', `${job.id}.json`), 'utf8')).toBe(before);
    expect(process.env.SNAP).toBe('/snap/terminal/1');
  } finally {
    delete process.env.SNAP;
  }
  await job.close();
});
