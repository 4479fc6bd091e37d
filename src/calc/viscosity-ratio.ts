/**
 * Viscosity ratio kappa = nu / nu1, no unit. Below 1 the surfaces touch, above 4 more viscosity only heats.
 * The life curves cover 0.1 to 4. Uncertainty: both viscosities, taken as independent. A thermometer reads the outer ring; the
 * inner raceway is 5 to 10 K hotter (usual), so kappa is given there too, at 10 K more.
 * Sources: ASTM D341 and ISO 281:2007 clause 9.3, from memory.
 */
import { type CheckedInputs, defineCalculator } from './define.js';
import { requiredInputs, requiredViscosity } from './required-viscosity.js';
import { figure, oneOf, result, usual, word } from './spec.js';
import { CalcRefusal, type Measured } from './types.js';
import { propagate } from './uncertainty.js';
import { runningViscosity, viscosityInputs } from './viscosity.js';

type KappaVerdict = 'too thin' | 'thin' | 'good' | 'thick';

/** too thin below 0.4, thin below 1, good to 4, thick above. */
const kappaVerdict = (kappa: number): KappaVerdict =>
  kappa < 0.4 ? 'too thin' : kappa < 1 ? 'thin' : kappa <= 4 ? 'good' : 'thick';

const meaning: Readonly<Record<KappaVerdict, string>> = {
  'too thin': 'the film carries hardly anything: choose a thicker base oil',
  thin: 'surfaces touch at times: needs additives, a thicker base oil is better',
  good: 'the film carries the load',
  thick: 'more than the bearing needs: it runs hotter for no gain',
};

/** Kappa of two viscosities, with its words and what is doubtful about it. */
export function ratioOf(nu: Measured, nu1: Measured) {
  const kappa = propagate({ nu, nu1 }, (x) => x.nu / x.nu1);
  const verdict = kappaVerdict(kappa.value);
  const warnings: string[] = [];
  if (kappa.value < 0.1 || kappa.value > 4)
    warnings.push(`Kappa ${figure(kappa.value, 3)} lies outside the life curves, which cover 0.1 to 4.`);
  const half = kappa.plusMinus ?? 0;
  if (verdict === 'good' && kappa.value - half < 1)
    warnings.push('Kappa may lie below 1 within its uncertainty: take the running temperature more closely.');
  return {
    kappa,
    verdict,
    warnings,
    worked: `kappa = ${figure(nu.value)} / ${figure(nu1.value)} = ${figure(kappa.value)}`,
  };
}

/** K by which the inner raceway is hotter than the outer ring, at most; usual. */
const hotter = 10;

/** Kappa there; nothing where the equation does not reach so far. */
function innerRaceway(given: CheckedInputs, nu1: Measured): number | undefined {
  const number = (key: string): Measured =>
    key === 'temp' ? { value: given.number(key).value + hotter } : given.number(key);
  try {
    return runningViscosity({ ...given, number }).nu.value / nu1.value;
  } catch (error) {
    if (error instanceof CalcRefusal) return undefined;
    throw error;
  }
}

export const viscosityRatio = defineCalculator({
  name: 'viscosity-ratio',
  title: 'Viscosity ratio kappa',
  inputs: { ...viscosityInputs, ...requiredInputs },
  results: {
    kappa: result('Viscosity ratio kappa (1 or more: thick enough)', 'ratio', ''),
    verdict: oneOf('Film', ['too thin', 'thin', 'good', 'thick']),
    nu: result('Viscosity at running temperature', 'viscosity', 'mm2/s'),
    nu1: result('Required viscosity', 'viscosity', 'mm2/s'),
    kappaInner: result('Kappa at the inner raceway, 10 K hotter', 'ratio', ''),
    why: word('Why'),
  },
  formula: 'kappa = nu / nu1',
  source: usual('ISO 281:2007 clause 9.3 and ASTM D341, from memory'),
  run: (given) => {
    const oil = runningViscosity(given);
    const need = requiredViscosity(given.number('speed'), given.number('pitch'));
    const inner = innerRaceway(given, need.nu1);
    const { kappa, verdict, warnings, worked } = ratioOf(oil.nu, need.nu1);
    const named = kappa.dominant === 'nu' ? oil.nu.dominant : kappa.dominant === 'nu1' ? need.nu1.dominant : undefined;
    const { dominant: _own, ...plain } = kappa;
    return {
      results: {
        kappa: { ...plain, ...(named === undefined ? {} : { dominant: named }) },
        verdict: { value: verdict },
        nu: oil.nu,
        nu1: need.nu1,
        ...(inner === undefined ? {} : { kappaInner: { value: inner } }),
        why: { value: meaning[verdict] },
      },
      warnings: [
        ...oil.warnings,
        ...need.warnings,
        ...warnings,
        ...(inner !== undefined && inner < 1 && kappa.value >= 1
          ? [
              `At the inner raceway, some 10 K hotter than the outer ring, kappa is ${figure(inner, 3)}: take a thicker base oil, or a cooler bearing.`,
            ]
          : []),
      ],
      worked: [...oil.worked, ...need.worked, worked],
    };
  },
});
