/**
 * Whether the new grease's thickener bears the old one: C compatible, B borderline, I incompatible, unknown.
 * Symmetric lookup in the table thickener-pairs. A pair that is not listed is not compatible until tested (ASTM D6185),
 * nor is a shop's own row before its source says "tested …".
 * Says nothing of the base oils. Source: the row's own.
 */
import { isOneOf } from '../guards/guards.js';
import { defineCalculator } from './define.js';
import { choiceInput, commonPractice, oneOf, word, yesNoResult } from './spec.js';
import { rowsOfTable, sourceOf, textIn, untested } from './table.js';
import type { RowSource, TableRow, Tables } from './types.js';

export const thickenerChoices = [
  'lithium',
  'lithium-complex',
  'polyurea',
  'calcium-sulfonate',
  'aluminium-complex',
  'sodium',
  'clay',
  'ptfe',
  'unknown',
] as const;

/** Short and other usual names. */
export const thickenerAliases: Readonly<Record<string, string>> = {
  li: 'lithium',
  'lithium-soap': 'lithium',
  lix: 'lithium-complex',
  pu: 'polyurea',
  diurea: 'polyurea',
  alx: 'aluminium-complex',
  'aluminum-complex': 'aluminium-complex',
  na: 'sodium',
  'sodium-soap': 'sodium',
  bentonite: 'clay',
  bentone: 'clay',
  'calcium-sulphonate': 'calcium-sulfonate',
  'calcium-sulfonate-complex': 'calcium-sulfonate',
  cas: 'calcium-sulfonate',
  pfpe: 'ptfe',
  'ptfe/pfpe': 'ptfe',
};

type ThickenerVerdict = 'C' | 'B' | 'I' | 'unknown';

export interface PairFound {
  readonly verdict: ThickenerVerdict;
  /** Charts disagree on this pair. */
  readonly disputed: boolean;
  readonly row?: TableRow;
}

/** The pair's row in either order. */
export function pairOf(old: string, fresh: string, tables: Tables): PairFound {
  const row = rowsOfTable(tables, 'thickener-pairs').find(
    (r) => (r.old === old && r.new === fresh) || (r.old === fresh && r.new === old),
  );
  const verdict = row ? textIn(row, 'verdict') : '';
  if (!row || !isOneOf(['C', 'B', 'I'], verdict)) return { verdict: 'unknown', disputed: false };
  // A shop's row that nobody tested may forbid, never permit.
  if (untested(row) && verdict !== 'I') return { verdict: 'unknown', disputed: false, row };
  return { verdict, disputed: /disagree/i.test(textIn(row, 'note')), row };
}

const allOut = 'remove all the old grease, to a white cloth, before the new goes in';
const cleaningFor: Readonly<Record<ThickenerVerdict, string>> = {
  C: 'clean as usual; a trace left behind is tolerable where the base oils mix too',
  B: allOut,
  I: `${allOut}; where some must stay, as behind a seal left in, choose a grease of the old thickener instead`,
  unknown: `not compatible until tested (ASTM D6185): ${allOut}`,
};

export const thickener = defineCalculator({
  name: 'thickener',
  title: 'Old thickener with the new',
  inputs: {
    old: choiceInput('Thickener of the old grease', thickenerChoices, false, 'thickeners'),
    new: choiceInput('Thickener of the new grease', thickenerChoices, false, 'thickeners'),
  },
  results: {
    verdict: oneOf('Compatible', ['C', 'B', 'I', 'unknown']),
    cleaning: word('What it demands'),
    disputed: yesNoResult('Charts disagree'),
    evidence: word('Evidence'),
  },
  formula: 'lookup of the pair, either way round',
  source: commonPractice('mixing test: ASTM D6185; a pair that is not listed counts as not compatible'),
  aliases: thickenerAliases,
  run: (given, tables) => {
    const [old, fresh] = [given.word('old'), given.word('new')];
    const found = pairOf(old, fresh, tables);
    const warnings: string[] = [];
    const note = found.row ? textIn(found.row, 'note') : '';
    if (note !== '') warnings.push(`${note}.`);
    if (found.verdict === 'C')
      warnings.push(
        'Thickeners are half of it: the base oils must mix as well, mineral or PAO with PFPE or silicone never.',
      );
    const cleaning = found.disputed ? allOut : cleaningFor[found.verdict];
    const sources: RowSource[] = found.row ? [sourceOf(found.row)] : [];
    return {
      results: {
        verdict: { value: found.verdict },
        cleaning: { value: cleaning },
        disputed: { value: found.disputed },
        evidence: { value: found.row?.tag ?? 'none' },
      },
      warnings,
      worked: [
        `${old} with ${fresh}: ${found.row ? (found.verdict === 'unknown' ? "a shop's own row, not tested, so not compatible until tested" : found.verdict) : 'not in the table, so not compatible until tested'}`,
      ],
      sources,
    };
  },
});
