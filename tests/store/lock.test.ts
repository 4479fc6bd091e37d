import {
  existsSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { answer, got, makeJob, troubleIn } from './sample-job.js';

test('a second window may only look and says why; the first goes on; then the second may write', async () => {
  const { folder, job } = await makeJob(2);
  const second = got(await openStore(folder).open(job.id));
  expect(second.readOnly).toBe(true);
  expect(second.whyReadOnly).toMatch(/open in another window \(process \d+\).*close it there first/);
  expect(troubleIn(second.append(answer(1))).sentence).toMatch(/could not be saved.*another window/);
  got(job.append(answer(3)));
  await second.close();
  got(job.append(answer(4)));
  await job.close();
  const third = got(await openStore(folder).open(job.id));
  expect(third.readOnly).toBe(false);
  expect(third.entries).toHaveLength(5);
  await third.close();
  expect(existsSync(join(folder, 'locks', `${job.id}.lock`))).toBe(false);
});

const owner = (folder: string, id: string, pid: number, host = hostname(), start = ''): void =>
  writeFileSync(join(folder, 'locks', `${id}.owner`), JSON.stringify({ pid, host, start, token: 'other' }));

const agedBy = (folder: string, id: string, ms: number): void => {
  const then = new Date(Date.now() - ms);
  utimesSync(join(folder, 'locks', `${id}.lock`), then, then);
};

test.each([
  ['a dead owner, at once', (folder: string, id: string) => owner(folder, id, 2 ** 22 - 1)],
  [
    'a living process that started later under the same number',
    (folder: string, id: string) => owner(folder, id, 1, hostname(), '999999999999'),
  ],
  [
    'our own number from an earlier start of the machine',
    (folder: string, id: string) => owner(folder, id, process.pid),
  ],
  [
    'a computer of another name, which this one may have had',
    (folder: string, id: string) => {
      owner(folder, id, 1, 'bench-two');
      agedBy(folder, id, 6000);
    },
  ],
  [
    'a living process under the same number, where the system does not say when it started',
    (folder: string, id: string) => {
      owner(folder, id, 1);
      agedBy(folder, id, 6000);
    },
  ],
  [
    'a computer of another name, of which only the name of the owner is left',
    (folder: string, id: string) => {
      owner(folder, id, 1, 'bench-two');
      rmSync(join(folder, 'locks', `${id}.lock`), { recursive: true });
    },
  ],
  [
    'no owner, from a clock that was ahead',
    (folder: string, id: string) => {
      const ahead = new Date(Date.now() + 3_600_000);
      rmSync(join(folder, 'locks', `${id}.owner`), { force: true });
      utimesSync(join(folder, 'locks', `${id}.lock`), ahead, ahead);
    },
  ],
])('a lock left by %s heals itself', async (_, leave) => {
  const { folder, job } = await makeJob(1);
  await job.close();
  mkdirSync(join(folder, 'locks', `${job.id}.lock`));
  leave(folder, job.id);
  const again = got(await openStore(folder).open(job.id));
  expect(again.readOnly).toBe(false);
  got(again.append(answer(2)));
  await again.close();
});

test('a lock without an owner heals itself within seconds', async () => {
  const { folder, job } = await makeJob(1);
  await job.close();
  mkdirSync(join(folder, 'locks', `${job.id}.lock`));
  expect(got(await openStore(folder).open(job.id)).readOnly).toBe(true);
  agedBy(folder, job.id, 5500);
  const again = got(await openStore(folder).open(job.id));
  expect(again.readOnly).toBe(false);
  await again.close();
});

test('a lock held on another computer is respected while it is fresh', async () => {
  const { folder, job } = await makeJob(1);
  await job.close();
  mkdirSync(join(folder, 'locks', `${job.id}.lock`));
  owner(folder, job.id, 1234, 'bench-two');
  const look = got(await openStore(folder).open(job.id));
  expect(look.whyReadOnly).toMatch(/process 1234 on the computer bench-two/);
});

test('a window whose lock was taken over writes no more', async () => {
  const { folder, job, file } = await makeJob(1);
  rmSync(join(folder, 'locks', `${job.id}.owner`));
  owner(folder, job.id, 1, hostname());
  const before = readFileSync(file, 'utf8');
  expect(troubleIn(job.append(answer(2))).code).toBe('locked');
  expect(job.readOnly).toBe(true);
  expect(readFileSync(file, 'utf8')).toBe(before);
  await job.close();
});

test('a file changed by another program is not overwritten', async () => {
  const { job, file } = await makeJob(2);
  const changed = readFileSync(file, 'utf8').replace('0.1', '0.2');
  writeFileSync(file, changed);
  const trouble = troubleIn(job.append(answer(2)));
  expect(trouble.code).toBe('changed');
  expect(trouble.sentence).toMatch(/changed this job.*open it again/);
  expect(readFileSync(file, 'utf8')).toBe(changed);
  expect(job.entries).toHaveLength(3);
  await job.close();
});

test('a file put back byte for byte (from a copy) is gone on with', async () => {
  const { job, file } = await makeJob(2);
  const text = readFileSync(file);
  rmSync(file);
  expect(troubleIn(job.append(answer(2))).code).toBe('gone');
  writeFileSync(file, text);
  got(job.append(answer(2)));
  await job.close();
});

test('a link in the place of the owner is replaced, not written through', async () => {
  const { folder, job } = await makeJob(1);
  await job.close();
  const victim = join(folder, 'victim');
  writeFileSync(victim, 'untouched');
  symlinkSync(victim, join(folder, 'locks', `${job.id}.owner`));
  const again = got(await openStore(folder).open(job.id));
  expect(again.readOnly).toBe(false);
  expect(readFileSync(victim, 'utf8')).toBe('untouched');
  expect(lstatSync(join(folder, 'locks', `${job.id}.owner`)).isFile()).toBe(true);
  await again.close();
});

test('a lock that went missing and was taken again is kept, and cleared away at the end', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  try {
    const { folder, job } = await makeJob(1);
    const lock = join(folder, 'locks', `${job.id}.lock`);
    for (const gone of [lock, join(folder, 'locks', `${job.id}.owner`)]) rmSync(gone, { recursive: true });
    got(job.append(answer(2)));
    expect(existsSync(lock)).toBe(true);
    // A lock looks at its folder each second: the old one would report the new one lost, or stamp it.
    vi.advanceTimersByTime(1500);
    await job.close();
    expect(existsSync(lock)).toBe(false);
  } finally {
    vi.useRealTimers();
  }
});
