/** practice, debrief, progress and replay --debrief, run as programs on a data folder of their own. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Draft } from '../../src/engine/journal/entry.js';
import { openStore } from '../../src/store/open-store.js';
import { modelOfRotor, rotorNamed, rotors } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
let data = '';
const run = (...args: string[]) => {
  // What touches no job takes no data folder.
  const where = ['replay', 'check'].includes(args[0] ?? '') ? [] : ['--data', data];
  const r = spawnSync(process.execPath, ['dist/cli.js', ...args, ...where], { cwd: root, encoding: 'utf8' });
  return { out: r.stdout, err: r.stderr, code: r.status };
};

async function storeJob(rotor: string, kind: 'caught' | 'fell'): Promise<string> {
  const { entries } = walk(modelOfRotor(rotorNamed(rotor)), rotorNamed(rotor), planFor(rotorNamed(rotor), kind));
  const [first, ...rest] = entries.map(({ seq: _, at: __, ...draft }) => draft as Draft);
  let now = entries[0]!.at;
  const store = openStore(data, { clock: () => new Date(now) });
  const made = await store.create(rotorNamed(rotor).title, first as Extract<Draft, { kind: 'job' }>);
  if (!made.ok) throw new Error(made.trouble.sentence);
  // Each at its own time: what has to dry has dried.
  for (const [i, draft] of rest.entries()) {
    now = entries[i + 1]!.at;
    const saved = made.value.append(draft);
    if (!saved.ok) throw new Error(saved.trouble.sentence);
  }
  await made.value.close();
  return made.value.id;
}

beforeAll(() => {
  data = mkdtempSync(join(tmpdir(), 'rotorside-training-'));
});
afterAll(() => rmSync(data, { recursive: true, force: true }));

describe('practice', () => {
  it('lists the rotors where there is no terminal', () => {
    const { out, code } = run('practice');
    expect(code).toBe(0);
    for (const r of rotors) expect(out).toContain(r.id);
    // What a rotor teaches must not give its traps away.
    for (const r of rotors) for (const t of r.file.traps) expect(out).not.toContain(t.title);
  });
  it('draws a rotor by its number: the same each time, with the key for the mentor', () => {
    const { out, code } = run('practice', '--any', '17');
    expect(code).toBe(0);
    expect(out).toContain("Rotor number 17: the mentor's key");
    expect(run('practice', '--any', '17').out).toBe(out);
    expect(JSON.parse(run('practice', '--any', '17', '--json').out)).toMatchObject({ rotor: 'any-17', invented: true });
    expect(run('practice', '--any', '1.5')).toMatchObject({ code: 2, err: expect.stringContaining('--any 17') });
  });
  it('names the nearest for a rotor that is not there', () => {
    const { err, code } = run('practice', 'stage-sx');
    expect(code).toBe(2);
    expect(err).toMatch(/stage-six/);
  });
  it('says what it needs when it is to be started without a terminal', () => {
    const { err, code } = run('practice', 'stage-six');
    expect(code).toBe(2);
    expect(err).toMatch(/terminal/);
  });
});

describe('replay --debrief', () => {
  it('prints the debrief, or its data', () => {
    const file = 'procedures/practice/glitter.fell.replay.yaml';
    const { out, code } = run('replay', file, '--debrief');
    expect(code).toBe(0);
    expect(out).toContain('Missed: Metal glitter in the old grease');
    const made = JSON.parse(run('replay', file, '--debrief', '--json').out) as { traps: { end: string }[] };
    expect(made.traps.map((t) => t.end)).toEqual(['fell', 'fell']);
  });
});

describe('debrief and progress', () => {
  it('have nothing to tell at first', () => {
    expect(run('debrief').err).toMatch(/no jobs yet/);
    expect(run('progress').err).toMatch(/INITIALS/);
  });
  it('tell of a job in the store, and keep it by person', async () => {
    const fell = await storeJob('brown-seal', 'fell');
    const told = run('debrief', fell);
    expect(told.code).toBe(0);
    expect(told.out).toContain('Missed: A seal that acetone would ruin');
    const before = run('progress', 'ap').out;
    expect(before).toMatch(/- brown-seal.*once.*0 caught, 1 missed/);
    expect(before).toMatch(/0 of 11 rotors/);

    // The debrief of this one is never asked for; it counts all the same.
    await storeJob('brown-seal', 'caught');
    const after = run('progress', 'AP').out;
    expect(after).toMatch(/\+ brown-seal.*2 times.*1 caught, 0 missed/);
    expect(after).toMatch(/1 of 11 rotors/);
    expect(run('progress', 'AP').out).toBe(after);
    expect(run('progress', 'ZZ').out).toMatch(/0 of 11/);
    const json = JSON.parse(run('progress', 'AP', '--json').out) as {
      rotors: { mastered: boolean; attempts: unknown[] }[];
    };
    expect(json.rotors[0]).toMatchObject({ mastered: true, attempts: { length: 2 } });
  });
  it('keep it when the jobs are gone', () => {
    rmSync(join(data, 'jobs'), { recursive: true, force: true });
    expect(run('progress', 'AP').out).toMatch(/\+ brown-seal.*2 times/);
  });
});

describe('check', () => {
  it('looks at one rotor by itself and names the line of a mistake', () => {
    expect(run('check', 'procedures/practice/glitter.rotor.yaml')).toMatchObject({ code: 0, out: 'No mistakes.\n' });
    const text = readFileSync(join(root, 'procedures/practice/glitter.rotor.yaml'), 'utf8');
    const file = join(data, 'bad.rotor.yaml');
    writeFileSync(file, text.replace('key: inside_findings', 'key: inside_finding'));
    const { err, code } = run('check', file);
    expect(code).toBe(1);
    expect(err).toMatch(/bad\.rotor\.yaml:\d+:\d+: .*inside_finding”.*inside_findings/);
  });
  it('takes a shop’s own rotor beside the shipped ones', () => {
    const shop = join(data, 'shop');
    mkdirSync(join(shop, 'practice'), { recursive: true });
    const text = readFileSync(join(root, 'procedures/practice/brown-seal.rotor.yaml'), 'utf8');
    writeFileSync(join(shop, 'practice', 'ours.rotor.yaml'), text.replace('rotor: brown-seal', 'rotor: ours'));
    expect(run('practice', '--procedures', shop).out).toMatch(/ {2}ours .*\n/);
    writeFileSync(join(shop, 'practice', 'ours.rotor.yaml'), text.replace('invented: true', 'invented: no'));
    expect(run('practice', '--procedures', shop)).toMatchObject({ code: 2, err: expect.stringContaining('invented') });
  });
});
