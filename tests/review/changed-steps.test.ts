/** Two versions of a procedure: what changed, in the trade's words. */
import { describe, expect, it } from 'vitest';
import { loadProcedure } from '../../src/procedure/load.js';
import type { Procedure } from '../../src/procedure/schema.js';
import { changedSteps } from '../../src/review/changed-steps.js';
import { difference } from '../../src/review/difference.js';
import { calculators, changed, sound, tables } from '../procedure/sound.js';

const load = (text: string): Procedure => {
  const { procedure, problems } = loadProcedure(text, 'p', { tables, calculators });
  if (!procedure) throw new Error(JSON.stringify(problems));
  return procedure;
};
const old = load(sound);
const what = (find: string, replace: string, step: string): readonly string[] | undefined =>
  changedSteps(old, load(changed(find, replace)), calculators).changed.find((c) => c.id === step)?.what;

describe('changed steps', () => {
  it('finds nothing between equal ones', () => {
    expect(changedSteps(old, load(sound), calculators)).toEqual({ added: [], removed: [], changed: [] });
    expect(difference({ procedure: old }, { procedure: old }, calculators)).toBe('');
  });

  it.each([
    [
      'limits',
      'limits: [3, 300]',
      'limits: [3, 200]',
      'measure',
      'Limits of “Bore”: 3 mm to 200 mm, before 3 mm to 300 mm.',
    ],
    [
      'usual range',
      'plausible: [100, 3000]',
      'plausible: [100, 2000]',
      'start',
      'Usual range of “Speed”: 100 rpm to 2000 rpm, before 100 rpm to 3000 rpm.',
    ],
    [
      'wording',
      'do: Lift the seal.',
      'do: Push the seal out.',
      'open',
      'What to do: “Push the seal out.”, before “Lift the seal.”.',
    ],
    [
      'gate',
      'must: bore > 10.0',
      'must: bore > 12.0',
      'measure',
      'Gate “wide-enough”: Does not count as done until: Bore is more than 12 mm, before: Does not count as done until: Bore is more than 10 mm.',
    ],
    [
      'overrule',
      'overrule: never',
      'overrule: with-reason',
      'measure',
      'Gate “wide-enough” can now be overruled with a reason.',
    ],
    ['caution', '- The spring flies.', '- The spring flies far.', 'open', 'Caution, new: The spring flies far.'],
    [
      'condition of a caution',
      '- The spring flies.',
      '- { say: The spring flies., when: "grease == \'good\'" }',
      'open',
      'Caution, new: The spring flies. Only if Grease is “Good”.',
    ],
    [
      'condition',
      'when: "grease == \'good\' || event_dropped"',
      'when: "grease == \'good\'"',
      'measure',
      'Condition: “Grease is “Good””, before “Grease is “Good” or “Dropped””.',
    ],
    [
      'wait',
      'minutes: "10.0"',
      'minutes: "20.0"',
      'fill',
      'Waiting time: “20 min, settling”, before “10 min, settling”.',
    ],
    [
      'choice',
      '{ value: torn, label: Torn }',
      '{ value: torn, label: Torn }, { value: gone, label: Gone }',
      'open',
      'Answers of “State”: Whole / Torn / Gone, before Whole / Torn.',
    ],
    [
      'new question',
      '      - { key: runs,',
      '      - { key: note, kind: text, label: Note }\n      - { key: runs,',
      'measure',
      'Question, new: Note (text).',
    ],
    ['hazard', 'hazard: true', 'hazard: false', 'open', 'It is no longer marked as hazardous.'],
    [
      'value while unanswered',
      'otherwise: true }',
      'otherwise: false }',
      'measure',
      'Value while unanswered of “It runs”: no, before yes.',
    ],
    [
      'calculation behind a figure',
      'with: { bore: bore,',
      'with: { bore: bore + 1.0,',
      'fill',
      'Worked out differently: Dose.',
    ],
  ])('%s', (_, find, replace, step, sentence) => {
    expect(what(find, replace, step)).toContain(sentence);
  });

  it('tells steps that came, went and moved', () => {
    const text = sound.replace('id: drop\n', 'id: picked-up\n');
    expect(changedSteps(old, load(text), calculators)).toMatchObject({ added: ['picked-up'], removed: ['drop'] });
    const parts = sound.split(/(?=^ {2}- id: (?:open|fill)$)|(?=^ {2}- id: drop$)/m);
    const [head = '', open = '', fill = '', rest = ''] = parts.slice(-4);
    const moved = load(parts.slice(0, -4).join('') + head + fill + open + rest);
    const all = changedSteps(old, moved, calculators);
    expect(all.added).toEqual([]);
    expect(all.changed).toHaveLength(1);
    expect(all.changed[0]?.what[0]).toMatch(/^It comes now after “(Fill|Measure)”\.$/);
  });

  it('lays two versions side by side', () => {
    let text = changed('must: bore > 10.0', 'must: bore > 12.0');
    text = changed('is: "speed > 1000.0"', 'is: "speed > 900.0"', text);
    expect(difference({ procedure: old }, { procedure: load(text) }, calculators).split('\n')).toEqual([
      'Procedure',
      '  The version number is still the same.',
      '',
      'Step “Measure” (measure)',
      '  Gate “wide-enough”: Does not count as done until: Bore is more than 12 mm, before: Does not count as done until: Bore is more than 10 mm.',
      '',
      'Figures',
      '  Worked out differently: Fast, Verdict.',
    ]);
  });
});
