/**
 * May this solvent touch this material, wiped or soaked: allowed, brief wipe only, never, test first.
 * From the table solvent-ratings (1 satisfactory to 4 unsuitable, immersion at room temperature) and trade practice in
 * solvent-uses. A wipe never turns a 4 into a pass for soaking. What is not listed is "test first": no until tested; nor does a
 * shop's own row permit anything before its source says "tested …".
 * A blend is rated by its worst listed component. Evidence is the row's tag; M rows are usual, verify on a hidden spot.
 */
import { defineCalculator } from './define.js';
import { choice, oneOf, practice, word } from './spec.js';
import { findRow, numberIn, rowsOf, sourceOf, textIn, untested } from './table.js';
import { CalcRefusal, type Source, type SourceTag, type Tables } from './types.js';

const solventChoices = ['acetone', 'isopropanol', 'n-heptane', 'white-spirit', 'blend', 'unknown'] as const;
const materialChoices = [
  'nbr',
  'hnbr',
  'fkm',
  'acm',
  'epdm',
  'ptfe',
  'pa66',
  'pa46',
  'peek',
  'phenolic',
  'brass',
  'steel',
  'silicon-nitride',
  'epoxy',
  'winding-varnish',
  'unknown',
] as const;

export type SolventVerdict = 'allowed' | 'brief wipe only' | 'test first' | 'never';
type Use = 'wipe' | 'soak';

interface Judged {
  readonly verdict: SolventVerdict;
  readonly evidence: SourceTag | 'none';
  readonly why: string;
  readonly rating?: number;
  readonly sources: readonly Source[];
}

/** From most to least permissive, so that the worst of several can be taken. */
const order: readonly SolventVerdict[] = ['allowed', 'brief wipe only', 'test first', 'never'];

/** What immersion does, by the rating. */
const effects: Readonly<Record<number, string>> = {
  1: 'it bears it',
  2: 'it suffers a little',
  3: 'it swells or softens',
  4: 'it swells, softens or dissolves',
};

function byRating(rating: number, use: Use): SolventVerdict {
  if (rating <= 1) return 'allowed';
  if (rating === 2) return use === 'wipe' ? 'allowed' : 'test first';
  if (rating === 3) return use === 'wipe' ? 'brief wipe only' : 'never';
  return 'never';
}

function judgeOne(solvent: string, material: string, use: Use, tables: Tables): Judged {
  const row = findRow(tables, 'solvent-ratings', `${material}+${solvent}`);
  if (!row)
    return {
      verdict: 'test first',
      evidence: 'none',
      why: `no rating of ${material} in ${solvent}: no until tested`,
      sources: [],
    };
  const rating = numberIn(row, 'rating');
  const family = textIn(findRow(tables, 'materials', material) ?? row, 'family');
  const practiced = rowsOf(tables, 'solvent-uses').find(
    (r) => (r.material === material || r.material === family) && r.solvent === solvent && r.use === use,
  );
  const plain = byRating(rating, use);
  // A shop's row that nobody tested may forbid, never permit.
  if ((untested(row) || (practiced && untested(practiced))) && order.indexOf(plain) < order.indexOf('never'))
    return {
      verdict: 'test first',
      evidence: 'shop',
      why: `a shop's own row of ${material} in ${solvent}, not tested: no until tested`,
      rating,
      sources: [sourceOf(row), ...(practiced ? [sourceOf(practiced)] : [])],
    };
  // Practice may allow a brief wipe or settle a 2, but never a soak in what is rated unsuitable; nor may it forbid
  // what a rating of 1 allows.
  const helps = practiced && rating >= 2 && !(use === 'soak' && rating >= 3) && order.indexOf(plain) > 0;
  if (helps)
    return {
      verdict: textIn(practiced, 'verdict') as SolventVerdict,
      evidence: practiced.tag,
      why: `${effects[rating]} when it lies in it (grade ${rating}, 1 is best and 4 worst); ${practiced.source}`,
      rating,
      sources: [sourceOf(row), sourceOf(practiced)],
    };
  return {
    verdict: plain,
    evidence: row.tag,
    why: `${effects[rating]} when it lies in it (grade ${rating}, 1 is best and 4 worst)`,
    rating,
    sources: [sourceOf(row)],
  };
}

export const solvent = defineCalculator({
  name: 'solvent',
  title: 'Solvent against a material',
  inputs: {
    solvent: choice('Solvent', solventChoices, false, 'solvents'),
    material: choice('Material', materialChoices, false, 'materials'),
    use: choice('How', ['wipe', 'soak']),
    components: {
      type: 'choices',
      label: 'Components of the blend',
      choices: solventChoices.slice(0, 4).concat('unknown'),
      table: 'solvents',
      optional: true,
    },
  },
  results: {
    verdict: oneOf('Verdict', order),
    evidence: word('Evidence (P published, M usual, CP practice)'),
    why: word('Why'),
    rating: word('Rating, 1 satisfactory to 4 unsuitable'),
  },
  formula: 'lookup of rating and trade practice; worst component of a blend',
  source: practice('what a rating allows when wiping and soaking'),
  aliases: {
    ipa: 'isopropanol',
    'isopropyl-alcohol': 'isopropanol',
    '2-propanol': 'isopropanol',
    heptane: 'n-heptane',
    'mineral-spirits': 'white-spirit',
    'brake-cleaner': 'blend',
    nitrile: 'nbr',
    nylon: 'pa66',
    ceramic: 'silicon-nitride',
    varnish: 'winding-varnish',
  },
  run: (given, tables) => {
    const [material, use] = [given.word('material'), given.word('use') as Use];
    const named = given.word('solvent');
    const components = given.words('components');
    if (components.length > 0 && named !== 'blend')
      throw new CalcRefusal(
        'components',
        'Components belong to a blend: choose blend as the solvent, or leave the components out.',
      );
    const parts = named === 'blend' ? (components.length > 0 ? components : ['unknown']) : [named];
    const judged = parts.map((part) => ({ part, ...judgeOne(part, material, use, tables) }));
    const worst = judged.reduce((a, b) => (order.indexOf(b.verdict) > order.indexOf(a.verdict) ? b : a));
    const warnings: string[] = [];
    if (worst.evidence === 'M')
      warnings.push('This rating is usual, not published here: verify on a hidden spot first.');
    if (worst.verdict === 'test first')
      warnings.push(
        'Not until tested: a drop on a hidden spot, ten minutes, then look for swelling, softening or dulling.',
      );
    if (worst.verdict === 'brief wipe only')
      warnings.push('A damp cloth, a few seconds, then dry: never pour, drip or soak.');
    if (named === 'blend' && components.length === 0)
      warnings.push('The components of the blend are not known: read its safety data sheet and name them.');
    return {
      results: {
        verdict: { value: worst.verdict },
        evidence: { value: worst.evidence },
        why: { value: worst.why },
        rating: { value: worst.rating === undefined ? 'none' : String(worst.rating) },
      },
      warnings,
      worked: judged.map((one) => `${material} with ${one.part}, ${use}: ${one.why} -> ${one.verdict}`),
      sources: judged.flatMap((one) => one.sources),
    };
  },
});
