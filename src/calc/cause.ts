/**
 * Why the grease failed: the likely causes, best first, with the findings for and against each.
 * Each finding counts 2 strongly for to -2 strongly against (table cause-signs); a cause is likely from 2 on. It is clear where
 * one leads by 2 or more, else one of several; where none is likely the cause is unknown, and that is said.
 * It weighs, it proves nothing: somebody looks for the proof. Source: trade practice (tables causes, cause-signs).
 */
import { isOneOf } from '../guards/guards.js';
import { defineCalculator } from './define.js';
import { commonPractice, oneOf, word } from './spec.js';
import { findRow, numberIn, rowsOfTable, textIn } from './table.js';
import type { Tables } from './types.js';

const causes = ['leak', 'dirt', 'age-heat', 'mixed-grease', 'current', 'overfill', 'wear'] as const;
const findings = [
  'none',
  'coolant',
  'gear-oil',
  'water',
  'milky',
  'rust',
  'soft',
  'one-end',
  'both-ends',
  'nothing-wet',
  'hard-dry',
  'dust',
  'grains',
  'worn-seal',
  'clean-feel',
  'burnt',
  'dark',
  'long-service',
  'ran-hot',
  'as-new',
  'fresh-fill',
  'two-colours',
  'one-colour',
  'regreased-before',
  'fluting',
  'frosted',
  'inverter',
  'steel-balls',
  'ceramic-balls',
  'smooth-raceway',
  'overfull',
  'grease-outside',
  'glitter',
  'raceway-marks',
  'noise',
] as const;

interface Weighed {
  readonly id: string;
  readonly label: string;
  readonly score: number;
  readonly pro: readonly string[];
  readonly contra: readonly string[];
}

function weigh(id: string, found: readonly string[], tables: Tables): Weighed {
  const signs = rowsOfTable(tables, 'cause-signs').filter(
    (r) => r.cause === id && found.includes(textIn(r, 'finding')),
  );
  const row = findRow(tables, 'causes', id);
  return {
    id,
    label: row ? textIn(row, 'label') : id,
    score: signs.reduce((sum, r) => sum + numberIn(r, 'counts'), 0),
    pro: signs.filter((r) => numberIn(r, 'counts') > 0).map((r) => textIn(r, 'why')),
    contra: signs.filter((r) => numberIn(r, 'counts') < 0).map((r) => textIn(r, 'why')),
  };
}

const orNothing = (lines: readonly string[]): readonly string[] => (lines.length > 0 ? lines : ['nothing found']);

export const cause = defineCalculator({
  name: 'cause',
  title: 'Why the grease failed',
  inputs: {
    findings: { type: 'choices', label: 'What was found', choices: findings },
  },
  results: {
    first: oneOf('Likeliest cause', [...causes, 'unknown']),
    label: word('Likeliest cause, in words'),
    certain: oneOf('How sure', ['clear', 'one of several', 'unknown']),
    likely: word('Likely causes, best first', true),
    pro: word('What speaks for each', true),
    contra: word('What speaks against each', true),
    cure: word('What cures the likeliest'),
    prove: word('What proves it'),
    wet: oneOf('Water or coolant was inside', ['yes', 'no']),
  },
  formula: 'sum of what the findings count for each cause',
  source: commonPractice('what speaks for and against a cause'),
  aliases: { granules: 'grains', glittering: 'glitter', dry: 'hard-dry', nothing: 'none', 'as-now': 'as-new' },
  run: (given, tables) => {
    const found = [...new Set(given.words('findings'))].filter((f) => f !== 'none');
    const all = rowsOfTable(tables, 'causes').map((row) => weigh(row.id, found, tables));
    const likely = all.filter((c) => c.score >= 2).sort((a, b) => b.score - a.score);
    const [top, next] = likely;
    const certain = !top ? 'unknown' : !next || top.score - next.score >= 2 ? 'clear' : 'one of several';
    const row = top ? findRow(tables, 'causes', top.id) : undefined;
    const wet = found.some((f) => ['coolant', 'water', 'milky'].includes(f));
    const lines = (of: (c: Weighed) => readonly string[]): string[] =>
      (likely.length > 0 ? likely : all.filter((c) => of(c).length > 0)).flatMap((c) =>
        of(c).length > 0 ? [`${c.label}: ${of(c).join('; ')}`] : [],
      );
    return {
      results: {
        first: { value: isOneOf(causes, top?.id) ? top.id : 'unknown' },
        label: { value: top?.label ?? 'Not known' },
        certain: { value: certain },
        likely: { value: likely.map((c) => c.label) },
        pro: { value: orNothing(lines((c) => c.pro)) },
        contra: { value: orNothing(lines((c) => c.contra)) },
        cure: {
          value: row
            ? textIn(row, 'cure')
            : 'Look further before the seals go on: the cause stays and ruins the new grease too',
        },
        prove: { value: row ? textIn(row, 'prove') : 'Wet, dirt, heat colour or current marks, inside and out' },
        wet: { value: wet ? 'yes' : 'no' },
      },
      warnings: [
        ...(certain === 'one of several'
          ? ['Several causes fit: look for the proof of each before the seals go on.']
          : []),
        ...(certain === 'unknown'
          ? ['No cause fits what was found: say unknown, and look at the machine sooner.']
          : ['This weighs what was found and proves nothing: look for the proof.']),
        ...(wet ? ['Water or coolant was inside: measure the insulation of the winding before power comes on.'] : []),
      ],
      worked: all
        .filter((c) => c.pro.length + c.contra.length > 0)
        .map((c) => `${c.label}: ${c.score} (for ${c.pro.length}, against ${c.contra.length})`),
    };
  },
});
