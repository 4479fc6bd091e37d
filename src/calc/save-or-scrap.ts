/**
 * Whether a bearing is worth saving: save, scrap or unclear, with every finding that decided.
 * Damage to rings, balls or cage is scrap at any price. Play, roughness, notches and dryness can be dirt or damage: unclear,
 * and look again after cleaning. Then money: a job at or above the price of a proven pair is to be judged.
 * Amounts in one currency. Source: common practice.
 */
import { defineCalculator } from './define.js';
import { choiceInput, commonPractice, figure, oneOf, quantityInput, result, word } from './spec.js';
import { CalcRefusal } from './types.js';

const scrapFor: Readonly<Record<string, string>> = {
  pitting: 'pits in a raceway only grow',
  fluting: 'fluting is current through the bearing, and needs its cause cured as well',
  dents: 'dents at ball spacing are overrolled at every turn',
  'blue-tint': 'blue or straw tint means that the steel has lost its temper',
  rust: 'rust on a raceway leaves pits',
  'cracked-ring': 'a cracked ring may burst',
  'cracked-cage': 'a cracked cage breaks at speed',
  'chipped-ball': 'a chipped ball cuts the raceways',
};
const judgeFor: Readonly<Record<string, string>> = {
  play: 'play may be wear or the clearance that it was made with: compare with a new one',
  roughness: 'roughness may be dirt: clean, then feel again',
  notchy: 'notches that return at the same places are dents: clean, then look at the raceways',
  dry: 'a dry bearing may have run without a film: clean, then look at the raceways',
  stains:
    'brown marks may be old grease or beginning dents: wipe with solvent, turn it a little, look again; felt is a dent',
  'not-seen': 'the raceways were not seen: look again after cleaning',
};

/** Of a bearing that was washed and looked at inside. */
const cleanedFor: Readonly<Record<string, string>> = {
  roughness: 'rough though it was cleaned: wash once more, then feel again; still rough is damage',
};

export const saveOrScrap = defineCalculator({
  name: 'save-or-scrap',
  title: 'Save or scrap',
  inputs: {
    pairPrice: quantityInput('Price of a proven pair', 'money', '', [0, 1e9]),
    jobCost: quantityInput('Cost of this job', 'money', '', [0, 1e9]),
    findings: {
      type: 'choices',
      label: 'Findings',
      choices: ['none', ...Object.keys(scrapFor), ...Object.keys(judgeFor)],
    },
    cleaned: { type: 'flag', label: 'It was cleaned before', optional: true },
    spare: choiceInput('Where the spare would come from', ['proven', 'doubtful', 'none'], true),
    puller: { type: 'flag', label: 'A puller can act on the inner ring', optional: true },
  },
  results: {
    verdict: oneOf('Verdict', ['save', 'scrap', 'unclear']),
    decided: word('What decided'),
    findings: word('Findings that decided', true),
    costRatio: result('Job against pair', 'ratio', ''),
  },
  formula: 'any damage: scrap; any doubt, or job >= pair: unclear; else save',
  source: commonPractice('what is scrap at any price'),
  aliases: {
    pits: 'pitting',
    spalling: 'pitting',
    brinelling: 'dents',
    discolouration: 'blue-tint',
    discoloration: 'blue-tint',
    blue: 'blue-tint',
    rough: 'roughness',
    ok: 'none',
  },
  run: (given) => {
    const [price, cost] = [given.number('pairPrice').value, given.number('jobCost').value];
    const findings = [...new Set(given.words('findings'))];
    if (findings.includes('none') && findings.length > 1)
      throw new CalcRefusal('findings', '"none" can\'t stand beside another finding: choose one or the other.');
    const scraps = findings.filter((finding) => finding in scrapFor);
    const doubts = findings.filter((finding) => finding in judgeFor);
    const spare = given.maybeWord('spare');
    // Where none can be had, its price weighs nothing.
    const unpriced = price === 0 && spare !== 'none';
    const dear = cost >= price && price > 0 && spare !== 'none';
    const decidedBy = scraps.length > 0 ? scraps : [...doubts, ...(dear ? ['job-cost'] : [])];
    const verdict = scraps.length > 0 ? 'scrap' : decidedBy.length > 0 || unpriced ? 'unclear' : 'save';
    const reasons = decidedBy.map(
      (finding) =>
        scrapFor[finding] ??
        (given.has('cleaned') && given.flag('cleaned') ? cleanedFor[finding] : undefined) ??
        judgeFor[finding] ??
        `the job (${figure(cost)}) costs no less than a proven pair (${figure(price)})`,
    );
    const warnings: string[] = [];
    if (unpriced) warnings.push('Without the price of a pair the money was not weighed: give that price.');
    if (dear && spare === 'doubtful')
      warnings.push('The spare may be a counterfeit: a proven source weighs more than the price.');
    if (verdict === 'scrap' && given.has('puller') && !given.flag('puller'))
      warnings.push(
        'No puller can act on the inner ring: the rotor needs other help, the bearing is scrap all the same.',
      );
    if (verdict === 'scrap' && (spare === 'none' || spare === 'doubtful'))
      warnings.push('No proven spare: find one before the rotor runs again; damage does not heal for want of parts.');
    return {
      results: {
        verdict: { value: verdict },
        decided: {
          value:
            reasons.length > 0
              ? reasons.join('; ')
              : spare === 'none'
                ? 'nothing found, and no other bearing is to be had'
                : unpriced
                  ? 'nothing found, price not known'
                  : 'nothing found, and the job costs less than a pair',
        },
        findings: { value: decidedBy },
        ...(price > 0 ? { costRatio: { value: cost / price } } : {}),
      },
      warnings,
      worked: [`findings ${findings.join(', ')}; job ${figure(cost)} against pair ${figure(price)} -> ${verdict}`],
    };
  },
});
