/**
 * Replenishment of an open, vented housing through a nipple, g: G = 0.005 D B (mm).
 * It is NOT the dose of a cleaned sealed bearing: there it would be two to three times too much.
 * Uncertainty: first order. Source: published trade handbooks.
 */
import { defineCalculator } from './define.js';
import { bore, figure, outsideInput, quantityInput, result, usual, width } from './spec.js';
import { checkRings } from './speed-factor.js';
import { constant } from './table.js';
import { propagate } from './uncertainty.js';

export const replenishment = defineCalculator({
  name: 'replenishment',
  title: 'Replenishment of an open housing',
  inputs: {
    bore: { ...bore, optional: true },
    outside: outsideInput,
    width,
    freeVolume: quantityInput('Free volume', 'volume', 'mL', [0.01, 20_000], true),
  },
  results: {
    grams: result('Replenishment', 'mass', 'g'),
    shareOfFree: result('Share of the free volume that this would be', 'share', '%'),
  },
  formula: 'G = 0.005 D B',
  source: usual(
    'replenishment of open, vented housings, read in a maintenance magazine of March 2020, fig. 1, its name not noted',
  ),
  run: (given, tables) => {
    const [D, B] = [given.number('outside'), given.number('width')];
    const d = given.maybe('bore');
    if (d) checkRings(d, D);
    const grams = propagate({ outside: D, width: B }, (x) => 0.005 * x.outside * x.width);
    const free = given.maybe('freeVolume');
    const density = constant(tables, 'densities', 'grease');
    const share = free
      ? propagate(
          { outside: D, width: B, freeVolume: free, density },
          (x) => (0.5 * x.outside * x.width) / x.density / x.freeVolume,
        )
      : undefined;
    return {
      results: { grams, ...(share ? { shareOfFree: share } : {}) },
      warnings: [
        `This is NOT the dose of a cleaned sealed bearing${share ? `: it would fill ${figure(share.value, 2)} % of it` : ''}; for that a share of its free volume is taken.`,
        'It holds for open, vented housings that push the old grease out.',
      ],
      worked: [
        `G = 0.005 x ${figure(D.value)} x ${figure(B.value)} = ${figure(grams.value)} g`,
        ...(share && free
          ? [
              `${figure(grams.value)} g / ${density.value} g/mL / ${figure(free.value)} mL = ${figure(share.value, 3)} % of the free volume`,
            ]
          : []),
      ],
    };
  },
});
