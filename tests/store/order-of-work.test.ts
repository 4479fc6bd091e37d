/** Which job is gone on with: what was done last, whatever the clock said, and real work before practice. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openStore, type Store } from '../../src/store/open-store.js';
import { answer, first, got, newFolder, troubleIn } from './sample-job.js';

/** A store whose clock is set by hand. */
function clocked(folder = newFolder()) {
  const clock = { now: '2031-05-04T09:00:00Z' };
  return { folder, clock, store: openStore(folder, { clock: () => new Date(clock.now) }) };
}
const names = (store: Store): string[] => got(store.list()).map((j) => j.name);
async function work(store: Store, name: string, more: object = {}, summary: Record<string, boolean> = {}) {
  const job = got(await store.create(name, { ...first, name, ...more }));
  got(job.append(answer(0.1), summary));
  await job.close();
  return job.id;
}

test.each(['1938', '2010', '2030'])(
  'a clock that stood in %s meanwhile does not put another job first',
  async (year) => {
    const { clock, store } = clocked();
    await work(store, 'First');
    clock.now = `${year}-01-01T09:00:00Z`;
    await work(store, 'Second');
    clock.now = '2031-05-04T10:00:00Z';
    expect(names(store)).toEqual(['Second', 'First']);
    expect(got(store.latest()).jobs[0]?.name).toBe('Second');
  },
);

test('practice, finished or not, and finished jobs stand behind unfinished real work', async () => {
  const { clock, store } = clocked();
  await work(store, 'Pump');
  clock.now = '2031-05-04T13:30:00Z';
  await work(store, 'Quiet one', { practice: 'quiet-one' });
  await work(store, 'Fan', {}, { finished: true });
  clock.now = '2031-05-04T09:20:00Z';
  await work(store, 'Mixer');
  expect(names(store)).toEqual(['Mixer', 'Pump', 'Fan', 'Quiet one']);
  expect(got(store.lastWorked('real'))?.name).toBe('Mixer');
  expect(got(store.lastWorked('practice'))?.name).toBe('Quiet one');
});

test('opening a job to look is no work on it', async () => {
  const { store } = clocked();
  const id = await work(store, 'First');
  await work(store, 'Second');
  await got(await store.open(id)).close();
  expect(names(store)).toEqual(['Second', 'First']);
});

test('without the index practice goes by when it was saved, not by the time that it let pass', async () => {
  const { folder, clock, store } = clocked();
  await work(store, 'First');
  clock.now = '9000-01-01T00:00:00Z';
  await work(store, 'Practice', { practice: 'quiet-one' });
  rmSync(join(folder, 'index.jsonl'));
  expect(names(store)).toEqual(['First', 'Practice']);
});

test('a real job whose last entry lies in the future says so when it is opened; practice does not', async () => {
  const { clock, store } = clocked();
  const [real, practice] = [await work(store, 'Fan'), await work(store, 'Quiet', { practice: 'quiet-one' })];
  clock.now = '2031-05-03T09:00:00Z';
  const opened = await store.open(real);
  expect(opened.ok && opened.notice).toMatch(
    /clock of this computer was set back: it says 2031-05-0[234] \d\d:\d\d, but the entry before was made at 2031/,
  );
  const other = await store.open(practice);
  expect(other.ok && other.notice).toBeFalsy();
  for (const o of [opened, other]) if (o.ok) await o.value.close();
});

test('a clock beyond the year 9999 is named, and nothing is recorded by it', async () => {
  const { clock, store } = clocked();
  const job = got(await store.create('First', first));
  clock.now = '+010000-01-01T00:00:00Z';
  expect(troubleIn(job.append(answer(1))).sentence).toBe(
    "This entry could not be saved because this computer's clock stands in the year 10000; set the clock right and answer again.",
  );
  clock.now = '2031-05-04T09:00:00Z';
  got(job.append(answer(1)));
  await job.close();
});
