/** practice, debrief, progress and replay --debrief, on a data folder of their own. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { classIn } from '../../src/commands/class.js';
import { modelToday } from '../../src/commands/job-basis.js';
import { rotorFor } from '../../src/commands/practice-rotors.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { openLibrary } from '../../src/library/open-library.js';
import { openStore } from '../../src/store/open-store.js';
import { type Ran, ranIn } from '../setup/commands.js';
import { putJob } from '../store/put-job.js';
import { modelOfRotor, rotorNamed, rotors } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
let data = '';
const run = (...words: string[]): Promise<Ran> =>
  // What touches no job takes no data folder.
  ranIn(root, [...words, ...(['replay', 'check'].includes(words[0] ?? '') ? [] : ['--data', data])]);

function storeJob(rotor: string, kind: 'caught' | 'fell'): Promise<string> {
  const { entries } = walk(modelOfRotor(rotorNamed(rotor)), rotorNamed(rotor), planFor(rotorNamed(rotor), kind));
  return putJob(data, rotorNamed(rotor).title, entries);
}

beforeAll(() => {
  data = mkdtempSync(join(tmpdir(), 'rotorside-training-'));
});
afterAll(() => rmSync(data, { recursive: true, force: true }));

describe('practice', () => {
  it('lists the rotors where there is no terminal', async () => {
    const { out, code } = await run('practice');
    expect(code).toBe(0);
    for (const r of rotors) expect(out).toContain(r.id);
    // What a rotor teaches must not give its traps away.
    for (const r of rotors) for (const t of r.file.traps) expect(out).not.toContain(t.title);
  });
  it('draws a rotor by its number: the same each time, with the key for the mentor', async () => {
    const { out, code } = await run('practice', '--any', '17', '--key');
    expect(code).toBe(0);
    expect(out).toContain("Rotor number 17: the mentor's key");
    expect((await run('practice', '--any', '17', '--key')).out).toBe(out);
    expect(JSON.parse((await run('practice', '--any', '17', '--json')).out)).toMatchObject({
      rotor: 'any-17',
      invented: true,
    });
    expect(await run('practice', '--any', '1.5')).toMatchObject({ code: 2, err: expect.stringContaining('--any 17') });
  });
  it('tells nobody what is set in one who only starts it without a terminal', async () => {
    for (const words of [['--any', '411'], ['--any', '411', '--by', 'A1', '--mentor', 'MM'], ['--any']]) {
      const { out, err, code } = await run('practice', ...words);
      expect([out, code]).toEqual(['', 2]);
      expect(err).toMatch(/needs a terminal/);
    }
  });
  it('says in the key of a late start which trap is not in it', async () => {
    // The fluid ounces of number 403 are read off in the measuring of the old grease.
    const whole = (await run('practice', '--any', '403', '--key')).out;
    expect(whole).not.toContain('It lies before');
    const late = (await run('practice', '--any', '403', '--from', 'dose', '--key')).out;
    expect(late).toContain('It lies before “Work out the dose”: whoever begins there does not meet it.');
    expect((await run('practice', 'stage-six', '--from', 'dose', '--key')).out).not.toContain('It lies before');
  });
  it('prints the key of a drawn and of a listed one, with the steps at which it shows', async () => {
    const { out, code } = await run('practice', '--any', '12', '--key');
    expect(code).toBe(0);
    expect(out).toMatch(/^Rotor number 12: the mentor's key\n/);
    expect(out).toMatch(/^ {6}At: [A-Z]/m);
    const listed = await run('practice', 'brown-seal', '--key');
    expect(listed.code).toBe(0);
    for (const t of rotorNamed('brown-seal').file.traps) expect(listed.out).toContain(`  ${t.title}\n`);
    expect(await run('practice', '--key')).toMatchObject({ code: 2, err: expect.stringContaining('ROTOR --key') });
  });
  it('refuses what cannot be set beforehand, and says what can', async () => {
    const with_ = async (...words: string[]) => (await run('practice', '--any', '12', ...words)).err;
    expect(await with_('--by', 'CA', '--mentor', 'ca')).toMatch(/another person/);
    expect(await with_('--lessons', 'never')).toMatch(/at-end or at-once/);
    expect(await with_('--from', 'seals-of')).toMatch(/seals-off/);
    expect(await with_('--by', '123456789')).toMatch(/--by: /);
    expect(await with_('--by', 'CA', '--mentor', 'MN', '--lessons', 'at-once', '--from', 'seals-off')).toMatch(
      /needs a terminal/,
    );
  });
  it('names the nearest for a rotor that is not there', async () => {
    const { err, code } = await run('practice', 'stage-sx');
    expect(code).toBe(2);
    expect(err).toMatch(/stage-six/);
  });
  it('says what it needs when it is to be started without a terminal', async () => {
    const { err, code } = await run('practice', 'stage-six');
    expect(code).toBe(2);
    expect(err).toMatch(/terminal/);
  });
});

describe('replay --debrief', () => {
  it('prints the debrief, or its data', async () => {
    const file = 'procedures/practice/glitter.fell.replay.yaml';
    const { out, code } = await run('replay', file, '--debrief');
    expect(code).toBe(0);
    expect(out).toContain('Missed: Metal glitter in the old grease');
    const made = JSON.parse((await run('replay', file, '--debrief', '--json')).out) as { traps: { end: string }[] };
    // Corrections by name since its second shape.
    expect(made).toMatchObject({ debrief: 2, corrections: [] });
    expect(made.traps.map((t) => t.end)).toEqual(['fell', 'fell']);
  });
});

describe('debrief and progress', () => {
  it('have nothing to tell at first', async () => {
    expect((await run('debrief')).err).toMatch(/no jobs yet/);
    expect((await run('progress')).err).toMatch(/INITIALS/);
  });
  it('tell of a job in the store, and keep it by person', async () => {
    const fell = await storeJob('brown-seal', 'fell');
    const told = await run('debrief', fell);
    expect(told.code).toBe(0);
    expect(told.out).toContain('Missed: A seal that acetone would ruin');
    expect(await run('progress', 'nobody')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/^Nobody with these initials has practised here. There are: AP\.$/m),
    });
    const before = (await run('progress', 'ap')).out;
    expect(before).toMatch(/- brown-seal.*once.*0 caught, 1 missed/);
    expect(before).toMatch(/0 of 11 rotors/);

    // The debrief of this one is never asked for; it counts all the same.
    await storeJob('brown-seal', 'caught');
    const after = (await run('progress', 'AP')).out;
    expect(after).toMatch(/\+ brown-seal.*2 times.*1 caught, 0 missed/);
    expect(after).toMatch(/1 of 11 rotors/);
    expect((await run('progress', 'AP')).out).toBe(after);
    expect((await run('progress', 'ZZ')).err).toMatch(/There are: AP/);
    const json = JSON.parse((await run('progress', 'AP', '--json')).out) as {
      rotors: { mastered: boolean; attempts: unknown[] }[];
    };
    expect(json.rotors[0]).toMatchObject({ mastered: true, attempts: { length: 2 } });
  });
  it('are asked for by initials too, on a page to be printed, and name whose jobs there are', async () => {
    const md = await run('debrief', 'ap', '--format', 'md');
    expect(md.out).toMatch(/^# Debrief: /);
    expect(md.out).toContain('\n## What you expected\n');
    const html = await run('debrief', 'AP', '--format', 'html');
    expect(html.out).toMatch(/^<!doctype html>.*<h2>Time<\/h2>/s);
    expect((await run('debrief', 'C9')).err).toMatch(/^There is no job “C9”; name one of:\n {2}\S+ {2}.*, AP$/m);
    expect((await run('debrief', 'AP', '--format', 'tag')).err).toMatch(/choose text, md, html or json/);
    expect((await run('debrief', 'AP', '--all')).err).toMatch(/leave the name out/);
  });
  it('set up a class with one command, and tell of it on one page', async () => {
    const before = (await run('debrief', '--all')).out;
    expect(before).toMatch(/^1 person on invented rotors\.$/m);
    const made = await run('practice', 'brown-seal', '--by', 'C1, C2,C3', '--mentor', 'MM');
    expect(made.out).toMatch(/^ {2}C2 +rotorside resume C2$/m);
    // Keys are taken while it is worked out.
    let [turns, over] = [0, false];
    const { library } = await openLibrary(undefined);
    const told = classIn(openStore(data), library, data, Date.now()).then(() => {
      over = true;
    });
    for (; !over; turns++) await new Promise((go) => setImmediate(go));
    await told;
    expect(turns).toBeGreaterThan(3);
    // All of a class stand on one rotor, read once.
    const model = modelToday(library, 'regrease-in-place');
    expect(rotorFor(library, 'brown-seal', model)).toBe(rotorFor(library, 'brown-seal', model));
    const { out } = await run('debrief', '--all');
    expect(out).toMatch(/^3 people on invented rotors; nobody is stuck\.$/m);
    expect(out).toMatch(/^C2, The brown seal: not begun, set up \d\d:\d\d$/m);
    expect(out).toMatch(/^Practice of other days is left out: 2 jobs\.$/m);
    const opened = rotorNamed('glitter');
    const [set] = walk(opened.model, opened, planFor(opened, 'caught')).entries;
    const at = new Date(Date.now() - 61 * 60_000).toISOString();
    // Nobody opened it within an hour.
    if (set?.kind === 'job') await putJob(data, 'Set up by mistake', [{ ...set, at, by: 'C9', apprentice: 'C9' }]);
    expect((await run('debrief', '--all')).out).toBe(out);
    expect((await run('debrief', 'c3')).out).toMatch(/^C3, mentor MM; 0 of/m);
    const json = JSON.parse((await run('debrief', '--all', '--json')).out) as {
      jobs: { debrief: { apprentice: string } }[];
    };
    expect(json.jobs.map((j) => j.debrief.apprentice).sort()).toEqual(['C1', 'C2', 'C3']);
    expect((await run('practice', 'brown-seal', '--by', 'C1,c1')).err).toMatch(/twice/);
    expect((await run('practice', '--by', 'C1,C2')).err).toMatch(/ROTOR --by/);
    expect((await run('practice', 'brown-seal', '--by', 'C1,MM', '--mentor', 'mm')).err).toMatch(/another person/);
  });
  it('lose nobody who is still at work when another class is set up', async () => {
    const opened = rotorNamed('wrong-bottle');
    const stop = { ...planFor(opened, 'fell'), end: (_: unknown, v: { wants?: string }) => v.wants === 'gate' };
    const { entries } = walk(opened.model, opened, stop);
    const later = Date.now() - 40 * 60_000 - Date.parse(entries.at(-1)!.at);
    const at = (e: Entry): string => new Date(Date.parse(e.at) + later).toISOString();
    await putJob(
      data,
      opened.title,
      entries.map((e) => ({ ...e, at: at(e), by: 'C8', ...(e.kind === 'job' ? { apprentice: 'C8' } : {}) })),
    );
    const { out } = await run('debrief', '--all');
    expect(out).toMatch(/^4 people on invented rotors; 1 may be stuck or waits for somebody\.$/m);
    expect(out).toMatch(/^! C8, The safety cabinet: STOP at /m);
    expect(out).not.toMatch(/^Older/m);
  });
  it('keep it when the jobs are gone', async () => {
    rmSync(join(data, 'jobs'), { recursive: true, force: true });
    expect((await run('progress', 'AP')).out).toMatch(/\+ brown-seal.*2 times/);
  });
});

describe('check', () => {
  it('looks at one rotor by itself and names the line of a mistake', async () => {
    expect(await run('check', 'procedures/practice/glitter.rotor.yaml')).toMatchObject({
      code: 0,
      out: 'No mistakes.\n',
    });
    const text = readFileSync(join(root, 'procedures/practice/glitter.rotor.yaml'), 'utf8');
    const file = join(data, 'bad.rotor.yaml');
    writeFileSync(file, text.replace('key: inside_findings', 'key: inside_finding'));
    const { err, code } = await run('check', file);
    expect(code).toBe(1);
    expect(err).toMatch(/bad\.rotor\.yaml:\d+:\d+: .*inside_finding”.*inside_findings/);
  });
  it('takes a shop’s own rotor beside the shipped ones', async () => {
    const shop = join(data, 'shop');
    mkdirSync(join(shop, 'practice'), { recursive: true });
    const text = readFileSync(join(root, 'procedures/practice/brown-seal.rotor.yaml'), 'utf8');
    writeFileSync(join(shop, 'practice', 'ours.rotor.yaml'), text.replace('rotor: brown-seal', 'rotor: ours'));
    expect((await run('practice', '--procedures', shop)).out).toMatch(/ {2}ours .*\n/);
    writeFileSync(join(shop, 'practice', 'ours.rotor.yaml'), text.replace('invented: true', 'invented: no'));
    expect(await run('practice', '--procedures', shop)).toMatchObject({
      code: 2,
      err: expect.stringContaining('invented'),
    });
  });
});
