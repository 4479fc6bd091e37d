/**
 * Whether a grease suits this bearing: ok, marginal or no for each criterion, and overall the worst of them.
 * - Speed: n dm against the limit printed on the data sheet; ok to 80 %, no above 100 %.
 * - Viscosity: kappa 1 to 4 ok, below 0.4 no, else marginal.
 * - Temperature: inside the printed window ok with 20 K left at the hot and 10 K at the cold end, outside no.
 * - Consistency: NLGI 2 and 3 ok, 1 marginal, others no.
 * - Thickener and base oil against the old ones: not cleaned is ok only for the very same product, marginal where thickeners
 *   are called compatible and both oils mix or one is unknown, no where they don't; borderline, unknown and unlike oils only
 *   after all the old grease is out. Mineral, PAO and ester oils mix; silicone and fluorinated (PFPE) oils mix with nothing else.
 * What is not known is marginal at best, and says so. n dm in mm/min, temperatures degC, viscosities mm2/s.
 */
import { type CheckedInputs, defineCalculator } from './define.js';
import { nlgiOf } from './grades.js';
import { requiredViscosity } from './required-viscosity.js';
import {
  choiceInput,
  commonPractice,
  figure,
  flag,
  length,
  ndm,
  oneOf,
  quantityInput,
  result,
  speed,
  word,
} from './spec.js';
import { pairOf, thickenerAliases, thickenerChoices } from './thickener.js';
import { CalcRefusal, type Measured, type Tables } from './types.js';
import { type Propagated, propagate } from './uncertainty.js';
import { runningViscosity, viscosityInputs } from './viscosity.js';
import { ratioOf } from './viscosity-ratio.js';

type Verdict = 'ok' | 'marginal' | 'no';
const order: readonly Verdict[] = ['ok', 'marginal', 'no'];
interface Judged {
  readonly verdict: Verdict;
  readonly why: string;
}
const judged = (verdict: Verdict, why: string): Judged => ({ verdict, why });
const unknown = (what: string): Judged => judged('marginal', `${what} is not known: not proven`);

const baseOils = ['mineral', 'pao', 'ester', 'ester-mixture', 'pfpe', 'silicone', 'unknown'] as const;
const hydrocarbons: readonly string[] = ['mineral', 'pao', 'ester', 'ester-mixture'];

/** Whether two base oils mix: `yes`, `no`, or `unknown` where one is not known. */
function oilsMix(old: string | undefined, fresh: string | undefined): 'yes' | 'no' | 'unknown' {
  if (!old || !fresh || old === 'unknown' || fresh === 'unknown') return 'unknown';
  return old === fresh || (hydrocarbons.includes(old) && hydrocarbons.includes(fresh)) ? 'yes' : 'no';
}

const temperature = (label: string) => quantityInput(label, 'temperature', 'degC', [-100, 400], true);

export const greaseCheck = defineCalculator({
  name: 'grease-check',
  title: 'Grease against bearing',
  inputs: {
    ndmLimit: quantityInput('Speed factor that the data sheet allows', 'speed-factor', 'mm/min', [1, 1e7]),
    limitIs: choiceInput('What that limit is', ['ndm', 'nd'], true),
    ndm: ndm(),
    nd: quantityInput('Speed factor n d', 'speed-factor', 'mm/min', [1, 1e7], true),
    nu40: { ...viscosityInputs.nu40!, optional: true },
    nu100: { ...viscosityInputs.nu100!, optional: true },
    temp: quantityInput('Running temperature', 'temperature', 'degC', [-40, 200]),
    speed: speed('Top speed', [2, 100_000], true),
    pitch: length('Pitch diameter', [5, 2000], true),
    lowest: temperature('Lowest temperature of the data sheet'),
    highest: temperature('Highest temperature of the data sheet'),
    ambient: temperature('Coldest start'),
    nlgi: choiceInput('NLGI grade', ['000', '00', '0', '1', '2', '3', '4', '5', '6'], true),
    penetration: quantityInput('Worked penetration', 'ratio', '', [50, 500], true),
    old: choiceInput('Thickener of the old grease', thickenerChoices, true),
    new: choiceInput('Thickener of the new grease', thickenerChoices, true),
    oldOil: choiceInput('Base oil of the old grease', baseOils, true),
    newOil: choiceInput('Base oil of the new grease', baseOils, true),
    sameProduct: flag('The new grease is the very product that was in'),
    cleaned: flag('All the old grease is out'),
  },
  results: {
    overall: oneOf('Overall', order),
    speedVerdict: oneOf('Speed', order),
    viscosityVerdict: oneOf('Viscosity', order),
    temperatureVerdict: oneOf('Temperature', order),
    consistencyVerdict: oneOf('Consistency', order),
    thickenerVerdict: oneOf('Thickener', order),
    why: word('Why', true),
    kappa: result('Viscosity ratio kappa', 'ratio', ''),
    speedUse: result('Speed against the limit', 'share', '%'),
  },
  formula: 'worst of speed, viscosity, temperature, consistency, thickener',
  source: commonPractice('margins of speed, temperature and consistency; kappa usual, verify'),
  aliases: { ...thickenerAliases, 'n-dm': 'ndm', 'n-d': 'nd' },
  run: (given, tables) => {
    checkFactors(given);
    const speedUse = speedUseOf(given);
    const film = filmOf(given);
    const parts = {
      speed: judgeSpeed(speedUse),
      viscosity: film.judged,
      temperature: judgeTemperature(given),
      consistency: judgeConsistency(given, tables),
      thickener: judgeThickener(given, tables),
    };
    const overall = Object.values(parts).reduce<Verdict>(
      (worst, part) => (order.indexOf(part.verdict) > order.indexOf(worst) ? part.verdict : worst),
      'ok',
    );
    const lines = Object.entries(parts).map(([name, part]) => `${name} ${part.verdict}: ${part.why}`);
    const warnings: string[] = [...film.warnings];
    if (!given.has('limitIs'))
      warnings.push('Some data sheets print n d instead of n dm: read which it is, and say so if it is n d.');
    return {
      results: {
        overall: { value: overall },
        speedVerdict: { value: parts.speed.verdict },
        viscosityVerdict: { value: parts.viscosity.verdict },
        temperatureVerdict: { value: parts.temperature.verdict },
        consistencyVerdict: { value: parts.consistency.verdict },
        thickenerVerdict: { value: parts.thickener.verdict },
        why: { value: lines },
        ...(film.kappa ? { kappa: film.kappa } : {}),
        speedUse,
      },
      warnings,
      worked: lines,
    };
  },
});

/** n dm and n d must be those of the speed and pitch diameter that stand beside them, within a twentieth. */
function checkFactors(given: CheckedInputs): void {
  const [n, pitch, ndm, nd] = ['speed', 'pitch', 'ndm', 'nd'].map((key) => given.maybe(key)?.value);
  if (n !== undefined && pitch !== undefined && ndm !== undefined && Math.abs(ndm / (n * pitch) - 1) > 0.05)
    throw new CalcRefusal(
      'ndm',
      `${figure(n)} rpm and a pitch diameter of ${figure(pitch)} mm make n dm ${figure(n * pitch)} mm/min, not ${figure(ndm)}: check all three.`,
    );
  if (nd !== undefined && ndm !== undefined && nd >= ndm)
    throw new CalcRefusal(
      'nd',
      `n d (${figure(nd)} mm/min) is always below n dm (${figure(ndm)}), since the bore is smaller than the pitch diameter: check which is which.`,
    );
}

function speedUseOf(given: CheckedInputs): Propagated {
  const limit = given.number('ndmLimit');
  if (given.maybeWord('limitIs') !== 'nd')
    return propagate({ ndm: given.number('ndm'), ndmLimit: limit }, (x) => (x.ndm / x.ndmLimit) * 100);
  if (!given.has('nd'))
    throw new CalcRefusal('nd', 'A limit of n d is held against n d only: give n d, which is speed times bore.');
  return propagate({ nd: given.number('nd'), ndmLimit: limit }, (x) => (x.nd / x.ndmLimit) * 100);
}

function judgeSpeed(use: Propagated): Judged {
  const most = use.value + (use.plusMinus ?? 0);
  const text = `${figure(use.value, 3)} % of the limit`;
  if (use.value > 100) return judged('no', `${text}: too fast for this grease`);
  return most > 80 ? judged('marginal', `${text}: little or no margin`) : judged('ok', text);
}

function filmOf(given: CheckedInputs): { judged: Judged; kappa?: Propagated; warnings: string[] } {
  if (!given.has('nu40') || !given.has('nu100')) return { judged: unknown('the base oil viscosity'), warnings: [] };
  if (!given.has('speed') || !given.has('pitch'))
    return { judged: unknown('top speed or pitch diameter'), warnings: [] };
  const oil = runningViscosity(given);
  const need = requiredViscosity(given.number('speed'), given.number('pitch'));
  const { kappa, verdict, warnings } = ratioOf(oil.nu, need.nu1);
  const text = `kappa ${figure(kappa.value, 3)}`;
  const all = [...oil.warnings, ...need.warnings, ...warnings];
  if (verdict === 'too thin') return { judged: judged('no', `${text}: no film to speak of`), kappa, warnings: all };
  if (verdict === 'thin') return { judged: judged('marginal', `${text}: thin`), kappa, warnings: all };
  if (verdict === 'thick')
    return { judged: judged('marginal', `${text}: thicker than needed, runs hotter`), kappa, warnings: all };
  return { judged: judged('ok', text), kappa, warnings: all };
}

function judgeTemperature(given: CheckedInputs): Judged {
  const [lowest, highest] = [given.maybe('lowest'), given.maybe('highest')];
  if (!lowest || !highest) return unknown('the temperature range');
  if (lowest.value >= highest.value)
    throw new CalcRefusal(
      'highest',
      'The highest temperature of the data sheet must lie above the lowest: check which is which.',
    );
  const temp = given.number('temp');
  const hot = temp.value + (temp.plusMinus ?? 0);
  const cold: Measured = given.maybe('ambient') ?? temp;
  const text = `${figure(temp.value)} °C in ${figure(lowest.value)} to ${figure(highest.value)} °C`;
  if (temp.value > highest.value || Math.min(cold.value, temp.value) < lowest.value)
    return judged('no', `${text}: outside the window${cold.value < lowest.value ? ' at the coldest start' : ''}`);
  if (hot > highest.value - 20) return judged('marginal', `${text}: less than 20 K left at the hot end`);
  if (Math.min(cold.value, temp.value) < lowest.value + 10)
    return judged('marginal', `${text}: less than 10 K left at the cold end`);
  return judged('ok', text);
}

function judgeConsistency(given: CheckedInputs, tables: Tables): Judged {
  const penetration = given.maybe('penetration');
  const measured = penetration ? nlgiOf(tables, penetration.value) : undefined;
  if (penetration && !measured)
    return judged('marginal', `penetration ${figure(penetration.value)} lies between two grades and is none`);
  const grade = given.maybeWord('nlgi') ?? measured;
  if (grade === undefined) return unknown('the consistency');
  if (measured && grade !== measured)
    throw new CalcRefusal(
      'penetration',
      `A penetration of ${figure(penetration?.value ?? 0)} is NLGI ${measured}, not ${grade}: check the data sheet.`,
    );
  if (grade === '2' || grade === '3') return judged('ok', `NLGI ${grade}`);
  if (grade === '1') return judged('marginal', 'NLGI 1 is soft: it may creep out at speed');
  return judged(
    'no',
    grade.startsWith('0')
      ? `NLGI ${grade} runs out of a sealed bearing`
      : `NLGI ${grade} is too stiff to reach the raceways`,
  );
}

function judgeThickener(given: CheckedInputs, tables: Tables): Judged {
  const [old, fresh] = [given.maybeWord('old'), given.maybeWord('new')];
  const [oldOil, newOil] = [given.maybeWord('oldOil'), given.maybeWord('newOil')];
  const cleaned = given.flag('cleaned');
  const pair = old && fresh ? pairOf(old, fresh, tables) : undefined;
  const mix = oilsMix(oldOil, newOil);
  if (given.flag('sameProduct')) {
    if ((old && fresh && old !== fresh && old !== 'unknown' && fresh !== 'unknown') || mix === 'no')
      throw new CalcRefusal(
        'sameProduct',
        'It can be no one product with two thickeners or two base oils: check what was in and what goes in.',
      );
    return judged('ok', 'the very product that was in');
  }
  if (pair?.verdict === 'C' && !pair.disputed) {
    const named = `${old} with ${fresh}: called compatible`;
    const oils =
      mix === 'yes'
        ? `${oldOil} and ${newOil} oil mix`
        : mix === 'no'
          ? `${oldOil} and ${newOil} oil do not mix`
          : `the base oil of the ${!newOil || newOil === 'unknown' ? 'new' : 'old'} grease is not known`;
    if (cleaned)
      return mix === 'no'
        ? judged(
            'marginal',
            `${named}, but ${oils}; all the old grease is out, but a trace behind a seal still matters`,
          )
        : judged('ok', `${named}, and all the old grease is out`);
    return mix === 'no'
      ? judged('no', `${named}, but ${oils}; all the old grease must come out first`)
      : judged(
          'marginal',
          `${named}, ${oils}; greases of one thickener differ, so the old one must come out, or be the same product`,
        );
  }
  const what =
    pair === undefined || pair.verdict === 'unknown'
      ? 'compatibility not known, so no until tested'
      : pair.disputed
        ? 'charts disagree'
        : pair.verdict === 'B'
          ? 'borderline'
          : 'incompatible';
  const named = old && fresh ? `${old} with ${fresh}: ${what}` : what;
  if (!cleaned) return judged('no', `${named}; all the old grease must come out first`);
  return pair && (pair.verdict === 'B' || pair.disputed) && mix !== 'no'
    ? judged('ok', `${named}, and all the old grease is out`)
    : judged('marginal', `${named}; all the old grease is out, but a trace behind a seal still matters`);
}
