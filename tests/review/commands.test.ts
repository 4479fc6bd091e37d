/** check, outline, diff, schema and following replays as they are typed on the shell. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { root } from '../procedure/library.js';
import { type Ran, ranIn } from '../setup/commands.js';

const folder = mkdtempSync(join(tmpdir(), 'review-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const run = (...words: string[]): Promise<Ran> => ranIn(folder, words);
const file = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return name;
};
const lookFile = `${root}procedures/inspect-after-run.yaml`;
const look = readFileSync(lookFile, 'utf8');
const inspect = readFileSync(`${root}tests/procedure/replays/inspect.replay.yaml`, 'utf8');
const practice = `${root}procedures/practice/college-30kw.replay.yaml`;

describe('sources', () => {
  it('says first how many stand on what, then lists every row by its tag', async () => {
    const { out, code } = await run('sources');
    expect(code).toBe(0);
    expect(out.split('\n').slice(0, 4)).toEqual([
      expect.stringMatching(/^P +\d+ {2}published: document, edition and place are named$/),
      expect.stringMatching(/^M +\d+ {2}usual, but from memory/),
      expect.stringMatching(/^CP +\d+ {2}common practice or this guide's own caution: no source$/),
      expect.stringMatching(/^A +\d+ {2}arithmetic/),
    ]);
    expect(out).toContain('  ASTM D217, scope, Note 1: worked penetration, tenths of a millimetre\n    000: ');
    // Constants that stand in a calculator's code, beside the source of its formula.
    expect(out).toContain('  Magnus formula, WMO No. 8, from memory\n    bare-steel: ');
    expect(out).toMatch(/ {2}relubrication example of a trade catalogue.*\n {4}hot-interval: /);
    expect(out.length).toBeGreaterThan(20_000);
  });
  it('lists one tag, as words or as JSON, and says which tags there are', async () => {
    const one = await run('sources', '--tag', 'cp');
    expect(one.out).toMatch(/^== CP, \d+: common practice/);
    expect(one.out).not.toMatch(/^== P/m);
    expect(one.out).toContain('Shortest drying of an open bearing, by solvent');
    const json = JSON.parse((await run('sources', '--tag', 'P', '--json')).out);
    expect(json).toHaveLength(1);
    expect(json[0]).toMatchObject({ tag: 'P' });
    expect(await run('sources', '--tag', 'Q')).toMatchObject({
      code: 2,
      err: 'There is no tag “Q”; the tags are P, M, CP, A, shop.\n',
    });
    expect((await run('sources', 'P')).code).toBe(2);
  });
  it("puts a shop's own rows apart", async () => {
    mkdirSync(join(folder, 'shop', 'tables'), { recursive: true });
    const row = '{ id: steel, value: 7.8, tag: shop, source: "weighed on our scale" }';
    const columns = '{ value: { type: number, label: Density } }';
    file('shop/tables/densities.yaml', `table: densities\ntitle: Ours\ncolumns: ${columns}\nrows:\n  - ${row}\n`);
    const { out } = await run('sources', '--procedures', 'shop', '--tag', 'shop');
    expect(out).toContain("== shop, 1: the shop's own");
    expect(out).toContain('  weighed on our scale\n    steel: value 7.8');
  });
});

describe('check --words', () => {
  it('warns with file, line and cure, counts each kind, and is no failure', async () => {
    file('words.yaml', 'part: x\nsteps:\n  - id: one\n    do: Wipe it, then dry it.\n');
    expect(await run('check', '--words', 'words.yaml')).toEqual({
      out: 'words.yaml:4:9: One sentence instructs 2 things: wipe, dry. Give each a sentence, in the order of doing.\n\n    1  several instructions\n1 sentences instruct, 0 of them at dangerous steps.\nWith several actions: 1, 0 of them at dangerous steps. With none: 0, 0 of them at dangerous steps.\n',
      err: '',
      code: 0,
    });
    expect(JSON.parse((await run('check', '--words', '--json', 'words.yaml')).out)).toHaveLength(1);
    expect(await run('check', '--words')).toMatchObject({
      code: 2,
      err: expect.stringContaining('rotorside check --words procedures'),
    });
    expect((await run('check', '--words', 'nowhere.yaml')).code).toBe(2);
  });
});

describe('check', () => {
  it('finds nothing in what is shipped', async () => {
    expect(await run('check')).toMatchObject({ code: 0, err: '' });
    expect(await run('check', lookFile)).toEqual({ out: 'No mistakes.\n', err: '', code: 0 });
    expect((await run('check', `${root}procedures/tables/solvents.yaml`, practice)).code).toBe(0);
  });

  it('tells each mistake with file, line, column and cure, and ends with 1', async () => {
    file(
      'bad.yaml',
      look
        .replace('calc: next-look', 'calc: nxt-look')
        .replace('why: Both sheets together tell all about these bearings.', ''),
    );
    const r = await run('check', 'bad.yaml');
    expect(r.code).toBe(1);
    expect(r.out).toBe('');
    expect(r.err).toMatch(/^bad\.yaml:\d+:5: “why” is missing in the step “statement”\. Add “why:” with text\.$/m);
    expect(r.err).toMatch(/^bad\.yaml:\d+:11: There is no calculator “nxt-look”\. Did you mean “next-look”\?$/m);
    expect(r.err).toMatch(/\d+ mistakes\.\n$/);
    const all = JSON.parse((await run('check', 'bad.yaml', '--json')).out) as { code: string; line: number }[];
    expect(all.map((p) => p.code)).toEqual(expect.arrayContaining(['missing', 'calculator-unknown']));
  });

  it('takes a part by itself and beside its procedure', async () => {
    mkdirSync(join(folder, 'with/parts'), { recursive: true });
    file(
      'with/parts/lock.yaml',
      'part: lock\nversion: 1.0.0\ntitle: Lock\nneeds: [ { phase: all } ]\nsteps:\n  - { id: lock-it, phase: all, at: job, title: Lock, do: Lock it., why: It starts. }\n',
    );
    file(
      'with/one.yaml',
      'procedure: one\nversion: 1.0.0\ntitle: One\nsummary: Short.\nplaces: []\nphases: [ { id: all, title: All } ]\nsteps:\n  - part: lock\n',
    );
    for (const what of ['with/parts/lock.yaml', 'with/one.yaml', 'with'])
      expect(await run('check', what)).toMatchObject({ code: 0, err: '' });
    expect((await run('outline', 'with/one.yaml')).out).toContain('### 1. Lock (from part lock)');
    expect((await run('diff', 'with/parts/lock.yaml', 'with/parts/lock.yaml')).out).toBe('Nothing differs.\n');
    expect((await run('schema', 'part')).out).toContain('A part of rotorside');
    file('with/one.yaml', readFileSync(join(folder, 'with/one.yaml'), 'utf8').replace('part: lock', 'part: lok'));
    expect((await run('check', 'with/one.yaml')).err).toContain(
      'with/one.yaml:8:11: There is no part “lok”. Did you mean “lock”?',
    );
  });

  it('says when a file is not there, and ends with 2', async () => {
    expect(await run('check', 'nowhere.yaml')).toEqual({
      out: '',
      err: 'There is no file nowhere.yaml; give the path of one that is there.\n',
      code: 2,
    });
  });

  it('looks at a whole folder', async () => {
    mkdirSync(join(folder, 'shop/tables'), { recursive: true });
    file('shop/one.yaml', look.replace('procedure: inspect-after-run', 'procedure: ours'));
    expect(await run('check', 'shop')).toMatchObject({ code: 0 });
    expect((await run('check', '--procedures', 'shop')).out).toContain("1 of the shop's own and 2 shipped procedures");
    expect(await run('check', '--procedures', 'nowhere')).toMatchObject({ code: 1 });
  });
});

describe('outline, diff, schema', () => {
  it('prints an outline by name and by file', async () => {
    const byName = await run('outline', 'inspect-after-run');
    expect(byName).toMatchObject({ code: 0, err: '' });
    expect(byName.out).toMatch(/^# Inspect regreased bearings/);
    expect((await run('outline', `${root}procedures/inspect-after-run.yaml`)).out).toBe(byName.out);
    expect(await run('outline', 'inspect-after-runn')).toMatchObject({
      code: 2,
      err: 'There is no procedure and no file “inspect-after-runn”. Did you mean “inspect-after-run”?\n',
    });
  });

  it('compares a shipped procedure with a file', async () => {
    file(
      'new.yaml',
      look.replace('plausible: [15, 65], limits: [-20, 300]', 'plausible: [15, 60], limits: [-20, 250]'),
    );
    const r = await run('diff', lookFile, 'new.yaml');
    expect(r).toMatchObject({ code: 1, err: '' });
    expect(r.out).toContain('Limits of “Outer ring”: -20 °C to 250 °C, before -20 °C to 300 °C.');
    expect(await run('diff', 'new.yaml', 'new.yaml')).toEqual({ out: 'Nothing differs.\n', err: '', code: 0 });
    expect((await run('diff', 'new.yaml')).err).toBe(
      'diff needs two procedures, each a file or a name; type rotorside diff OLD NEW.\n',
    );
  });

  it('prints the JSON Schema', async () => {
    expect(JSON.parse((await run('schema')).out)).toMatchObject({ type: 'object', title: 'A procedure of rotorside' });
    expect(JSON.parse((await run('schema', 'table')).out)).toMatchObject({ title: 'A table of rotorside' });
    expect((await run('schema', 'x')).code).toBe(2);
  });
});

describe('replays that follow others', () => {
  const follow = (earlier: string): string => inspect.replace(/^earlier: .*$/m, earlier);

  it('runs after the one that it names', async () => {
    file('look.replay.yaml', follow(`earlier: ${practice}`));
    const r = await run('replay', 'look.replay.yaml');
    expect(r.code).toBe(0);
    expect(r.out).toContain('| Follows the job | College test bench 30 kW rotor |');
  });

  it.each([
    [
      'no earlier job',
      '',
      /^l\.yaml:\d+:12: “inspect-after-run” follows a finished job of regrease-in-place\. Add “earlier:” with the replay file of that job\.$/,
    ],
    [
      'a file that is not there',
      'earlier: gone.yaml',
      /^There is no file .*gone\.yaml; give the path of one that is there\.$/,
    ],
    ['itself', 'earlier: l.yaml', /l\.yaml: these jobs follow each other in a circle; mend an “earlier:”\.$/],
  ])('refuses %s in one sentence', async (_, earlier, sentence) => {
    file('l.yaml', follow(earlier));
    const r = await run('replay', 'l.yaml');
    expect(r.code).toBe(2);
    expect(r.out).toBe('');
    expect(r.err.trim()).toMatch(sentence);
  });

  it('refuses a job that is not finished', async () => {
    const whole = readFileSync(practice, 'utf8');
    file('half.yaml', whole.slice(0, whole.indexOf('  # safe')));
    file('l.yaml', follow('earlier: half.yaml'));
    expect((await run('replay', 'l.yaml')).err).toMatch(
      /The job “College test bench 30 kW rotor” is not finished yet; finish it first\.\n$/,
    );
  });
});
