/** The store where something is odd: whose a lock is, what the index says, and what opening and taking in say of it. */
import {
  appendFileSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { isMainThread } from 'node:worker_threads';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { makePlaces, placesIn } from '../../src/store/data-folder.js';
import { jobText, newContent } from '../../src/store/job-file.js';
import { headFromFile, headOf, headsByWork, type JobHead, noteHead } from '../../src/store/job-index.js';
import { type JobLock, lockJob } from '../../src/store/job-lock.js';
import { openStore } from '../../src/store/open-store.js';
import { withZone } from '../../src/store/trouble.js';
import { answer, first, got, makeJob, newFolder, troubleIn } from './sample-job.js';

const id = 'a-abcdefgh';
const at = '2026-03-02T08:00:00.000Z';
const made = (folder = newFolder()) => {
  const places = placesIn(folder);
  makePlaces(places);
  return places;
};
const put = (folder: string, job: string, more: object = {}, when = at): void =>
  writeFileSync(
    join(folder, 'jobs', `${job}.json`),
    jobText(newContent(job, `Name of ${job}`, [{ ...first, ...more, seq: 1, at: when }])),
  );
const ago = (file: string, ms: number): void => {
  const then = new Date(Date.now() - ms);
  utimesSync(file, then, then);
};

describe('a lock', () => {
  const folderOf = (places: { locks: string }) => join(places.locks, `${id}.lock`);
  const ownerOf = (places: { locks: string }) => join(places.locks, `${id}.owner`);
  const taken: JobLock[] = [];
  afterEach(() => {
    for (const lock of taken.splice(0)) lock.release();
  });
  const take = async (places: Parameters<typeof lockJob>[0]): Promise<JobLock> => {
    const lock = await lockJob(places, id);
    if ('other' in lock) throw new Error(lock.other);
    taken.push(lock);
    return lock;
  };
  const owner = { pid: 1, host: 'bench-two', start: '', token: 'x' };

  it.each<[string, unknown]>([
    ['process 1 on the computer bench-two', owner],
    ...[
      { pid: 0 },
      { pid: -1 },
      { pid: 1.5 },
      { pid: '1' },
      { pid: undefined },
      { token: 7 },
      { token: undefined },
    ].map((more): [string, unknown] => ['another window', { ...owner, ...more }]),
    ...['text', null, []].map((odd): [string, unknown] => ['another window', odd]),
  ])('that was just made is held by %s: %j', async (other, found) => {
    const places = made();
    mkdirSync(folderOf(places));
    writeFileSync(ownerOf(places), JSON.stringify(found));
    expect(await lockJob(places, id)).toEqual({ other });
  });

  // P: proc(5), /proc/pid/stat: the name of the program in brackets, then the 3rd field; starttime is the 22nd.
  const startOf = (pid: number): string =>
    /^.*\) (?:\S+ ){19}(\d+) /s.exec(readFileSync(`/proc/${pid}/stat`, 'utf8'))?.[1] ?? 'none';
  it.skipIf(!existsSync('/proc/self/stat'))('tells its process by when that started', async () => {
    const places = made();
    await take(places);
    expect(JSON.parse(readFileSync(ownerOf(places), 'utf8'))).toMatchObject({
      ...{ pid: process.pid, host: hostname(), start: startOf(process.pid) },
    });
    // One that surely lives keeps it, however old it is: it may be stopped.
    const other = made();
    mkdirSync(folderOf(other));
    const parent = { pid: process.ppid, host: hostname(), start: startOf(process.ppid), token: 'x' };
    writeFileSync(ownerOf(other), JSON.stringify(parent));
    ago(folderOf(other), 60_000);
    expect(await lockJob(other, id)).toEqual({ other: `process ${process.ppid}` });
  });

  it('is this process’s own as long as that has not let it go', async () => {
    const places = made();
    const one = await take(places);
    expect(await lockJob(places, id)).toEqual({ other: `process ${process.pid}` });
    one.release();
    const two = await take(places);
    // Let go twice, it is not taken from whoever has it now.
    one.release();
    expect([existsSync(folderOf(places)), existsSync(ownerOf(places)), two.heldBy()]).toEqual([true, true, undefined]);
    expect(one.heldBy()).toBe(`process ${process.pid}`);
    two.release();
    expect(readdirSync(places.locks)).toEqual([]);
  });

  it('that was taken over meanwhile is left to whoever has it, and its name with it', async () => {
    const places = made();
    const lock = await take(places);
    expect(lock.heldBy()).toBeUndefined();
    writeFileSync(ownerOf(places), JSON.stringify(owner));
    lock.release();
    expect(JSON.parse(readFileSync(ownerOf(places), 'utf8'))).toEqual(owner);
  });

  it('is signed anew where its name is gone, and taken again where all of it is', async () => {
    const places = made();
    const lock = await take(places);
    rmSync(ownerOf(places));
    expect([lock.heldBy(), existsSync(ownerOf(places))]).toEqual([undefined, true]);
    rmSync(ownerOf(places));
    rmSync(folderOf(places), { recursive: true });
    expect([lock.heldBy(), existsSync(ownerOf(places)), existsSync(folderOf(places))]).toEqual([undefined, true, true]);
    writeFileSync(ownerOf(places), JSON.stringify(owner));
    expect(lock.heldBy()).toBe('process 1 on the computer bench-two');
    expect(lock.heldBy()).toBe('process 1 on the computer bench-two');
    // Once that is over it is ours again.
    rmSync(ownerOf(places));
    rmSync(folderOf(places), { recursive: true });
    expect([lock.heldBy(), lock.heldBy()]).toEqual([undefined, undefined]);
    lock.release();
    expect(readdirSync(places.locks)).toEqual([]);
  });

  it('that can’t be made, signed or cleared away is an error, and nothing is left of it', async () => {
    const places = made();
    mkdirSync(join(ownerOf(places), 'x'), { recursive: true });
    await expect(lockJob(places, id)).rejects.toThrow(/EISDIR|ENOTEMPTY|EEXIST|EPERM/);
    expect(existsSync(folderOf(places))).toBe(false);
    rmSync(ownerOf(places), { recursive: true });
    mkdirSync(join(folderOf(places), 'x'), { recursive: true });
    ago(folderOf(places), 60_000);
    await expect(lockJob(places, id)).rejects.toThrow(/ENOTEMPTY/);
    rmSync(places.locks, { recursive: true });
    await expect(lockJob(places, id)).rejects.toThrow(/ENOENT/);
    // Where it went away with its drive, it is let go all the same.
    const gone = made();
    const lock = await take(gone);
    rmSync(gone.root, { recursive: true });
    expect(() => lock.release()).not.toThrow();
  });
});

describe('the index', () => {
  const names = (places: Parameters<typeof headsByWork>[0]) =>
    headsByWork(places)
      .map((h) => h.id.slice(0, 1))
      .join('');
  const lines = (places: { index: string }) => readFileSync(places.index, 'utf8').split('\n').filter(Boolean).length;

  it('without it those that changed last come first, at one time by name; practice by its file', () => {
    const places = made();
    for (const [job, when] of [
      ['a', at],
      ['c', '2026-03-02T09:00:00.000Z'],
      ['b', at],
      ['d', '2026-03-01T09:00:00.000Z'],
    ] as const)
      put(places.root, `${job}-abcdefgh`, {}, when);
    expect(names(places)).toBe('cabd');
    // Practice runs ahead: by when its file was saved, but no later than it says.
    rmSync(places.index);
    for (const [job, when, saved] of [
      ['p', '2031-01-01T00:00:00.000Z', '2026-03-02T08:30:00.000Z'],
      ['q', '2026-03-01T10:00:00.000Z', '2026-03-02T08:30:00.000Z'],
    ] as const) {
      put(places.root, `${job}-abcdefgh`, { practice: 'quiet-one' }, when);
      utimesSync(join(places.jobs, `${job}-abcdefgh.json`), new Date(saved), new Date(saved));
    }
    expect(names(places)).toBe('cpabqd');
  });
  it('what it does not know was worked on last', () => {
    const places = made();
    put(places.root, 'a-abcdefgh');
    put(places.root, 'b-abcdefgh');
    for (const job of ['a', 'b']) ago(join(places.jobs, `${job}-abcdefgh.json`), 60_000);
    expect(names(places)).toBe('ab');
    put(places.root, 'z-abcdefgh', {}, '2020-01-01T00:00:00.000Z');
    expect(names(places)).toBe('zab');
  });
  it('as old as the folder may have missed a save: what changed no earlier is read anew', () => {
    const places = made();
    put(places.root, id);
    const [head] = headsByWork(places);
    writeFileSync(places.index, `\n${JSON.stringify({ ...head, entries: 77 })}`);
    const then = new Date('2026-03-02T08:00:00.000Z');
    for (const file of [join(places.jobs, `${id}.json`), places.jobs, places.index]) utimesSync(file, then, then);
    expect(headsByWork(places)[0]?.entries).toBe(head?.entries);
  });
  it('is made of nothing for a folder without a job', () => {
    const places = made();
    expect(headsByWork(places)).toEqual([]);
    expect(existsSync(places.index)).toBe(false);
    expect(headsByWork(placesIn(join(places.root, 'none')))).toEqual([]);
  });
  it('is written anew once it has 1,000 lines more than twice the jobs, and where a job in it is gone', () => {
    const places = made();
    put(places.root, id);
    ago(places.jobs, 60_000);
    const [head] = headsByWork(places);
    const add = (n: number) => appendFileSync(places.index, `\n${JSON.stringify(head)}`.repeat(n));
    // With the empty one before the first: 1 + 1001.
    add(1000);
    headsByWork(places);
    expect(lines(places)).toBe(1001);
    add(1);
    headsByWork(places);
    expect(lines(places)).toBe(1);
  });
  it('that can’t be added to is taken away', () => {
    const places = made();
    put(places.root, id);
    const [head] = headsByWork(places);
    rmSync(places.index);
    symlinkSync(places.index, places.index);
    noteHead(places, head!);
    expect(lstatSync(places.index, { throwIfNoEntry: false })).toBeUndefined();
    noteHead(places, head!);
    expect([lines(places), (statSync(places.index).mode & 0o777).toString(8)]).toEqual([1, '600']);
    // Nor does it matter where it can’t even be taken away, or written anew.
    rmSync(places.index);
    mkdirSync(join(places.index, 'x'), { recursive: true });
    noteHead(places, head!);
    expect(headsByWork(places)).toEqual([head]);
    expect(readdirSync(places.root).filter((name) => name.endsWith('.new'))).toEqual([]);
  });
  it('tells what is wrong with a job that can’t simply be opened', () => {
    const places = made();
    const file = join(places.jobs, `${id}.json`);
    const broken = (fault: string): JobHead => ({
      ...{ id, name: id, procedure: '', changed: '', entries: 0, summary: {}, fault },
    });
    expect(headFromFile(places, id)).toBeUndefined();
    put(places.root, id);
    const good = headFromFile(places, id);
    expect(good).toEqual({
      ...{ id, name: `Name of ${id}`, procedure: 'regrease-in-place', changed: at, entries: 1, summary: {} },
    });
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace('"format":1', '"format":2'));
    expect(headFromFile(places, id)).toEqual(broken('It was written by a newer version of rotorside.'));
    writeFileSync(file, text.replace('Name of', 'Game of'));
    expect(headFromFile(places, id)).toEqual({
      ...good,
      name: first.name,
      fault: 'Its file is damaged: its first line is garbled.',
    });
    writeFileSync(file, '');
    expect(headFromFile(places, id)).toEqual(broken('Its file is damaged: the file is empty.'));
    rmSync(places.jobs, { recursive: true });
    writeFileSync(places.jobs, '');
    expect(headFromFile(places, id)).toEqual(broken("Its file can't be read (ENOTDIR)."));
    expect(() => headsByWork(places)).toThrow(/ENOTDIR/);
    expect(troubleIn(openStore(places.root).list()).sentence).toMatch(/^The jobs in .* can't be listed because/);
    expect(troubleIn(openStore(places.root).latest()).sentence).toMatch(/^The jobs in .* can't be listed because/);
    expect(troubleIn(openStore(places.root).lastWorked('real')).code).toBe('gone');
  });
  it('has the procedure of a job whose first entry says it, and nothing of one that does not', () => {
    const head = (entries: Parameters<typeof newContent>[2]) => headOf(newContent(id, 'A', entries));
    expect(head([{ ...first, practice: 'x', seq: 1, at }])).toMatchObject({
      practice: 'x',
      procedure: first.procedure,
    });
    const none = head([{ kind: 'note', by: 'AB', place: 'job', text: 'x', seq: 1, at }]);
    expect(none).toEqual({ id, name: 'A', procedure: '', changed: at, entries: 1, summary: {} });
    expect(head([])).toMatchObject({ changed: '', entries: 0 });
  });
});

describe('a job is opened', () => {
  it('to look at only, where no lock can be had or that is asked for', async () => {
    const { folder, store, job } = await makeJob(1);
    await job.close();
    const looked = got(await store.open(job.id, { readOnly: true }));
    expect([looked.readOnly, looked.whyReadOnly]).toEqual([true, 'It was opened to look at only.']);
    rmSync(join(folder, 'locks'), { recursive: true });
    writeFileSync(join(folder, 'locks'), '');
    const held = got(await store.open(job.id));
    expect(held.readOnly).toBe(true);
    expect(held.whyReadOnly).toMatch(
      /^This job can only be looked at because a file stands where the folder should be/,
    );
    expect(held.entries).toHaveLength(2);
  });
  it('where it is damaged and another window has it: what can be had back, only to look at', async () => {
    const { store, job, file } = await makeJob(3);
    writeFileSync(file, readFileSync(file, 'utf8').slice(0, -10));
    expect(troubleIn(await store.open(job.id))).toMatchObject({ code: 'damaged', offer: { entries: 3 } });
    const back = got(await store.open(job.id, { recover: true }));
    expect([back.readOnly, back.entries.length]).toEqual([true, 3]);
    await job.close();
  });
  it('as it stands once it could be locked', async () => {
    const { folder, store, job, file } = await makeJob(1);
    await job.close();
    const before = readFileSync(file);
    const longer = got(await store.open(job.id));
    got(longer.append(answer(5)));
    await longer.close();
    const after = readFileSync(file);
    writeFileSync(file, before);
    const opening = store.open(job.id);
    writeFileSync(file, after);
    const opened = got(await opening);
    expect(opened.entries).toHaveLength(3);
    await opened.close();
    // And not where it was damaged, or taken away, meanwhile.
    const early = store.open(job.id);
    writeFileSync(file, '');
    expect(troubleIn(await early).code).toBe('damaged');
    writeFileSync(file, after);
    rmSync(join(folder, 'previous'), { recursive: true });
    const late = store.open(job.id);
    rmSync(file);
    expect(troubleIn(await late).code).toBe('unknown-job');
    expect(readdirSync(join(folder, 'locks'))).toEqual([]);
  });
  it('not at all where what is damaged can’t be set aside; the lock is let go', async () => {
    const { folder, store, job, file } = await makeJob(2);
    await job.close();
    writeFileSync(join(folder, 'damaged'), '');
    writeFileSync(file, 'x');
    const trouble = troubleIn(await store.open(job.id, { recover: true }));
    expect(trouble.sentence).toMatch(/^This job could not be opened because .* Nothing in it was changed\./);
    expect(readdirSync(join(folder, 'locks'))).toEqual([]);
    expect(readFileSync(file, 'utf8')).toBe('x');
    rmSync(join(folder, 'damaged'));
    const back = await store.open(job.id, { recover: true });
    expect(back.ok && back.notice).toMatch(
      /^The damaged file \(.+\) was set aside as .*damaged.*\.json; 2 entries are back\. Missing: /,
    );
    await got(back).close();
  });
  it('and the list tells of what only that brought to light', async () => {
    const { folder, store, job, file } = await makeJob(1);
    await job.close();
    // Damaged behind the index: the folder and the file look as they did.
    const spoil = (text: string) => {
      writeFileSync(file, text);
      for (const each of [file, join(folder, 'jobs')]) ago(each, 3_600_000);
    };
    const text = readFileSync(file, 'utf8');
    const faults = () => got(store.list()).map((h) => h.fault);
    spoil('');
    expect(faults()).toEqual([undefined]);
    expect(troubleIn(await store.open(job.id)).code).toBe('damaged');
    expect(faults()).toEqual(['Its file is damaged: the file is empty.']);
    spoil(text.replace('"format":1', '"format":2'));
    expect(troubleIn(await store.open(job.id)).code).toBe('newer');
    expect(faults()).toEqual(['It was written by a newer version of rotorside.']);
    spoil('');
    const back = got(await store.open(job.id, { recover: true }));
    expect(faults()).toEqual([undefined]);
    await back.close();
  });
  it('tells of one entry and of several that can be had back', async () => {
    const { folder, store, job, file } = await makeJob(1);
    await job.close();
    rmSync(join(folder, 'previous'), { recursive: true });
    const lines = readFileSync(file, 'utf8').split('\n');
    writeFileSync(file, lines.slice(0, 2).join('\n'));
    expect(troubleIn(await store.open(job.id)).sentence).toMatch(
      /; 1 entry up to \d{4}-\d\d-\d\d \d\d:\d\d UTC[^ ]* can be had back/,
    );
  });
  // In a thread, as of a mutation run, the zone of the process can't be set.
  it.runIf(isMainThread).each([
    ['UTC', '2026-11-26 12:36 UTC'],
    ['Asia/Kolkata', '2026-11-26 18:06 UTC+5:30'],
    ['America/New_York', '2026-11-26 07:36 UTC-5'],
  ])('tells a time that is kept in a record with its zone, in %s', (zone, told) => {
    const before = process.env.TZ;
    process.env.TZ = zone;
    try {
      expect(withZone(new Date('2026-11-26T12:36:00Z'))).toBe(told);
    } finally {
      if (before === undefined) delete process.env.TZ;
      else process.env.TZ = before;
    }
  });
  it('tells of a clock that was set back where the last entry lies ahead, not of a job just made', async () => {
    const folder = newFolder();
    let now = '2031-05-04T09:00:00Z';
    const store = openStore(folder, { clock: () => new Date(now) });
    const job = got(await store.create('A', first));
    await job.close();
    const notice = async () => {
      const opened = await store.open(job.id);
      await got(opened).close();
      return opened.ok ? opened.notice : undefined;
    };
    now = '2031-05-04T08:00:00Z';
    expect(await notice()).toBeUndefined();
    const again = got(await store.open(job.id));
    const said = again.append(answer(1));
    expect(said.ok && said.notice).toContain('was set back');
    await again.close();
    now = '2031-05-04T07:00:00Z';
    expect(await notice()).toContain('was set back');
  });
});

describe('a job is made', () => {
  it('under an id of its own, though chance gave the same twice', async () => {
    const store = openStore(newFolder(), { random: () => 'abcdefgh' });
    const [one, two] = [got(await store.create('Fan', first)), got(await store.create('Fan', first))];
    expect(one.id).toBe('fan-abcdefgh');
    expect(two.id).toMatch(/^fan-[a-z2-9]{8}$/);
    expect(two.id).not.toBe(one.id);
    await one.close();
    await two.close();
  });
  it('not with a summary or a first entry that is none, nor where it can’t be saved', async () => {
    const folder = newFolder();
    const store = openStore(folder);
    const said = async (...made_: Parameters<typeof store.create>) => troubleIn(await store.create(...made_)).sentence;
    expect(await said('A', first, { deep: {} } as never)).toBe(
      'The job was not made because its summary is not small and plain.',
    );
    expect(await said('A', { ...first, procedure: 7 } as never)).toMatch(/^The job was not made: .*procedure/);
    expect(readdirSync(folder)).toEqual([]);
    writeFileSync(join(folder, 'jobs'), '');
    expect(await said('A', first)).toMatch(/^The new job could not be saved because .* Other jobs are not touched\./);
  });
});

describe('a job is taken in or sent out', () => {
  const sent = async (answers: number) => {
    const { folder, store, job } = await makeJob(answers);
    await job.close();
    const file = join(newFolder(), 'out.json');
    got(store.exportJob(job.id, file));
    return { folder, store, job, file };
  };
  afterEach(() => vi.useRealTimers());

  it('after another import, which is waited for a quarter of a minute', async () => {
    const { file } = await sent(1);
    const places = made();
    const busy = await lockJob(places, 'import-of-jobs');
    if ('other' in busy) throw new Error(busy.other);
    vi.useFakeTimers({ toFake: ['setTimeout'] });
    const ended: string[] = [];
    const turn = openStore(places.root)
      .importJob(file)
      .then((result) => ended.push(result.ok ? 'in' : result.trouble.sentence));
    await vi.advanceTimersByTimeAsync(14_900);
    expect(ended).toEqual([]);
    await vi.advanceTimersByTimeAsync(200);
    await turn;
    expect(ended).toEqual(['Another import into this folder is running; try again when it is done.']);
    const next = openStore(places.root).importJob(file);
    await vi.advanceTimersByTimeAsync(1000);
    busy.release();
    await vi.advanceTimersByTimeAsync(1000);
    expect(got(await next).entries).toBe(2);
    expect(readdirSync(places.locks)).toEqual([]);
  });
  it('adds what one or several entries it has gained, and says so', async () => {
    const { store, job, file } = await sent(1);
    const there = newFolder();
    const take = async (from: string) => {
      const taken = await openStore(there).importJob(from);
      return { head: got(taken), notice: taken.ok ? taken.notice : undefined };
    };
    const { head } = await take(file);
    const more = got(await store.open(job.id));
    got(more.append(answer(2)));
    await more.close();
    const longer = join(newFolder(), 'out.json');
    got(store.exportJob(job.id, longer));
    expect(await take(longer)).toMatchObject({
      head: { id: head.id, entries: 3 },
      notice: `1 entry was added to ${head.id}.`,
    });
    expect(got(openStore(there).list())).toHaveLength(1);
    expect(got(openStore(there).list())[0]?.entries).toBe(3);
  });
  it('nothing of one that is damaged, missing, newer, or goes where nothing can be written', async () => {
    const { folder, store, job } = await sent(1);
    const to = join(newFolder(), 'x.json');
    const file = join(folder, 'jobs', `${job.id}.json`);
    const text = readFileSync(file, 'utf8');
    expect(troubleIn(store.exportJob('none-abcdefgh', to)).code).toBe('unknown-job');
    writeFileSync(file, text.replace('"format":1', '"format":2'));
    expect(troubleIn(store.exportJob(job.id, to)).code).toBe('newer');
    writeFileSync(file, text.slice(0, -10));
    expect(troubleIn(store.exportJob(job.id, to)).code).toBe('damaged');
    expect(existsSync(to)).toBe(false);
    writeFileSync(file, text);
    expect(troubleIn(store.exportJob(job.id, join(folder, 'none', 'x.json'))).sentence).toMatch(
      /^The job could not be exported because .* The job itself is not touched\./,
    );
    expect(store.exportJob(job.id, to)).toEqual({ ok: true, value: to });
    writeFileSync(join(folder, 'file'), '');
    expect(troubleIn(await openStore(join(folder, 'file')).importJob(to)).sentence).toMatch(
      /^The file could not be imported because .* Jobs that are here already are not touched\./,
    );
  });
});
