/** The small parts of the store, each by itself: sentences of trouble, folders, names, the clock, drafts, heads, export files. */
import { existsSync, mkdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { defaultDataFolder, placesIn } from '../../src/store/data-folder.js';
import { byDiskClock, diskTime } from '../../src/store/disk-clock.js';
import { draftFile } from '../../src/store/draft-text.js';
import { newContent } from '../../src/store/job-file.js';
import { clockNotice, lockedBy, openHandle } from '../../src/store/job-handle.js';
import { isJobId, newJobId, randomTail } from '../../src/store/job-id.js';
import { headsIn, isHead, openWorkFirst } from '../../src/store/job-index.js';
import { kinOf } from '../../src/store/merge-job.js';
import { openStore } from '../../src/store/open-store.js';
import { jobWriter, stampOf, stampOrNone } from '../../src/store/save-job.js';
import { readTransfer, readTransferText, writeTransfer } from '../../src/store/transfer-job.js';
import { done, refused, troubleOf } from '../../src/store/trouble.js';
import { answer, first, got, makeJob, newFolder, troubleIn } from './sample-job.js';

describe('trouble', () => {
  const of = (code: string) =>
    troubleOf(Object.assign(new Error('x'), { code }), 'It was not saved', 'All is kept.').trouble;
  it.each<[string, string, string]>([
    ['ENOSPC', 'full', 'the disk is full. All is kept. Free some space and try again.'],
    ['EDQUOT', 'full', 'your share of the disk is used up. All is kept. Free some space and try again.'],
    [
      'EFBIG',
      'full',
      'the file would be larger than this disk allows. All is kept. Export the job and go on in a new one.',
    ],
    [
      'EROFS',
      'read-only',
      'the disk can only be read. All is kept. Make it writable or choose another folder with --data.',
    ],
    ...['EACCES', 'EPERM'].map((code): [string, string, string] => [
      code,
      'read-only',
      'the folder may not be written. All is kept. Ask for the right to write there, or choose another with --data.',
    ]),
    [
      'ENOENT',
      'gone',
      'the folder or file is no longer there. All is kept. Put it back (plug the drive in again) and try again.',
    ],
    ['ENOTDIR', 'gone', 'a file stands where the folder should be. All is kept. Move that file away and try again.'],
    ['ENODEV', 'gone', 'the drive is no longer there. All is kept. Plug it in again and try again.'],
    ...['ESTALE', 'ENOTCONN', 'EHOSTDOWN', 'EHOSTUNREACH', 'ENETUNREACH'].map((code): [string, string, string] => [
      code,
      'gone',
      'the shared drive went away. All is kept. Connect it again and try again.',
    ]),
    ['ETIMEDOUT', 'gone', 'the shared drive does not answer. All is kept. Connect it again and try again.'],
    [
      'EIO',
      'failed',
      'the disk reported a fault. All is kept. Try again; if it goes on, copy the folder to another disk.',
    ],
    ['EISDIR', 'failed', 'a folder stands where the file should be. All is kept. Move that folder away and try again.'],
    ['EEXIST', 'exists', 'a file of that name is already there. All is kept. Choose another name.'],
    ['ENAMETOOLONG', 'invalid', 'the name is too long. All is kept. Choose a shorter name.'],
    ['EWHAT', 'failed', 'something failed (EWHAT). All is kept. Try again.'],
  ])('%s', (system, code, why) => {
    expect(of(system)).toEqual({ code, sentence: `It was not saved because ${why}` });
  });
  it('of an error without a code says what it says; nothing kept, nothing said of it', () => {
    const sentence = (error: unknown) => troubleOf(error, 'It failed', '').trouble.sentence;
    expect(sentence(new Error('odd'))).toBe('It failed because something failed (odd). Try again.');
    expect(sentence('odd')).toBe('It failed because something failed (odd). Try again.');
  });
  it('carries what can be had back, and a notice, only where there is one', () => {
    const offer = { entries: 3, from: 'previous save', last: 'x' } as const;
    expect(refused('damaged', 'So.', offer)).toEqual({
      ok: false,
      trouble: { code: 'damaged', sentence: 'So.', offer },
    });
    expect(Object.keys(refused('damaged', 'So.').trouble)).toEqual(['code', 'sentence']);
    expect(done(1)).toEqual({ ok: true, value: 1 });
    expect(Object.keys(done(1))).toEqual(['ok', 'value']);
    expect(done(1, 'Mind.')).toEqual({ ok: true, value: 1, notice: 'Mind.' });
  });
});

/** XDG base directory specification, version 0.8: a relative path in XDG_DATA_HOME is to be ignored. */
it.each<[string, Record<string, string>, string, string]>([
  ['/x', { ROTORSIDE_DATA: '/x', XDG_DATA_HOME: '/y' }, 'linux', '/h'],
  ['/y/rotorside', { XDG_DATA_HOME: '/y' }, 'linux', '/h'],
  ['/h/.local/share/rotorside', { XDG_DATA_HOME: 'y' }, 'linux', '/h'],
  ['/h/.local/share/rotorside', { LOCALAPPDATA: '/l' }, 'linux', '/h'],
  ['/h/Library/Application Support/rotorside', { XDG_DATA_HOME: '/y' }, 'darwin', '/h'],
  ['/l/rotorside/Data', { LOCALAPPDATA: '/l' }, 'win32', '/h'],
  ['/h/AppData/Local/rotorside/Data', {}, 'win32', '/h'],
])('the data lie in %s: %j on %s', (folder, env, platform, home) => {
  expect(defaultDataFolder(env, platform, home)).toBe(folder);
});

describe('names of jobs', () => {
  it.each([
    ['Ärger  &  Co!', 'arger-co-abcdefgh'],
    ['--- 30 kW ---', '30-kw-abcdefgh'],
    ['***', 'job-abcdefgh'],
    ['x'.repeat(60), `${'x'.repeat(40)}-abcdefgh`],
    [`${'x'.repeat(39)} y`, `${'x'.repeat(39)}-abcdefgh`],
  ])('%s', (name, id) => {
    expect(newJobId(name, 'abcdefgh')).toBe(id);
    expect(isJobId(id)).toBe(true);
  });
  it.each([
    '',
    'a-abcdefg',
    'a-abcdefghi',
    '-a-abcdefgh',
    'A-abcdefgh',
    '../a-abcdefgh',
    'a-abcdefgh\n',
    `${'x'.repeat(61)}-abcdefgh`,
    7,
    undefined,
  ])('%j is none', (id) => {
    expect(isJobId(id)).toBe(false);
  });
  it('end in eight characters that are easy to read aloud', () => {
    expect(randomTail()).toMatch(/^[a-km-z2-9]{8}$/);
    expect(isJobId(newJobId('a'))).toBe(true);
    expect(isJobId(`${'x'.repeat(60)}-abcdefgh`)).toBe(true);
    expect(isJobId(['a-abcdefgh'])).toBe(false);
  });
});

it('a clock is set back where the last entry lies more than a minute ahead', () => {
  const now = new Date('2026-03-02T08:00:00Z');
  expect([undefined, '2026-03-02T07:00:00Z', '2026-03-02T08:01:00Z'].map((t) => clockNotice(t, now))).toEqual([
    ...[undefined, undefined, undefined],
  ]);
  expect(clockNotice('2026-03-02T08:01:00.001Z', now)).toMatch(
    /^The clock of this computer was set back: it says .* Set the clock right/,
  );
});

describe('the clock of the disk', () => {
  const lock = () => {
    const folder = join(newFolder(), 'a.lock');
    mkdirSync(folder);
    return folder;
  };
  it('is read by a file that is cleared again, and guessed where nothing can be written', () => {
    const folder = lock();
    expect(Math.abs(diskTime(folder) - Date.now())).toBeLessThan(60_000);
    expect(existsSync(`${folder}.${process.pid}.now`)).toBe(false);
    expect(() => diskTime(join(folder, 'none', 'at-all'))).toThrow(/ENOENT/);
  });
  it('stamps a lock; what was stamped reads back as it was told', () => {
    const folder = lock();
    const clock = byDiskClock();
    const told = new Date('2031-01-01T00:00:00Z');
    clock.utimesSync(folder, told, told);
    expect(Math.abs(statSync(folder).mtimeMs - Date.now())).toBeLessThan(60_000);
    expect(clock.statSync(folder).mtime.getTime()).toBe(told.getTime());
    // What somebody else stamps counts by this computer's time.
    const hour = new Date(Date.now() - 3_600_000);
    utimesSync(folder, hour, hour);
    expect(Math.abs(clock.statSync(folder).mtime.getTime() - hour.getTime())).toBeLessThan(60_000);
    clock.rmdirSync(folder);
    expect(existsSync(folder)).toBe(false);
  });
});

describe('what is typed and not confirmed', () => {
  const drafts = (folder = newFolder(), can = true) => ({ folder, file: draftFile(placesIn(folder), 'a', () => can) });
  const onDisk = (folder: string) => join(folder, 'drafts', 'a.json');
  it('is read back as it was left, the newest last', async () => {
    const { folder, file } = drafts();
    expect(file.get()).toEqual([]);
    const two = [
      { where: 'b', text: '1' },
      { where: 'a', text: '2' },
    ];
    file.set(two);
    expect(file.get()).toEqual(two);
    await file.flush();
    expect(drafts(folder).file.get()).toEqual(two);
    file.set([]);
    await file.flush();
    expect(existsSync(onDisk(folder))).toBe(false);
    await file.flush();
  });
  it('is written by nobody who may only look', async () => {
    const { folder, file } = drafts(newFolder(), false);
    file.set([{ where: 'a', text: '1' }]);
    await file.flush();
    expect(existsSync(onDisk(folder))).toBe(false);
  });
  it('is cut where it is long, and the oldest go where there is much', () => {
    const { file } = drafts();
    file.set([{ where: 'a', text: 'x'.repeat(20_001) }]);
    expect(file.get()[0]?.text).toHaveLength(20_000);
    const many = (n: number) =>
      Array.from({ length: n }, (_, i) => ({ where: String(i % 10), text: 'x'.repeat(19_999) }));
    file.set(many(10));
    expect(file.get()).toHaveLength(10);
    file.set(many(11));
    expect(file.get().map((d) => d.where)).toEqual(['1', '2', '3', '4', '5', '6', '7', '8', '9', '0']);
    file.set([{ where: 'more', text: 'x' }, ...many(10)]);
    expect(file.get()).toHaveLength(10);
  });
  it('is none where the file is of another form; once only one was kept', () => {
    const read = (value: unknown) => {
      const { folder, file } = drafts();
      mkdirSync(join(folder, 'drafts'));
      writeFileSync(onDisk(folder), JSON.stringify(value));
      return file.get();
    };
    expect(read({ where: 'a', text: '1', more: 2 })).toEqual([{ where: 'a', text: '1' }]);
    expect(
      read({
        drafts: [{ where: 'a', text: '1' }, { where: 'b' }, { text: '2' }, 3, { where: 'c', text: 'x'.repeat(20_001) }],
      }),
    ).toEqual([{ where: 'a', text: '1' }]);
    expect([read({ drafts: 7 }), read([]), read({ where: 1, text: '' })]).toEqual([[], [], []]);
  });
});

describe('heads of jobs', () => {
  const head = { id: 'a-abcdefgh', name: 'A', procedure: 'p', changed: '2026', entries: 2, summary: {} };
  it.each<[boolean, object]>([
    [true, {}],
    [true, { practice: 'x', fault: 'y' }],
    ...[
      ...[
        { id: 'A' },
        { name: 1 },
        { procedure: 1 },
        { changed: 1 },
        { entries: 1.5 },
        { summary: 1 },
        { practice: 1 },
      ],
      ...[{ fault: 1 }, { id: undefined }, { name: undefined }, { procedure: undefined }, { changed: undefined }],
    ].map((more): [boolean, object] => [false, more]),
  ])('%s: %j', (good, more) => {
    expect(isHead({ ...head, ...more })).toBe(good);
  });
  it('the last line of each counts and stands last; one odd line, and none does', () => {
    const other = { ...head, id: 'b-abcdefgh' };
    const lines = [head, other, { ...head, entries: 3 }].map((h) => JSON.stringify(h));
    expect([...headsIn(['', ...lines, ''])!.values()]).toEqual([other, { ...head, entries: 3 }]);
    expect(headsIn([...lines, '{}'])).toBeUndefined();
    expect(isHead(undefined)).toBe(false);
  });
  it('unfinished work on a real machine comes first', () => {
    const finished = { ...head, id: 'f', summary: { finished: true } };
    const practice = { ...head, id: 'p', practice: 'x' };
    const open = { ...head, id: 'o', summary: { finished: false } };
    expect(openWorkFirst([finished, head, practice, open]).map((h) => h.id)).toEqual(['a-abcdefgh', 'o', 'f', 'p']);
  });
});

describe('an open job that can only be looked at', () => {
  const at = '2026-03-02T08:00:00.000Z';
  const content = newContent('a-abcdefgh', 'A', [{ ...first, seq: 1, at }]);
  const handle = (why?: string) =>
    openHandle({
      places: placesIn(newFolder()),
      content,
      clock: () => new Date(at),
      ...(why ? { whyReadOnly: why } : {}),
    });
  it('says why, and takes nothing', async () => {
    const job = handle('It was opened to look at only.');
    expect([job.readOnly, job.whyReadOnly, job.name, job.entries.length]).toEqual([
      ...[true, 'It was opened to look at only.', 'A', 1],
    ]);
    expect(troubleIn(job.append(answer(1)))).toEqual({
      code: 'locked',
      sentence: 'This entry could not be saved. It was opened to look at only.',
    });
    expect(handle().readOnly).toBe(true);
    expect(troubleIn(handle().append([])).sentence).toBe('This entry could not be saved.');
    await job.close();
    await job.close();
    expect(troubleIn(job.append(answer(1)))).toEqual({
      code: 'closed',
      sentence: 'This entry could not be saved because the job was closed here. Open it again.',
    });
    expect(lockedBy('process 7')).toMatch(/^This job is open in another window \(process 7\), so/);
  });

  it('is exported all the same, and read back', () => {
    const file = join(newFolder(), 'a.json');
    writeTransfer(content, file);
    expect(got(readTransfer(file))).toEqual({ name: 'A', entries: content.entries, summary: {} });
    expect(() => writeTransfer(content, file)).toThrow(/EEXIST/);
    const text = readFileSync(file, 'utf8');
    const whole = JSON.parse(text) as Record<string, unknown>;
    expect(whole.procedure).toEqual({ id: 'regrease-in-place', version: '1', hash: 'abc123' });
    const trouble = (more: object) => troubleIn(readTransferText(JSON.stringify({ ...whole, ...more })));
    expect(got(readTransferText(`\ufeff${text}`)).name).toBe('A');
    const damaged = (why: string) => ({
      code: 'damaged',
      sentence: `This file is damaged (${why}); nothing was imported, so export the job again.`,
    });
    const strange = {
      code: 'invalid',
      sentence: 'This file is no job exported by rotorside; pick a file that the export command wrote.',
    };
    expect(trouble({ rotorside: 'x' })).toEqual(strange);
    expect(trouble({ format: 0 })).toEqual(strange);
    expect(trouble({ format: '1' })).toEqual(strange);
    expect(trouble({ format: 2 })).toEqual({
      code: 'newer',
      sentence: 'This file was exported by a newer version of rotorside (format 2); update rotorside.',
    });
    expect(trouble({ name: '' })).toEqual(damaged('it has no proper name'));
    expect(trouble({ name: 'x'.repeat(201) })).toEqual(damaged('it has no proper name'));
    expect(trouble({ name: 'x'.repeat(200) })).toEqual(damaged('its check sum does not match'));
    expect(trouble({ summary: 1 })).toEqual(damaged('its summary is wrong'));
    expect(trouble({ checksum: 1 })).toEqual(damaged('its check sum does not match'));
    expect(troubleIn(readTransferText(text.slice(0, 50)))).toEqual(damaged('it is cut off or garbled'));
    expect([troubleIn(readTransferText('x')), troubleIn(readTransferText('[]'))]).toEqual([strange, strange]);
    expect(troubleIn(readTransfer(join(file, '..')))).toEqual(strange);
    expect(troubleIn(readTransfer('/none/here.json'))).toEqual({
      code: 'gone',
      sentence: 'There is no file /none/here.json; name the file that the export command wrote.',
    });
    expect(troubleIn(readTransfer(`/${'x'.repeat(5000)}`)).sentence).toBe(
      'There is no such file: its name is too long.',
    );
  });
});

it('a file that is not there has no stamp; a change has another', () => {
  const file = join(newFolder(), 'a');
  expect(stampOrNone(file)).toBeUndefined();
  expect(() => stampOrNone(join(file, '\0'))).toThrow();
  writeFileSync(file, 'a');
  const before = stampOrNone(file);
  expect(stampOrNone(file)).toBe(before);
  writeFileSync(file, 'ab');
  expect(stampOrNone(file)).not.toBe(before);
});

it('a job that comes back is known by its name and all its entries; one that is damaged is none', async () => {
  const { folder, job, file } = await makeJob(2);
  await job.close();
  const places = placesIn(folder);
  const { entries } = job;
  const kin = (name: string, list: readonly Entry[]) => {
    const { kind, ...more } = kinOf(places, name, list);
    return 'same' in more ? `${kind} after ${more.same}` : kind;
  };
  const other = { ...entries[2], value: 9 } as Entry;
  const more = { ...entries[2], seq: 4 } as Entry;
  expect(kin('Test-bench rotor', entries)).toBe('known');
  expect(kin('Test-bench rotor', entries.slice(0, 2))).toBe('known');
  expect(kin('Test-bench rotor', [...entries, more])).toBe('longer');
  expect(kin('Test-bench rotor', [...entries.slice(0, 2), other])).toBe('parted after 2');
  expect(kin('Test-bench rotor', [{ ...entries[0]!, by: 'ZZ' }, ...entries.slice(1)])).toBe('new');
  expect(kin('Another', entries)).toBe('new');
  expect(kin('Test-bench rotor', [])).toBe('new');
  writeFileSync(file, readFileSync(file, 'utf8').slice(0, 300));
  expect(kin('Test-bench rotor', entries)).toBe('new');
});

it('a job has a name of 1 to 200 characters, without blanks around it', async () => {
  const store = openStore(newFolder());
  const made = async (name: string) => {
    const result = await store.create(name, first);
    if (!result.ok) return result.trouble.sentence;
    await result.value.close();
    return result.value.name;
  };
  expect(await made('  Fan  ')).toBe('Fan');
  expect(await made('x'.repeat(200))).toBe('x'.repeat(200));
  const refusal = 'A job needs a name of 1 to 200 characters; type a shorter one.';
  expect([await made('   '), await made('x'.repeat(201))]).toEqual([refusal, refusal]);
  expect(got(store.list())).toHaveLength(2);
});

describe('an open job', () => {
  it('tells how many entries are kept where one could not be saved, and is closed for good', async () => {
    for (const [answers, kept] of [
      [0, 'The one entry before it is kept.'],
      [2, 'All 3 entries before it are kept.'],
    ] as const) {
      const { job, file } = await makeJob(answers);
      expect(job.readOnly).toBe(false);
      rmSync(file);
      expect(troubleIn(job.append(answer(1))).sentence).toContain(kept);
      await job.close();
      expect(job.readOnly).toBe(true);
    }
  });

  it('goes on where a drive went away after the file was replaced and before that was proven', async () => {
    const { folder, job, file } = await makeJob(1);
    await job.close();
    const places = placesIn(folder);
    const writer = await jobWriter(places, job.id);
    let away = true;
    const handle = openHandle({
      places,
      content: newContent(job.id, job.name, job.entries),
      clock: () => new Date('2026-03-02T09:00:00.000Z'),
      keys: {
        lock: { heldBy: () => undefined, release: () => undefined },
        stamp: stampOf(file),
        writer: {
          save(next) {
            const stamp = writer.save(next);
            if (away) throw Object.assign(new Error('x'), { code: 'ESTALE' });
            return stamp;
          },
        },
      },
    });
    expect(troubleIn(handle.append(answer(2))).code).toBe('gone');
    away = false;
    // The other answer is given once it is back; the one that was told as not saved is gone.
    expect(handle.append(answer(3)).ok).toBe(true);
    await handle.close();
    const again = got(await openStore(folder).open(job.id, { readOnly: true }));
    expect(again.entries.map((e) => (e.kind === 'answer' ? e.typed : e.kind))).toEqual(['job', '0.1 ml', '3 ml']);
  });

  it('takes entries up to the year 9999, and warns of a clock behind the last of them', async () => {
    let now = '2026-03-02T08:00:00.000Z';
    const store = openStore(newFolder(), { clock: () => new Date(now) });
    const job = got(await store.create('Fan', first));
    const at = (time: string) => {
      now = time;
      return job.append(answer(1));
    };
    const notice = (time: string) => {
      const result = at(time);
      return result.ok ? result.notice !== undefined : result.trouble.code;
    };
    expect([notice('2026-03-02T08:00:00.000Z'), notice('2026-03-02T09:00:00.000Z')]).toEqual([false, false]);
    expect(notice('2026-03-02T08:30:00.000Z')).toBe(true);
    expect(notice('9999-06-01T00:00:00.000Z')).toBe(false);
    expect(notice('+010000-06-01T00:00:00.000Z')).toBe('failed');
    expect(notice('-000001-06-01T00:00:00.000Z')).toBe('failed');
    expect(notice('soon')).toBe('failed');
    expect(job.entries).toHaveLength(5);
    await job.close();
  });
});
