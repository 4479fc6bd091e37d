/**
 * May this solvent touch this material, wiped or soaked: allowed, brief wipe only, never, test first.
 * From the table solvent-ratings (1 satisfactory to 4 unsuitable, immersion at room temperature), what manuals and trade
 * practice add in solvent-uses, and an estimate from Hansen parameters; the worse counts. A use may always be stricter than
 * the rating; common practice is never milder than a published one. Rubber is wiped briefly at most and never soaked, unless a
 * shop's own row says "tested …". A wipe never turns a 4 into a pass for soaking. What is
 * not listed is "test first": no until tested; nor does a shop's own row permit anything before its source says "tested …".
 * A blend is rated by its worst listed component. Evidence is the row's tag; M rows are usual, verify on a hidden spot.
 */
import { defineCalculator } from './define.js';
import { hansenEstimate } from './hansen.js';
import { choiceInput, commonPractice, figure, oneOf, word } from './spec.js';
import { findRow, numberIn, rowsOfTable, sourceOf, textIn, untested } from './table.js';
import { CalcRefusal, type RowSource, type SourceTag, type TableRow, type Tables } from './types.js';

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
  /** What the solubility parameters say. */
  readonly estimate?: string;
  readonly sources: readonly RowSource[];
}

/** From most to least permissive, so that the worst of several can be taken. */
const order: readonly SolventVerdict[] = ['allowed', 'brief wipe only', 'test first', 'never'];

/** What immersion does, by the rating. */
const effects: Readonly<Record<number, string>> = {
  1: 'it resists it',
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
  const uses = rowsOfTable(tables, 'solvent-uses').filter(
    (r) =>
      (r.material === material || r.material === family) &&
      (r.solvent === solvent || r.solvent === 'any') &&
      r.use === use &&
      // A shop's own test of this very pair is better evidence than a rule for the whole class.
      !(r.kind === 'restricts' && row.tag === 'shop' && !untested(row)),
  );
  const plain = byRating(rating, use);
  const sources = [sourceOf(row), ...uses.map(sourceOf)];
  // A shop's row that nobody tested may forbid, never permit.
  if ([row, ...uses].some(untested) && rank(plain) < rank('never'))
    return {
      verdict: 'test first',
      evidence: 'shop',
      why: `a shop's own row of ${material} in ${solvent}, not tested: no until tested`,
      rating,
      sources,
    };
  const grade = `${effects[rating]} when it lies in it (grade ${rating}, 1 is best and 4 worst)`;
  const byGrade: Judged = { verdict: plain, evidence: row.tag, why: grade, rating, sources: [sourceOf(row)] };
  const byUse = (use: TableRow): Judged => ({
    verdict: textIn(use, 'verdict') as SolventVerdict,
    evidence: use.tag,
    why: `${grade}; ${use.source}`,
    rating,
    sources: [sourceOf(row), sourceOf(use)],
  });
  const strictest = uses.filter((u) => rank(textIn(u, 'verdict')) > rank(plain)).map(byUse);
  // Milder than the rating: a brief wipe, or a 2 that is settled; never a soak in what is rated unsuitable or was published.
  const milder = uses.find((u) => u.kind !== 'restricts' && rank(textIn(u, 'verdict')) < rank(plain));
  const helps = milder && strictest.length === 0 && !(use === 'soak' && (rating >= 3 || row.tag === 'P'));
  const judged = helps ? byUse(milder) : strictest.reduce(worse, byGrade);
  return held(judged, use, hansenEstimate(material, solvent, tables));
}

const ranks: readonly string[] = order;
const rank = (verdict: string): number => ranks.indexOf(verdict);
const worse = <T extends Judged>(a: T, b: T): T => (rank(b.verdict) > rank(a.verdict) ? b : a);

/** The verdict held against the estimate: where they disagree, the worse counts, and it is said. */
function held(judged: Judged, use: Use, estimate: ReturnType<typeof hansenEstimate>): Judged {
  if (!estimate) return { ...judged, estimate: 'no radius known' };
  const said = `${estimate.attacks ? 'attacks' : 'spares'} (distance over radius ${figure(estimate.red, 2)})`;
  const agrees = estimate.attacks === (judged.rating ?? 4) >= 3;
  const with_ = {
    ...judged,
    estimate: agrees ? said : `${said}, against the rating`,
    sources: [...judged.sources, ...estimate.sources],
  };
  if (agrees || !estimate.attacks) return with_;
  const byEstimate = byRating(3, use);
  return rank(byEstimate) > rank(judged.verdict)
    ? {
        ...with_,
        verdict: byEstimate,
        evidence: 'M',
        why: `${judged.why}; but the solubility parameters say that it swells`,
      }
    : with_;
}

export const solvent = defineCalculator({
  name: 'solvent',
  title: 'Solvent against a material',
  inputs: {
    solvent: choiceInput('Solvent', solventChoices, false, 'solvents'),
    material: choiceInput('Material', materialChoices, false, 'materials'),
    use: choiceInput('How', ['wipe', 'soak']),
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
    estimate: word('Estimate by solubility parameters'),
  },
  formula: 'lookup of rating, manuals and trade practice, held against an estimate; worst component of a blend',
  source: commonPractice('what a rating allows when wiping and soaking'),
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
    const worst = judged.reduce(worse);
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
        estimate: { value: worst.estimate ?? 'no radius known' },
      },
      warnings,
      worked: judged.map((one) => `${material} with ${one.part}, ${use}: ${one.why} -> ${one.verdict}`),
      sources: judged.flatMap((one) => one.sources),
    };
  },
});
