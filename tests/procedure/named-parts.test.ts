/** Parts that procedures name by one line: moving text into one changes nothing, and mistakes are told where they stand. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { calculators as shippedCalculators } from '../../src/calc/index.js';
import { contentHash } from '../../src/library/hash.js';
import { readFolder } from '../../src/library/read-folder.js';
import { loadPart } from '../../src/procedure/check-part.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { type KeyInfo, keysOf } from '../../src/procedure/model.js';
import type { PartFile } from '../../src/procedure/parts.js';
import { asFacts, asNeeds } from '../../src/procedure/paste-needs.js';
import { showProblem } from '../../src/procedure/problem.js';
import type { Need, Procedure } from '../../src/procedure/schema.js';
import { difference, partDifference } from '../../src/review/difference.js';
import { outline } from '../../src/review/outline.js';
import { content } from './content.js';
import { library } from './library.js';
import { calculators, changed, sound, tables } from './sound.js';

const around = { tables, calculators };
const fillStep = / {2}- id: fill\n[\s\S]*?(?= {2}- id: drop)/.exec(sound)?.[0] ?? '';
const doseCalc = / {2}- \{ calc: dose, .*\n/.exec(sound)?.[0] ?? '';
const part = `part: fill-up
version: 1.0.0
title: Fill it up
needs:
  - { place: position }
  - { phase: work }
  - { key: bore, at: position, quantity: length }
  - { key: speed, at: job, quantity: speed }
steps:
${fillStep}calcs:
${doseCalc}`;
const whole = sound.replace(fillStep, '  - part: fill-up\n').replace(`calcs:\n${doseCalc}`, '');

const partOf = (text: string): PartFile => loadPart(text, 'parts/fill-up.yaml', around);
const load = (text = whole, ...parts: string[]) =>
  loadProcedure(text, 'p.yaml', { ...around, parts: new Map(parts.map(partOf).map((p) => [p.id, p])) });
const says = (text: string, ...parts: string[]): string[] => load(text, ...parts).problems.map(showProblem);
const alone = (find: string, replace: string): string[] =>
  partOf(changed(find, replace, part)).problems.map(showProblem);
const hash = (p: Procedure | undefined): string => (p ? contentHash(p, tables) : 'none');

describe('a part', () => {
  it('stands in a procedure as one line and leaves it just what it was', () => {
    expect(fillStep).toContain('Dry bearings die');
    expect(says(whole, part)).toEqual([]);
    const before = loadProcedure(sound, 'p.yaml', around).procedure;
    expect(load(whole, part).procedure).toEqual(before);
    expect(hash(load(whole, part).procedure)).toBe(hash(before));
    expect(load(whole, part).parts).toEqual([{ part: 'fill-up', version: '1.0.0', steps: ['fill'] }]);
  });

  it('can carry facts and branches alone, where a line says or behind the others', () => {
    const fast = '  - { key: fast, at: job, label: Fast, type: bool, is: "speed > 1000.0" }\n';
    const facts = `part: quick\nversion: 1.0.0\ntitle: Quick\nneeds: [ { key: speed, at: job, quantity: speed } ]\nfacts:\n${fast}`;
    const text = sound.replace(fast, '  - part: quick\n');
    expect(hash(load(text, facts).procedure)).toBe(hash(loadProcedure(sound, 'p', around).procedure));
    const both = `part: fallen\nversion: 1.0.0\ntitle: Fallen\nneeds: [ { place: position }, { phase: work }, { step: measure } ]\n${sound.match(/branches:\n.*\n/)?.[0]}steps:\n${sound.match(/ {2}- id: drop[\s\S]*?(?=facts:)/)?.[0]}`;
    const moved = sound
      .replace(/ {2}- id: drop[\s\S]*?(?=facts:)/, '  - part: fallen\n')
      .replace(/branches:\n.*\n/, '');
    expect(says(moved, both)).toEqual([]);
    expect(hash(load(moved, both).procedure)).toBe(hash(loadProcedure(sound, 'p', around).procedure));
  });

  it('tells its own mistakes at its own line, and who uses it', () => {
    expect(says(whole, changed('do: Fill in {dose}.', 'do: Fill in {doze}.', part))).toEqual([
      'parts/fill-up.yaml:14:18: There is no value “doze”. Did you mean “dose”? If not, name it under “needs”. (used by p.yaml:57)',
    ]);
    expect(says(whole, changed('    why: Dry bearings die.\n', '', part))).toEqual([
      'parts/fill-up.yaml:10:5: “why” is missing in the step “fill”. Add “why:” with text. (used by p.yaml:57)',
    ]);
  });

  it('is told at its own line what goes wrong only among others', () => {
    const gate = `    gates:\n      - { id: never, must: "bore > 3.0 && speed > 9000.0", say: Too small., overrule: never }\n`;
    const [first] = says(whole, part.replace('    wait:', `${gate}    wait:`));
    expect(first).toBe(
      'parts/fill-up.yaml:20:28: The gate “never” can never open: what it asks for is never true. Change the condition or take the part out. (used by p.yaml:57)',
    );
  });

  it('stands where all that it needs is known, or it is told where it belongs', () => {
    const early = whole.replace('  - part: fill-up\n', '').replace('steps:\n', 'steps:\n  - part: fill-up\n');
    expect(says(early, part)).toEqual([
      'p.yaml:20:5: The part “fill-up” needs “bore” in its step “fill”, and it is asked only later, in “measure”. Move the line behind “measure”.',
    ]);
    // What has a value before it is asked can be read before.
    const known = early.replace('limits: [3, 300] }', 'limits: [3, 300], otherwise: 20 }');
    expect(says(known.replace('label: Speed, ', 'label: Speed, otherwise: 900, '), part)).toEqual([]);
  });

  it('names the other part behind which it belongs', () => {
    const measureStep = / {2}- id: measure\n[\s\S]*?(?= {2}- id: open)/.exec(sound)?.[0] ?? '';
    const first = `part: measuring\nversion: 1.0.0\ntitle: Measuring\nneeds:\n  - { place: position }\n  - { phase: look }\n  - { key: grease, at: job }\n  - { key: speed, at: job, quantity: speed }\n  - { branch: dropped, at: position }\nsteps:\n${measureStep}`;
    const right = whole.replace(measureStep, '  - part: measuring\n');
    expect(says(right, part, first)).toEqual([]);
    const swapped = right
      .replace('  - part: fill-up\n', '')
      .replace('  - part: measuring\n', '  - part: fill-up\n  - part: measuring\n');
    expect(says(swapped, part, first)).toEqual([
      'p.yaml:30:5: The part “fill-up” needs “bore” in its step “fill”, and it is asked only later, in “measure”. Move the line behind “- part: measuring”.',
    ]);
  });

  it('uses what any of its lines names, a time that runs from another step too', () => {
    const fresh = `    fresh: { after: opened, minutes: "60.0", say: Too long., raise: lain }\n    wait:`;
    const needs = '  - { step: opened, at: position }\n  - { branch: lain, at: position }\n';
    const timed = part.replace('    wait:', fresh).replace('needs:\n', `needs:\n${needs}`);
    expect(partOf(timed).problems).toEqual([]);
    expect(partOf(timed.replace('opened, at: position', 'opened')).problems.map(showProblem)).toEqual([
      'parts/fill-up.yaml:21:21: “opened” is done at another kind of place than “fill”. Write “at: position” at its need, or name another step.',
    ]);
    expect(says(whole, timed.replaceAll('opened', 'open').replaceAll('lain', 'dropped'))).toEqual([
      'p.yaml:57:5: The part “fill-up” needs the step “open” at position, but it is done at seal. Do it at that place.',
    ]);
  });

  it('does without what has a value of its own or is optional, and adds nothing where it is given', () => {
    const soft = (more: string, text = part): string =>
      text
        .replace('needs:\n', `needs:\n${more}`)
        .replace('    wait:', '    not_after: [opened]\n    when: "cap != \'none\' || !event_lain"\n    wait:');
    const needs =
      '  - { key: cap, at: position, otherwise: none }\n  - { step: opened, optional: true }\n  - { branch: lain, at: position, optional: true }\n';
    expect(partOf(soft(needs)).problems).toEqual([]);
    const { procedure, problems } = load(whole, soft(needs));
    expect(problems.map(showProblem)).toEqual([]);
    expect(procedure?.facts?.slice(-2)).toEqual([
      { key: 'cap', at: 'position', label: 'cap', type: 'string', is: "'none'" },
      { key: 'event_lain', at: 'position', label: 'lain', type: 'bool', is: 'false' },
    ]);
    expect(procedure?.steps.find((s) => s.id === 'fill')).not.toHaveProperty('not_after');
    const given = whole.replace(
      'facts:\n',
      "facts:\n  - { key: cap, at: position, label: Cap, is: \"grease == 'good' ? 'felt' : 'none'\" }\n",
    );
    expect(load(given, soft(needs)).procedure?.facts?.filter((f) => f.key === 'cap')).toHaveLength(1);
    const of = (need: string) => partOf(soft(needs.replace('otherwise: none', need))).problems.map(showProblem)[0];
    expect(of('otherwise: 3')).toBe(
      'parts/fill-up.yaml:5:42: “3” is not what the value “cap” can be. Write a word, a number in canonical units or true or false, as it is needed; a list has none.',
    );
  });

  it('has what it lacks written out to be pasted, and so has a procedure', () => {
    const bare = partOf(part.replace(/needs:[\s\S]*?steps:/, 'steps:'));
    const known = new Map(
      keysOf(loadProcedure(sound, 'p', around).procedure as Procedure, calculators).map((k) => [k.key, k]),
    );
    const lines = asNeeds(bare.missing, known);
    expect(lines).toEqual([
      '  - { place: position }',
      '  - { phase: work }',
      '  - { key: bore, at: position, quantity: length }',
      '  - { key: speed, at: job, quantity: speed }',
    ]);
    expect(partOf(part.replace(/needs:[\s\S]*?steps:/, `needs:\n${lines.join('\n')}\nsteps:`)).problems).toEqual([]);
    const { missing } = load(changed('bore, kind: quantity', 'boar, kind: quantity', whole), part);
    expect(asFacts(missing)).toEqual(['  - { key: bore, at: position, label: bore, quantity: length, is: "1.0" }']);
  });

  it.each([
    ['an unknown part', '  - part: fil-up\n', [], 'p.yaml:57:11: There is no part “fil-up”. Did you mean “fill-up”?'],
    [
      'a misspelt line',
      '  - prat: fill-up\n',
      [],
      'p.yaml:57:5: “prat” is not a name that is known here. Did you mean “part”?',
    ],
    [
      'something beside it',
      '  - { part: fill-up, when: "runs" }\n',
      [],
      'p.yaml:57:5: Beside “part: fill-up” stands “when”. A part stands whole: take that out, or write the step here instead of the part.',
    ],
    [
      'the same part twice',
      '  - part: fill-up\n  - part: fill-up\n',
      [],
      'p.yaml:58:5: The part “fill-up” stands here a second time. Keep one of the two lines.',
    ],
  ])('complains of %s', (_, line, _none, said) => {
    expect(says(whole.replace('  - part: fill-up\n', line), part)[0]).toBe(said);
  });

  it('complains of a line where it has nothing to put, and of steps without a line', () => {
    expect(says(`${whole.replace('facts:\n', 'facts:\n  - part: fill-up\n')}`, part)).toEqual([
      'p.yaml:66:5: The part “fill-up” has no facts. Take the line out.',
    ]);
    expect(says(sound.replace(fillStep, '').replace(doseCalc, '  - part: fill-up\n'), part)[0]).toBe(
      'p.yaml:69:5: The part “fill-up” has steps, and no line in “steps” says where they stand. Write “- part: fill-up” where they belong.',
    );
  });

  it.each([
    [
      'not given',
      'bore, kind: quantity',
      'boar, kind: quantity',
      'p.yaml:57:5: The part “fill-up” needs “bore” (length, at position), and nothing here gives it. Did you mean “boar”?',
    ],
    [
      'of another type',
      'key: speed, kind: quantity, quantity: speed, unit: rpm, label: Speed, plausible: [100, 3000], limits: [1, 5000]',
      'key: speed, kind: number, label: Speed, limits: [1, 5000]',
      'p.yaml:57:5: The part “fill-up” needs “speed” as speed, but it is double. Give it under this key as it is needed.',
    ],
  ])('complains at the line of a need that is %s', (_, find, replace, said) => {
    expect(says(changed(find, replace, whole), part)).toContain(said);
    expect(says(changed(find, replace, whole), part).filter((p) => p.startsWith('parts/'))).toEqual([]);
  });

  it('complains at the line of a need at another place, and of a missing phase or kind of place', () => {
    expect(says(whole, changed('key: speed, at: job', 'key: speed, at: position', part))).toContain(
      'p.yaml:57:5: The part “fill-up” needs “speed” at position, but it belongs to job. Give it at that place.',
    );
    const needing = (extra: string, step: string): string =>
      part.replace('needs:\n', `needs:\n  - ${extra}\n`).replace('physical: true', `physical: true\n    ${step}`);
    expect(says(whole, needing('{ step: opened }', 'not_after: [opened]'))).toContain(
      'p.yaml:57:5: The part “fill-up” needs a step “opened”, and there is none. Did you mean “open”?',
    );
    expect(says(whole, needing('{ place: seal }', 'when: "which_seal == \'one\'"'))[0]).toContain('belongs to a seal');
    expect(says(whole, part.replaceAll('work', 'closing'))).toEqual([
      'p.yaml:57:5: The part “fill-up” needs a phase “closing”, and there is none. Add it; there are: look, work.',
    ]);
  });

  it('is checked by itself against its needs', () => {
    expect(partOf(part).problems).toEqual([]);
    expect(alone('  - { key: speed, at: job, quantity: speed }\n', '')).toEqual([
      'parts/fill-up.yaml:20:60: There is no value “speed”. Name it under “needs”.',
    ]);
    expect(alone('  - { phase: work }\n', '')).toEqual([
      'parts/fill-up.yaml:10:12: There is no phase “work”. Name it under “needs”.',
    ]);
    expect(alone('  - { place: position }\n', '')[0]).toContain('There is no kind of place “position”.');
    expect(
      alone('  - { phase: work }\n', '  - { phase: work }\n  - { key: runs, at: position, type: bool }\n'),
    ).toEqual(['parts/fill-up.yaml:7:5: The part needs the value “runs” and never uses it. Take the need out.']);
    expect(alone('  - { phase: work }\n', '  - { phase: work }\n  - { phase: work }\n')).toEqual([
      'parts/fill-up.yaml:7:5: The need of the phase “work” stands here a second time. Keep one of them.',
    ]);
    expect(
      alone('  - { phase: work }\n', '  - { phase: work }\n  - { key: dose, at: position, quantity: volume }\n'),
    ).toEqual(['parts/fill-up.yaml:22:86: The key “dose” stands here a second time. Give it a name of its own.']);
    expect(alone('steps:\n', 'steps:\n  - part: other\n')).toEqual([
      'parts/fill-up.yaml:10:5: A part can’t hold another part. Let the procedure name both.',
    ]);
  });

  const need = (more: string): string[] => alone('  - { phase: work }\n', `  - { phase: work }\n  - { ${more} }\n`);
  const both = (more: string, inStep: string): string[] =>
    partOf(
      changed(
        '    wait:',
        `    ${inStep}\n    wait:`,
        changed('  - { phase: work }\n', `  - { phase: work }\n  - { ${more} }\n`, part),
      ),
    ).problems.map(showProblem);
  const tooMany = (what: string): string[] => [
    `parts/fill-up.yaml:7:5: The part needs ${what} and never uses it. Take the need out.`,
  ];
  it.each<[string, string, string]>([
    ['place: seal', 'the kind of place “seal”', 'when: "which_seal == \'one\'"'],
    ['step: open', 'the step “open”', 'not_after: [open]'],
    ['branch: dropped, at: position', 'the branch “dropped”', 'when: event_dropped'],
    ['key: runs, at: position, type: bool', 'the value “runs”', 'when: runs'],
  ])('needs what it names: %s', (more, what, use) => {
    const [first] = need(more);
    expect(first).toBe(tooMany(what)[0]);
    expect(both(more, use).filter((x) => x.includes('never uses'))).toEqual([]);
  });
  it('needs a kind of place around one that it needs, and where something lies over it', () => {
    const seals = 'place: seal, within: position';
    const gathered =
      'facts:\n  - { key: whole, at: position, label: Whole, over: seal, all: "which_seal == \'one\'" }\ncalcs:\n';
    const text = changed(
      'calcs:\n',
      gathered,
      changed('  - { phase: work }\n', `  - { phase: work }\n  - { ${seals} }\n`, part),
    );
    expect(partOf(text).problems).toEqual([]);
    const job =
      'part: p\nversion: 1.0.0\ntitle: P\nneeds:\n  - { place: position }\n  - { place: seal, within: position }\n  - { phase: work }\nsteps:\n  - { id: lift, phase: work, at: seal, title: T, do: D, why: W }\n';
    expect(partOf(job).problems).toEqual([]);
    expect(partOf(job.replace('at: seal', 'at: job')).problems.map(showProblem)).toEqual([
      'parts/fill-up.yaml:5:5: The part needs the kind of place “position” and never uses it. Take the need out.',
      'parts/fill-up.yaml:6:5: The part needs the kind of place “seal” and never uses it. Take the need out.',
    ]);
  });
  it('tells at a need what is wrong with it', () => {
    expect(need('place: seal, within: positon')[0]).toBe(
      'parts/fill-up.yaml:7:5: There is no kind of place before this one called “positon”. Did you mean “position”? If not, name it under “needs”.',
    );
    expect(both('step: opened, at: bearing', 'not_after: [opened]')).toEqual([
      'parts/fill-up.yaml:7:5: There is no kind of place “bearing”. Name it under “needs”.',
    ]);
    expect(both('branch: lain, at: bearing', 'when: event_lain')[0]).toBe(
      'parts/fill-up.yaml:7:5: There is no kind of place “bearing”. Name it under “needs”.',
    );
    expect(both('key: lid, at: position', 'ask: [ { key: lid, kind: text, label: Lid } ]')).toEqual([
      'parts/fill-up.yaml:7:5: The key “lid” stands here a second time. Give it a name of its own.',
      'parts/fill-up.yaml:7:5: The part needs the value “lid” and never uses it. Take the need out.',
    ]);
    expect(need('place: position')).toContain(
      'parts/fill-up.yaml:7:5: The need of the kind of place “position” stands here a second time. Keep one of them.',
    );
  });
  it('that holds nothing, or can’t be read, is told as that', () => {
    expect(partOf('part: fill-up\nversion: 1.0.0\ntitle: T\n').problems.map(showProblem)).toEqual([
      'parts/fill-up.yaml:1:1: The part “fill-up” is empty. Give it one of: steps, facts, calcs, branches.',
    ]);
    expect(partOf('part: [')).toMatchObject({ id: '', part: undefined, missing: [] });
    expect(partOf('part: 5\nversion: 1.0.0\ntitle: T\n').id).toBe('');
  });
  it('lacks a value at the outermost place from which it reads it, and steps and events that it names', () => {
    const at = (...places: string[]): string =>
      `part: p\nversion: 1.0.0\ntitle: T\nneeds:\n  - { place: position }\n  - { place: seal, within: position }\n  - { phase: work }\nsteps:\n${places
        .map((place, i) => `  - { id: s${i}, phase: work, at: ${place}, title: T, do: D, why: W, when: dry }\n`)
        .join('')}`;
    const lacks = (...places: string[]) => partOf(at(...places)).missing;
    expect(lacks('seal', 'position')).toEqual([{ key: 'dry', at: 'position' }]);
    expect(lacks('position', 'seal')).toEqual([{ key: 'dry', at: 'position' }]);
    expect(lacks('seal', 'job', 'position')).toEqual([{ key: 'dry', at: 'job' }]);
    expect(lacks('seal')).toEqual([{ key: 'dry', at: 'seal' }]);
    const deep = (...places: string[]) =>
      partOf(at(...places).replace('  - { phase: work }', '  - { place: lip, within: seal }\n  - { phase: work }'))
        .missing;
    expect(deep('lip', 'position')).toEqual([{ key: 'dry', at: 'position' }]);
    expect(deep('position', 'lip')).toEqual([{ key: 'dry', at: 'position' }]);
    expect(deep('lip', 'seal')).toEqual([{ key: 'dry', at: 'seal' }]);
    const named = at('seal').replace(
      'when: dry',
      'not_after: [opened], gates: [ { id: g, must: "true", say: S, raise: lain, overrule: never } ]',
    );
    expect(partOf(named).missing).toEqual([{ step: 'opened' }, { branch: 'lain', at: 'job' }]);
  });
  it.each<[string, string, string]>([
    [
      'branch: dropped, at: job',
      'when: event_dropped',
      'the branch “dropped” at job, but it belongs to position. Write “at: job” there.',
    ],
    [
      'branch: droped, at: position',
      'when: event_droped',
      'a branch “droped”, and there is none. Did you mean “dropped”?',
    ],
    [
      'key: bearing_temperature, at: job',
      'show: [bearing_temperature]',
      '“bearing_temperature” (string, at job), and nothing here gives it. Ask it or work it out under this key.',
    ],
    [
      'key: runs, at: position',
      'when: "runs == \'yes\'"',
      '“runs” as string, but it is bool. Give it under this key as it is needed.',
    ],
    [
      'key: speed_of_old, at: job, type: double',
      'show: [speed_of_old]',
      '“speed_of_old” (double, at job), and nothing here gives it. Ask it or work it out under this key.',
    ],
  ])('needs %s, which the procedure has otherwise', (more, use, said) => {
    const text = changed(
      '    wait:',
      `    ${use}\n    wait:`,
      changed('  - { phase: work }\n', `  - { phase: work }\n  - { ${more} }\n`, part),
    );
    expect(says(whole, text).join('\n')).toContain(`The part “fill-up” needs ${said}`);
  });
  it.each<[string, string]>([
    ['shaft', 'a kind of place “shaft”, and there is none. Add it; there are: position, seal.'],
    [
      'seal',
      'the kind of place “seal” within job, but it lies within position. Write the steps here instead of the part.',
    ],
  ])('needs the kind of place %s, which the procedure has otherwise', (kind, said) => {
    const gathered = `facts:\n  - { key: there, at: job, label: T, over: ${kind}, any: "which_${kind} == 'one'" }\ncalcs:\n`;
    const needs = changed('  - { phase: work }\n', `  - { phase: work }\n  - { place: ${kind} }\n`, part);
    expect(says(whole, changed('calcs:\n', gathered, needs))[0]).toBe(`p.yaml:57:5: The part “fill-up” needs ${said}`);
  });
  it.each([
    'when: bore > 5.0',
    'show: [bore]',
    'predict: [bore]',
    'repeat: { until: bore > 5.0, most: 9 }\n    ask: [ { key: lid, kind: yes-no, label: L } ]',
    'draw: { picture: syringe, with: { mark: bore } }',
    'ask: [ { key: lid, kind: yes-no, label: L, when: bore > 5.0 } ]',
    'ask: [ { key: lid, kind: number, label: L, limits: [0, 9], suggest: bore } ]',
    'gates: [ { id: g, must: bore > 5.0, say: S, overrule: never } ]',
    'gates: [ { id: g, when: bore > 5.0, must: event_dropped, say: S, overrule: with-reason } ]',
    'brief: So {bore}.',
    'tell: So {bore}.',
  ])('stands behind what its step reads: %s', (use) => {
    const early = whole.replace('  - part: fill-up\n', '').replace('steps:\n', 'steps:\n  - part: fill-up\n');
    const bare = part
      .replace(doseCalc, '')
      .replace('calcs:\n', '')
      .replace(/ {4}physical[\s\S]*/, `    ${use}\n`)
      .replace('{dose}', 'it');
    const needs = `${use.includes('dropped') ? '  - { branch: dropped, at: position }\n' : ''}  - { key: bore, at: position, quantity: length }\nsteps:\n`;
    const text = bare.replace(/ {2}- \{ key: bore[\s\S]*?steps:\n/, needs);
    expect(says(early.replace('rests_on: [dose]', ''), text)).toContain(
      'p.yaml:20:5: The part “fill-up” needs “bore” in its step “fill”, and it is asked only later, in “measure”. Move the line behind “measure”.',
    );
  });
  it('may read in an event what is asked later', () => {
    const event = '  - { id: after, branch: dropped, phase: work, at: position, title: T, do: "{bore}", why: W }\n';
    const text = part
      .replace(fillStep, event)
      .replace(doseCalc, '')
      .replace('calcs:\n', '')
      .replace('  - { key: speed, at: job, quantity: speed }\n', '  - { branch: dropped, at: position }\n');
    const early = whole.replace('  - part: fill-up\n', '').replace('steps:\n', 'steps:\n  - part: fill-up\n');
    expect(partOf(text).problems.map(showProblem)).toEqual([]);
    expect(says(early, text).filter((x) => x.includes('asked only later'))).toEqual([]);
  });
  it('is not missing a value that is given at another place', () => {
    expect(load(whole, changed('key: speed, at: job', 'key: speed, at: position', part)).missing).toEqual([]);
    expect(load(whole, part.replaceAll('work', 'closing')).missing).toEqual([{ phase: 'closing' }]);
  });
  it('needs places that the procedure has not', () => {
    const places = (ids: string): string =>
      changed('{ place: position }', `{ place: position, instances: [${ids}] }`, part);
    expect(says(whole, places('a, b'))).toEqual([]);
    expect(says(whole, places('a, c, d'))).toEqual([
      'p.yaml:57:5: The part “fill-up” needs the position “c” and “d”, and there is none. There are: a, b.',
    ]);
  });

  it('complains of a step or key that the procedure has too', () => {
    expect(says(changed('id: drop\n', 'id: fill\n', whole), part)).toContain(
      'p.yaml:58:9: The step “fill” stands here a second time. It stands in parts/fill-up.yaml:10 too. Give it a name of its own.',
    );
    expect(says(changed('key: fast', 'key: dose', whole), part).filter((p) => p.startsWith('parts'))).toEqual([
      'parts/fill-up.yaml:21:86: The key “dose” stands here a second time. It stands in p.yaml:66 too. Give it a name of its own. (used by p.yaml:57)',
    ]);
  });

  it('is no procedure', () => {
    expect(says(part)).toEqual(['p.yaml:1:1: This is a part, not a procedure. Put it into the folder “parts”.']);
  });
});

describe('parts of a folder', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'parts-'));
    mkdirSync(join(folder, 'parts'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));
  const write = (name: string, text: string): void => writeFileSync(join(folder, name), text);
  const step = (id: string): string =>
    `  - { id: ${id}, phase: all, at: job, title: Lock, do: Lock it., why: It starts. }\n`;
  const lock = (id = 'lock', steps = step('lock-it')): string =>
    `part: ${id}\nversion: 1.2.0\ntitle: Lock\nneeds: [ { phase: all } ]\nsteps:\n${steps}`;
  const job = (id: string, line: string): string =>
    `procedure: ${id}\nversion: 1.0.0\ntitle: ${id}\nsummary: Short.\nplaces: []\nphases: [ { id: all, title: All } ]\nsteps:\n${line}`;
  const under = { tables: [], procedures: [], parts: [] };
  const problems = (over: Parameters<typeof readFolder>[1] = under): string[] =>
    readFolder(folder, over).problems.map((p) => showProblem(p).replaceAll(`${folder}/`, ''));

  it('serve several procedures, and a mistake is told once with all that use it', () => {
    write('parts/lock.yaml', lock());
    write('one.yaml', job('one', '  - part: lock\n'));
    write('two.yaml', job('two', '  - part: lock\n'));
    expect(problems()).toEqual([]);
    const read = readFolder(folder, under);
    expect(read.procedures.map((p) => p.parts?.[0]?.part)).toEqual(['lock', 'lock']);
    expect(outline(read.procedures[0]?.procedure as Procedure, {}, read.procedures[0]?.parts)).toContain(
      '### 1. Lock (from part lock)',
    );
    write('parts/lock.yaml', lock('lock', step('lock-it').replace(', why: It starts.', '')));
    expect(problems()).toEqual([
      'parts/lock.yaml:6:5: “why” is missing in the step “lock-it”. Add “why:” with text. (used by one.yaml:8 and two.yaml:8)',
    ]);
  });

  it('are complained of when nobody uses them, or two hold one step or one name', () => {
    write('parts/lock.yaml', lock());
    write('one.yaml', job('one', step('other')));
    expect(problems()).toEqual([
      'parts/lock.yaml:1:7: No procedure here uses the part “lock”. Write “- part: lock” in one, or take the file out.',
    ]);
    write('parts/bolt.yaml', lock('bolt'));
    write('one.yaml', job('one', '  - part: lock\n'));
    write('two.yaml', job('two', '  - part: bolt\n'));
    expect(problems()).toEqual([
      'parts/lock.yaml:6:11: The step “lock-it” stands in the part “bolt” too. Give one another name: no procedure could use both.',
    ]);
    write('parts/bolt.yaml', lock('lock', step('bolt-it')));
    write('two.yaml', job('two', step('other')));
    expect(problems()[0]).toContain('The part “lock” stands in parts/bolt.yaml too. Give one another name.');
  });

  it('of a shop may be new, and may not change what is shipped', () => {
    write('parts/lock.yaml', lock());
    write('one.yaml', job('one', '  - part: lock\n'));
    const { problems: none, ...shipped } = readFolder(folder, under);
    expect(none).toEqual([]);
    rmSync(join(folder, 'parts/lock.yaml'));
    // A shipped part serves a shop's procedure as well.
    write('one.yaml', job('ours', '  - part: lock\n'));
    expect(problems(shipped)).toEqual([]);
    write('parts/lock.yaml', lock('lock', step('lock-ours')));
    expect(problems(shipped)).toEqual([
      'parts/lock.yaml:1:7: The part “lock” is a shipped one, used by one. Give it a name of its own.',
    ]);
    write('parts/lock.yaml', lock('lock-ours', step('lock-ours')));
    write('one.yaml', job('ours', '  - part: lock-ours\n'));
    expect(problems(shipped)).toEqual([]);
  });

  it('show in a difference which procedures are touched', () => {
    write('parts/lock.yaml', lock());
    write('one.yaml', job('one', '  - part: lock\n'));
    write('two.yaml', job('two', '  - part: lock\n'));
    const before = readFolder(folder, under).procedures;
    const newer = lock().replace('1.2.0', '1.3.0').replace('Lock it.', 'Lock it twice.');
    write('parts/lock.yaml', newer);
    const after = readFolder(folder, under).procedures;
    const [a, b] = [before[0], after[0]];
    if (!a || !b) throw new Error('none');
    expect(difference(a, b, {}, after).split('\n').slice(0, 6)).toEqual([
      'Procedure',
      '  The version number is still the same.',
      '',
      'Parts',
      '  Part lock 1.2.0 -> 1.3.0, used by 2 procedures.',
      '',
    ]);
    const [p, q] = [lock(), newer].map((t) => loadPart(t, 'lock', { tables: {}, calculators: {} }).part);
    if (!p || !q) throw new Error('none');
    expect(partDifference(p, q, after, {}).split('\n').slice(0, 4)).toEqual([
      'Part lock',
      '  Version: 1.3.0, before 1.2.0.',
      '  Used by: one, two.',
      '',
    ]);
    expect(partDifference(p, p, after, {})).toBe('');
  });
});

describe('text of a shipped procedure', () => {
  const all = { tables: library.tables, calculators: shippedCalculators };
  const run = (length: number) =>
    fc.tuple(fc.nat(length - 1), fc.nat(12)).map(([from, n]) => [from, Math.min(length, from + 1 + n)] as const);

  it.each(content.procedures.map((p) => [p.procedure.procedure, p] as const))(
    'of %s keeps its hash when it is moved into a part',
    (_, { procedure, hash: old }) => {
      const lists = ['steps', 'facts', 'calcs', 'branches'] as const;
      const plain = JSON.parse(JSON.stringify(procedure)) as Record<(typeof lists)[number], unknown[]>;
      fc.assert(
        fc.property(
          run(plain.steps.length),
          run(plain.facts.length),
          run(plain.calcs?.length ?? 1),
          fc.boolean(),
          (steps, facts, calcs, withSteps) => {
            const cut = { ...(withSteps ? { steps } : {}), facts, ...(plain.calcs ? { calcs } : {}) } as Partial<
              Record<(typeof lists)[number], readonly [number, number]>
            >;
            const moved = Object.fromEntries(
              Object.entries(cut).map(([k, [a, b]]) => [k, plain[k as 'steps'].slice(a, b)]),
            );
            const rest = {
              ...plain,
              ...Object.fromEntries(
                Object.entries(cut).map(([k, [a, b]]) => {
                  const list = plain[k as 'steps'];
                  return [k, [...list.slice(0, a), { part: 'moved' }, ...list.slice(b)]];
                }),
              ),
            };
            const text = (needs: readonly Need[]): string =>
              stringify({ part: 'moved', version: '1.0.0', title: 'Moved', needs, ...moved });
            // All that the procedure has, less what the part says that it does not use.
            const own = new Set(
              keysOf({ ...procedure, steps: [], follows: undefined, ...moved } as Procedure, all.calculators).map(
                (k) => k.key,
              ),
            );
            const ids = new Set((moved.steps as { id: string }[] | undefined)?.map((m) => m.id));
            const made = (k: KeyInfo): boolean =>
              k.from.by === 'place' ||
              (k.from.by === 'event' && !k.from.since && (k.from.log === undefined || ids.has(k.from.log)));
            // The branch that reopens a step stays outside.
            const again = (k: KeyInfo): boolean => 'again' in k.from;
            let needs: Need[] = [
              ...procedure.places.map((k) => ({
                place: k.id,
                ...(k.within ? { within: k.within } : {}),
                instances: k.instances.map((i) => i.id),
              })),
              ...procedure.phases.map((f) => ({ phase: f.id })),
              ...procedure.steps.filter((s) => !ids.has(s.id)).map((s) => ({ step: s.id, at: s.at })),
              ...(procedure.branches ?? []).map((b) => ({ branch: b.id, at: b.at })),
              ...keysOf(procedure, all.calculators)
                .filter((k) => again(k) || (!own.has(k.key) && !made(k)))
                .map((k) => ({
                  key: k.key,
                  at: k.at,
                  type: k.type as 'double',
                  ...(k.quantity ? { quantity: k.quantity } : {}),
                })),
            ];
            let file = loadPart(text(needs), 'moved.yaml', all);
            for (let round = 0; round < 4 && file.problems.length; round++) {
              const spare = file.problems.flatMap((p) => /“(.*)” and never uses/.exec(p.message)?.[0] ?? []);
              const name = (n: Need): string => `“${Object.values(n)[0]}” and never uses`;
              const word = (n: Need): string => ('key' in n ? 'value' : Object.keys(n)[0]) as string;
              needs = needs.filter(
                (n) =>
                  !spare.includes(name(n)) || !file.problems.some((p) => p.message.includes(`${word(n)} ${name(n)}`)),
              );
              file = loadPart(text(needs), 'moved.yaml', all);
            }
            expect(file.problems.map(showProblem)).toEqual([]);
            const loaded = loadProcedure(stringify(rest), 'rest.yaml', { ...all, parts: new Map([['moved', file]]) });
            expect(loaded.problems.map(showProblem)).toEqual([]);
            expect(loaded.procedure && contentHash(loaded.procedure, library.tables)).toBe(old);
          },
        ),
        { numRuns: 2, seed: 5 },
      );
    },
  );
});
