/**
 * Viscosity ratio kappa = nu / nu1, no unit. Below 1 the surfaces touch, above 4 more viscosity only heats.
 * The life curves cover 0.1 to 4. Uncertainty: both viscosities, taken as independent.
 * Sources: ASTM D341 and ISO 281:2007 clause 9.3, from memory.
 */
import { defineCalculator } from './define.js';
import { requiredInputs, requiredViscosity } from './required-viscosity.js';
import { figure, oneOf, result, usual, word } from './spec.js';
import type { Measured } from './types.js';
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

export const viscosityRatio = defineCalculator({
  name: 'viscosity-ratio',
  title: 'Viscosity ratio kappa',
  inputs: { ...viscosityInputs, ...requiredInputs },
  results: {
    kappa: result('Viscosity ratio kappa', 'ratio', ''),
    verdict: oneOf('Film', ['too thin', 'thin', 'good', 'thick']),
    nu: result('Viscosity at running temperature', 'viscosity', 'mm2/s'),
    nu1: result('Required viscosity', 'viscosity', 'mm2/s'),
    why: word('Why'),
  },
  formula: 'kappa = nu / nu1',
  source: usual('ISO 281:2007 clause 9.3 and ASTM D341, from memory'),
  run: (given) => {
    const oil = runningViscosity(given);
    const need = requiredViscosity(given.number('speed'), given.number('pitch'));
    const { kappa, verdict, warnings, worked } = ratioOf(oil.nu, need.nu1);
    const named = kappa.dominant === 'nu' ? oil.nu.dominant : kappa.dominant === 'nu1' ? need.nu1.dominant : undefined;
    const { dominant: _own, ...plain } = kappa;
    return {
      results: {
        kappa: { ...plain, ...(named === undefined ? {} : { dominant: named }) },
        verdict: { value: verdict },
        nu: oil.nu,
        nu1: need.nu1,
        why: { value: meaning[verdict] },
      },
      warnings: [...oil.warnings, ...need.warnings, ...warnings],
      worked: [...oil.worked, ...need.worked, worked],
    };
  },
});
