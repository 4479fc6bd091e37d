/** What the book for people who write procedures shows is true: its examples are sound, run, and complain as printed. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { calculators } from '../../src/calc/index.js';
import { runReplay } from '../../src/commands/run-replay.js';
import { tablesOf } from '../../src/library/library.js';
import { readFolder } from '../../src/library/read-folder.js';
import { readRotors } from '../../src/library/read-rotors.js';
import { loadPart } from '../../src/procedure/check-part.js';
import { checkWords } from '../../src/procedure/check-words.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { showProblem } from '../../src/procedure/problem.js';
import { questionKinds } from '../../src/procedure/questions/index.js';
import { procedureSchema } from '../../src/procedure/schema.js';
import { loadWordList } from '../../src/procedure/word-list.js';
import { outline } from '../../src/review/outline.js';
import { canonicalUnit } from '../../src/units/kinds.js';
import { content } from './content.js';
import { root } from './library.js';

const section = readFileSync(`${root}procedures/README.md`, 'utf8');
const blocks = [...section.matchAll(/^ *```(\w*)\n([\s\S]*?)^ *```$/gm)].map((m) => ({
  language: m[1],
  text: m[2] ?? '',
}));
const yaml = blocks.filter((b) => b.language === 'yaml').map((b) => b.text);
const [procedureText = '', replayText = '', rotorText = '', partText = ''] = yaml;

const folder = mkdtempSync(join(tmpdir(), 'page-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
writeFileSync(join(folder, 'grease-nipple.yaml'), procedureText);
writeFileSync(join(folder, 'roof.replay.yaml'), replayText);

describe('the book for those who write procedures', () => {
  const shop = readFolder(folder, content);
  const own = shop.procedures[0];

  it('shows a sound procedure of five steps', () => {
    expect(shop.problems.map(showProblem)).toEqual([]);
    expect(own?.procedure.steps).toHaveLength(5);
  });

  it('shows it in words that can’t be misread', () => {
    const { words } = loadWordList(readFileSync(`${root}procedures/words/words.yaml`, 'utf8'), 'words.yaml');
    expect(checkWords(procedureText, 'grease-nipple.yaml', words).map(showProblem)).toEqual([]);
  });

  it('says truly where a number wants a point', () => {
    const says = (from: string, to: string): string[] =>
      loadProcedure(procedureText.replace(from, to), 'p', { tables: {}, calculators }).problems.map((p) => p.message);
    expect(says('grams / stroke_gives', 'grams / 2')).toEqual(['“/” stands between a number and a whole number.']);
    expect(says('must: every_vent_open', 'must: every_vent_open || 1 < 2')).toEqual([]);
  });

  it('shows readings with which it runs to its end', () => {
    const tables = tablesOf(shop.tables);
    const procedures = new Map(own ? [[own.procedure.procedure, own]] : []);
    const run = runReplay(join(folder, 'roof.replay.yaml'), { tables, procedures, rotors: new Map() });
    if (!run.ok) throw new Error(run.message);
    expect(run.state.finished).toBe(true);
    // G = 0.005 D B in open, vented housings (published trade handbooks): 90 x 23 mm give 10.35 g.
    const grams = run.state.values.get('grams', 'a');
    expect(grams.known && grams.value).toBeCloseTo(10.35, 6);
  });

  it('shows a practice rotor that can be seen through and fallen for', () => {
    const procedures = new Map(own ? [[own.procedure.procedure, own]] : []);
    mkdirSync(join(folder, 'practice'), { recursive: true });
    writeFileSync(join(folder, 'practice/wet-roof.rotor.yaml'), rotorText);
    const read = readRotors(folder, { procedures, tables: tablesOf(shop.tables) });
    expect(read.problems.map(showProblem)).toEqual([]);
    expect(read.rotors.map((r) => r.rotor)).toEqual(['wet-roof']);
  });

  it('has no command that can’t be pasted, and no link that leads nowhere', () => {
    expect(section.match(/(?<!npx )\brotorside (check|replay|outline|diff|schema|calc|practice|--)/g)).toBeNull();
    for (const [, to = ''] of section.matchAll(/\]\((?!https?:)([^)#]+)\)/g))
      expect(existsSync(join(root, 'procedures', to)), to).toBe(true);
  });

  it('shows a part that serves its procedure', () => {
    const part = loadPart(partText.replace(/^ {2}/gm, ''), 'parts/lock-out.yaml', {
      tables: tablesOf(content.tables),
      calculators,
    });
    expect(part.problems.map(showProblem)).toEqual([]);
    const locked = procedureText.replace(/ {2}- id: lock-out[\s\S]*?(?= {2}- id: size)/, '  - part: lock-out\n');
    const around = { tables: tablesOf(content.tables), calculators, parts: new Map([[part.id, part]]) };
    const loaded = loadProcedure(locked, 'p', around);
    expect(loaded.problems.map(showProblem)).toEqual([]);
    expect(loaded.procedure?.steps.map((x) => x.id)).toEqual(['fan', 'lock', 'size', 'grease-in', 'sign']);
  });

  it('prints the complaint that a spoilt file gives', () => {
    const printed = blocks.find((b) => b.language === '')?.text.trim();
    const spoilt = procedureText.replace('rests_on: [grams]', 'rests_on: [gram]');
    const { problems } = loadProcedure(spoilt, 'my-shop/grease-nipple.yaml', {
      tables: tablesOf(content.tables),
      calculators,
    });
    expect(problems.map(showProblem)).toEqual([printed]);
  });

  it('shows each kind of question there is, with an example that is one, and what can be measured', () => {
    const rows = [...section.matchAll(/^ {2}\| `([a-z-]+)` \| .* \| `(\{.*\})` \|$/gm)];
    expect(rows.map((m) => m[1])).toEqual(Object.keys(questionKinds));
    for (const [, kind = '', example = ''] of rows) {
      const step = {
        id: 'one',
        phase: 'work',
        at: 'job',
        title: 'One',
        do: 'Do it.',
        why: 'So.',
        ask: [parse(example)],
      };
      const whole = { procedure: 'p', version: '1.0.0', title: 'P', summary: 'S.', places: [], steps: [step] };
      const read = procedureSchema.safeParse({ ...whole, phases: [{ id: 'work', title: 'Work' }] });
      expect(read.error?.issues, kind).toBeUndefined();
      expect(read.data?.steps[0]).toMatchObject({ ask: [{ kind }] });
    }
    const measures = /What `quantity` can measure, with the canonical unit: ([^.]+)\./.exec(section)?.[1];
    const named = Object.entries(canonicalUnit).map(([kind, unit]) => (unit ? `${kind} (${unit})` : kind));
    expect(measures?.split(', ')).toEqual(named);
  });

  it('says how to work it', () => {
    for (const command of ['check', 'replay', 'outline', 'diff', 'schema', '--procedures'])
      expect(section).toContain(command);
    expect(own && outline(own.procedure, calculators)).toContain('### 5. Sign');
  });
});
