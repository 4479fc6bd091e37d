/**
 * Whether a seal's rubber bears the base oil of a grease for years: ok, marginal, no, or no until tested.
 * Lookup in the table seal-oils; a mixture of ester with PAO or mineral oil is judged by the worse of the two.
 * What is not listed, an unknown rubber or an unknown oil is no until tested, nor does a shop's own row permit anything
 * before its source says "tested …". Charts differ by compound: every row is usual, to be verified.
 */
import { isOneOf } from '../guards/guards.js';
import { defineCalculator } from './define.js';
import { choiceInput, commonPractice, oneOf, word } from './spec.js';
import { findRow, sourceOf, textIn, untested } from './table.js';
import type { RowSource, Tables } from './types.js';

export type SealOilVerdict = 'ok' | 'marginal' | 'no until tested' | 'no';
/** From best to worst. */
const order: readonly SealOilVerdict[] = ['ok', 'marginal', 'no until tested', 'no'];

const oils = ['mineral', 'pao', 'ester', 'ester-mixture', 'pfpe', 'silicone', 'unknown'] as const;
const rubbers = ['nbr', 'hnbr', 'fkm', 'acm', 'epdm', 'ptfe', 'steel', 'unknown'] as const;
/** What a mixture may hold. */
const parts: Readonly<Record<string, readonly string[]>> = { 'ester-mixture': ['ester', 'pao', 'mineral'] };

interface Judged {
  readonly verdict: SealOilVerdict;
  readonly why: string;
  readonly sources: readonly RowSource[];
}

function judge(rubber: string, oil: string, tables: Tables): Judged {
  const row = findRow(tables, 'seal-oils', `${rubber}+${oil}`);
  const verdict = row && textIn(row, 'verdict');
  if (!row || !isOneOf(order, verdict))
    return { verdict: 'no until tested', why: `${rubber} in ${oil} oil is not known: no until tested`, sources: [] };
  if (untested(row) && verdict !== 'no')
    return {
      verdict: 'no until tested',
      why: `a shop's own row of ${rubber} in ${oil} oil, not tested: no until tested`,
      sources: [sourceOf(row)],
    };
  const note = textIn(row, 'note');
  return { verdict, why: note === '' ? verdict : note, sources: [sourceOf(row)] };
}

export const sealOil = defineCalculator({
  name: 'seal-oil',
  title: "Seal rubber against the grease's base oil",
  inputs: {
    oil: choiceInput('Base oil of the grease', oils),
    rubber: choiceInput('Rubber of the seal', rubbers, false, 'materials'),
  },
  results: { verdict: oneOf('Rubber in this oil', order), why: word('Why') },
  formula: 'lookup of the pair; the worse part of a mixture',
  source: commonPractice('a pair that is not listed is no until tested'),
  aliases: {
    'mineral-oil': 'mineral',
    polyalphaolefin: 'pao',
    fluorinated: 'pfpe',
    nitrile: 'nbr',
    shield: 'steel',
    metal: 'steel',
  },
  run: (given, tables) => {
    const [oil, rubber] = [given.word('oil'), given.word('rubber')];
    const all = (parts[oil] ?? [oil]).map((part) => judge(rubber, part, tables));
    const worst = all.reduce((a, b) => (order.indexOf(b.verdict) > order.indexOf(a.verdict) ? b : a));
    const warnings: string[] = [];
    if (worst.verdict === 'marginal')
      warnings.push(
        `${worst.why}: usual, verify with a cut of the seal in the oil of the grease, warm, for some days.`,
      );
    if (worst.verdict === 'no until tested')
      warnings.push(
        'Lay a cut of the seal in the oil of the grease, warm, for some days, and measure it before and after.',
      );
    return {
      results: { verdict: { value: worst.verdict }, why: { value: worst.why } },
      warnings,
      worked: [`${rubber} in ${oil} -> ${worst.verdict}: ${worst.why}`],
      sources: worst.sources,
    };
  },
});
