/** Two laptops on one shared folder: other names, other clocks, a share that goes away in the middle. */
import { existsSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { size } from '../setup/size.js';
import { buildChild, type Child, startChild } from './child.js';
import { answer, first, got, makeJob, newFolder, troubleIn } from './sample-job.js';

let program = '';
beforeAll(async () => {
  program = await buildChild('share-loop.ts');
});

interface Laptop {
  readonly child: Child;
  /** Lets the share be away for this one, or back. */
  readonly share: (away: boolean) => void;
}

function laptop(folder: string, id: string, name: string, minutesOff: number, entries: number): Laptop {
  const control = join(newFolder(), 'away');
  return {
    child: startChild(program, folder, id, name, String(minutesOff), control, String(entries)),
    share: (away) => (away ? writeFileSync(control, '') : rmSync(control, { force: true })),
  };
}

async function until(true_: () => boolean): Promise<void> {
  for (let i = 0; i < 60_000 && !true_(); i++) await new Promise((resolve) => setTimeout(resolve, 5));
  expect(true_()).toBe(true);
}

const saved = (c: Child): string[] => c.lines().filter((l) => l.startsWith('saved'));
const troubles = (c: Child): string[] => c.lines().filter((l) => l.startsWith('trouble'));

const entries = size(40, 400);

test('on different jobs: what each was told to be saved is there once, in order, whatever clock and share did', async () => {
  const folder = newFolder();
  const store = openStore(folder);
  const ids: string[] = [];
  for (const name of ['Left', 'Right']) {
    const job = got(await store.create(name, first));
    ids.push(job.id);
    await job.close();
  }
  const both = [laptop(folder, ids[0]!, 'left', -10, entries), laptop(folder, ids[1]!, 'right', +10, entries)];
  for (const { child } of both) await child.said('open');
  for (let turn = 1; turn <= 3; turn++) {
    const one = both[turn % 2]!;
    await until(() => saved(one.child).length >= (turn * entries) / 5);
    const before = troubles(one.child).length;
    one.share(true);
    await until(() => troubles(one.child).length > before);
    one.share(false);
  }
  for (const { child } of both) await child.said('closed');
  both.forEach(({ child }, i) => {
    const name = i ? 'right' : 'left';
    expect(new Set(troubles(child))).toEqual(new Set(['trouble gone']));
    expect(saved(child)).toHaveLength(entries);
    expect(child.lines().at(-1)).toBe('closed ');
    expect(name).toBe(saved(child)[0]?.split(' ')[2]);
  });
  for (const [i, id] of ids.entries()) {
    const job = got(await openStore(folder).open(id, { readOnly: true }));
    const name = i ? 'right' : 'left';
    const texts = job.entries.slice(1).map((e) => (e.kind === 'note' ? e.text : ''));
    expect(texts).toEqual(Array.from({ length: entries }, (_, n) => `${name} ${entries - n}`));
    expect(job.entries.map((e) => e.seq)).toEqual(job.entries.map((_, n) => n + 1));
  }
  // Both are listed with all that they have, also after the index missed what was saved meanwhile.
  expect(got(store.list()).map((h) => h.entries)).toEqual([entries + 1, entries + 1]);
  expect(readdirSync(join(folder, 'locks'))).toEqual([]);
});

test('on the same job: the second may only look while the first writes, and goes on with all of it afterwards', async () => {
  const { folder, job } = await makeJob(1);
  await job.close();
  const a = laptop(folder, job.id, 'left', -10, 1e6);
  await a.child.said('saved');
  const b = laptop(folder, job.id, 'right', +10, 3);
  expect(await b.child.said('read-only')).toContain('on the computer left');
  a.child.process.kill('SIGKILL');
  await a.child.ended;
  // Its lock is judged by age, by the clock of the disk: as if ten seconds had gone by.
  aged(folder, job.id);
  const c = laptop(folder, job.id, 'right', +10, 3);
  const opened = Number((await c.child.said('open')).split(' ')[1]);
  expect(opened).toBeGreaterThanOrEqual(2 + saved(a.child).length);
  await c.child.said('closed');
  expect(got(await openStore(folder).open(job.id, { readOnly: true })).entries).toHaveLength(opened + 3);
});

function aged(folder: string, id: string): void {
  const then = new Date(Date.now() - 10_000);
  const lock = join(folder, 'locks', `${id}.lock`);
  if (existsSync(lock)) utimesSync(lock, then, then);
}

test('away for longer than a lock lives: the other takes over, and who comes back adds nothing over it', async () => {
  const { folder, job } = await makeJob(1);
  await job.close();
  const a = laptop(folder, job.id, 'left', 0, 1e6);
  await a.child.said('saved');
  a.share(true);
  await a.child.said('trouble gone');
  const before = saved(a.child).length;
  aged(folder, job.id);
  const b = got(await openStore(folder).open(job.id));
  expect(b.readOnly).toBe(false);
  const had = b.entries.length;
  expect(had).toBe(2 + before);
  got(b.append(answer(7)));
  a.share(false);
  const said = await a.child.said('closed');
  expect(said).toMatch(/open in another window|changed this job/);
  got(b.append(answer(8)));
  await b.close();
  const now = got(await openStore(folder).open(job.id, { readOnly: true }));
  expect(now.entries).toHaveLength(had + 2);
  expect(saved(a.child)).toHaveLength(before);
});

test('a share that is away when a job is opened says so in one sentence and leaves nothing behind', async () => {
  const { folder, job } = await makeJob(1);
  await job.close();
  const control = join(newFolder(), 'away');
  writeFileSync(control, '');
  const child = startChild(program, folder, job.id, 'left', '0', control, '1');
  expect(await child.said('trouble')).toBe('trouble gone');
  await child.ended;
  expect(readdirSync(join(folder, 'locks'))).toEqual([]);
  expect(troubleIn(await openStore(join(folder, 'nowhere')).open(job.id)).code).toBe('unknown-job');
});
