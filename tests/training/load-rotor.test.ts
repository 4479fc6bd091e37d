/** Mistakes in a practice rotor's file: each told with its place and its cure. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { State } from '../../src/engine/state/state.js';
import { showProblem } from '../../src/procedure/problem.js';
import { inOrder, loadRotors } from '../../src/training/load-rotor.js';
import { allModels, rotorNamed, rotors } from './library.js';

const quiet = readFileSync(new URL('../../procedures/practice/quiet-one.rotor.yaml', import.meta.url), 'utf8').replace(
  /^next: .*$/m,
  '',
);
const complaints = (text: string): string[] =>
  loadRotors([{ file: 'r.rotor.yaml', text }], allModels).problems.map(showProblem);
/** The line of a word in a text, as complaints name it. */
const lineOf = (text: string, word: string): number => text.slice(0, text.indexOf(word)).split('\n').length;

it('takes the shipped one', () => expect(complaints(quiet)).toEqual([]));

describe('each mistake has its line and its cure', () => {
  const cases: [what: string, from: string, to: string, says: RegExp, at: string][] = [
    ['not said to be invented', 'invented: true', 'invented: false', /“invented” can’t be “false”/, 'invented: false'],
    ['an unknown word', 'teaches:', 'teach:', /“teach” is not a name that is known.*teaches/, 'teach:'],
    [
      'an unknown procedure',
      'regrease-in-place',
      'regrease-in-plaze',
      /no procedure.*regrease-in-place/,
      'regrease-in-plaze',
    ],
    ['an unknown step', 'step: magnets', 'step: magnet-s', /no step “magnet-s”.*magnets/, 'magnet-s'],
    [
      'a place of another kind',
      'step: prove-leads, at: a,',
      'step: prove-leads, at: a.front,',
      /done at a or b/,
      'a.front, shows: { leads',
    ],
    ['an unknown key', 'leads: beep', 'lead: beep', /asks no “lead”.*leads/, 'lead: beep'],
    ['a reading that the guide would refuse', 'leads: beep', 'leads: buzz', /would not take.*buzz/, 'buzz'],
    [
      'a misspelt value in a condition',
      "way_cloth == 'one-place'",
      "way_cloth == 'one-placed'",
      /can never be “one-placed”.*one-place/,
      "way_cloth == 'one-placed'",
    ],
    [
      'a misspelt step after which it is too late',
      'too_late: gap-fill',
      'too_late: gap-fil',
      /no step “gap-fil”.*gap-fill/,
      'too_late: gap-fil',
    ],
    [
      'too late before anybody can have fallen',
      'too_late: gap-fill',
      'too_late: size',
      /“size” comes before “white-cloth”.*Name a step that comes after it/,
      'too_late: size',
    ],
    [
      'a value of another place',
      "fell: cloth == 'white'",
      "fell: seal_way == 'dry'",
      /belongs to a seal/,
      "seal_way == 'dry'",
    ],
    [
      'a wrong type',
      "fell: cloth == 'white' && way_cloth == 'one-place'",
      'fell: balls + 1.0',
      /yes or no|needed here/,
      'balls + 1.0',
    ],
    [
      'a row too short',
      'traps:',
      'logs:\n  - { step: run-in-log, by: log_stage, columns: [temp_a, sound], rows: [[1, 21.8 C]] }\ntraps:',
      /2 values.*need 3/,
      '[1, 21.8 C]',
    ],
    [
      'a simulated log that the procedure has not',
      '    step: run-in-log',
      '    step: run-in-logs',
      /no step “run-in-logs”/,
      'run-in-logs',
    ],
    ['a drawn reading that is not taken', ', limit: 15000', ', limit: fast', /would not take/, '{limit} rpm'],
    ['a drawn name that nothing draws', '{limit} rpm', '{limits} rpm', /Nothing draws “limits”/, '{limits} rpm'],
    [
      'a plan with a way that is not there',
      'cloth: [one-place]',
      'cloth: [one-plaice]',
      /no way “one-plaice”/,
      'one-plaice',
    ],
    ['a plan that answers what nobody asks', 'seal_way: ', 'seal_wax: ', /Nothing asks “seal_wax”/, 'seal_wax: '],
    ['a plan with a gate that is not there', 'cloth-white: {', 'cloth-whit: {', /no gate “cloth-whit”/, '{ raise'],
    ['a plan with a spoilt expression', 'dose_set: dose_due', 'dose_set: dose_dew', /no value “dose_dew”/, 'dose_dew'],
    [
      'a rotor that comes next and is not there',
      'procedure:',
      'next: nowhere\nprocedure:',
      /no rotor “nowhere”/,
      'nowhere',
    ],
    [
      'a rotor like itself',
      'procedure:',
      'like: quiet-one\nprocedure:',
      /comes back to the rotor itself/,
      'quiet-one\nprocedure',
    ],
    [
      'a reading that is never reached',
      '  # safe',
      '  - { step: size, at: a, shows: { bearing_size: "6206" } }\n  # safe',
      /always comes first/,
      '"6206"',
    ],
  ];
  it.each(cases)('%s', (_, from, to, says, at) => {
    const text = quiet.replace(from, to);
    expect(text).not.toBe(quiet);
    const found = complaints(text);
    const hit = found.find((c) => says.test(c));
    expect(hit, found.join('\n')).toBeDefined();
    expect(hit).toMatch(new RegExp(`^r\\.rotor\\.yaml:${lineOf(text, at)}:\\d+: `));
  });

  it('a gate that is not there', () => {
    const text = quiet.replace(
      "fell: cloth == 'white'",
      "fell: cloth == 'grains' || 'cloth-wite' in overruled || cloth == 'white'",
    );
    expect(complaints(text).join()).toMatch(/“overruled” can never be “cloth-wite”.*cloth-white/);
  });
});

describe('rotors that are like another', () => {
  it('take over its readings and put their own before them', () => {
    const rotor = rotorNamed('brown-seal');
    expect(rotor.typed('machine', 'job', 'rotor', 0)).toBe('Practice rotor S');
    expect(rotor.typed('size', 'a', 'bearing_size', 0)).toBe('6205');
  });
  it('can be like one that is shipped', () => {
    const text = [
      'rotor: mine\ntitle: Mine\ninvented: true\nteaches: More.\nstory: Invented.',
      'procedure: regrease-in-place\nlike: quiet-one\nnext: glitter',
      'readings:\n  - { step: machine, shows: { rotor: Own } }',
      "traps:\n  - { id: t, title: T, at: a, caught: way_cloth == 'again', fell: way_cloth == 'one-place', would_have: X., lesson: Y. }",
    ].join('\n');
    const { rotors: loaded, problems } = loadRotors(
      [{ file: 'mine', text }],
      allModels,
      rotors.map((r) => r.file),
    );
    expect(problems).toEqual([]);
    expect(loaded[0]?.readings.length).toBeGreaterThan(20);
  });
  it('stand in the order in which they are to be tried', () => {
    const files = rotors.map((r) => r.file);
    expect(inOrder([...files].reverse()).map((r) => r.rotor)).toEqual(files.map((r) => r.rotor));
  });
});

it('no trap of any rotor is fallen into or seen through before anything was answered', () => {
  const held = rotors.flatMap((rotor) => {
    const first = {
      kind: 'job',
      seq: 1,
      at: '2031-01-01T00:00:00.000Z',
      by: 'AP',
      name: 'x',
      practice: rotor.id,
    } as const;
    const { model } = rotor;
    const job = {
      ...first,
      procedure: model.procedure.procedure,
      version: '1',
      hash: 'x',
      apprentice: 'AP',
      mentor: 'MN',
    };
    const state = new State(model, [job], Date.parse(first.at));
    return rotor.file.traps.flatMap((t) =>
      (['fell', 'caught'] as const).flatMap((how) =>
        rotor.holds(t[how], state, t.at) === true ? [`${rotor.id} ${t.id} ${how}: ${t[how]}`] : [],
      ),
    );
  });
  expect(held).toEqual([]);
});
