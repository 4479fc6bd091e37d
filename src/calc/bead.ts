/**
 * How large a bead of grease goes to each ball gap and each race.
 * A dose (mL) is spread over Z gaps; each gap gets half at the inner, half at the outer race: 2 Z beads are the dose, once.
 * Bead diameter (mm) is that of a ball of the same volume: (6 V / pi)^(1/3).
 * Uncertainty: that of the dose. Source: geometry.
 */
import { defineCalculator } from './define.js';
import { arithmetic, figure, quantity, result } from './spec.js';
import { propagate } from './uncertainty.js';

const diameter = (mL: number): number => ((6 * mL * 1000) / Math.PI) ** (1 / 3);

export const bead = defineCalculator({
  name: 'bead',
  title: 'Bead for each ball gap and raceway',
  inputs: {
    dose: quantity('Dose', 'volume', 'mL', [0.001, 1000]),
    balls: quantity('Number of balls', 'count', '', [3, 60]),
  },
  results: {
    gapVolume: result('Each ball gap, both raceways together', 'volume', 'mL'),
    raceVolume: result('Of it at each raceway, half', 'volume', 'mL'),
    beadDiameter: result('Bead at each raceway, diameter', 'length', 'mm'),
    gapBead: result('Both beads of a gap as one, diameter', 'length', 'mm'),
  },
  formula: 'gap = dose / Z;  race = gap / 2;  bead = (6 V / pi)^(1/3)',
  source: arithmetic('volume of a ball'),
  run: (given) => {
    const [dose, balls] = [given.number('dose'), given.number('balls')];
    const inputs = { dose, balls };
    const gap = propagate(inputs, (x) => x.dose / x.balls);
    const race = propagate(inputs, (x) => x.dose / x.balls / 2);
    const small = propagate(inputs, (x) => diameter(x.dose / x.balls / 2));
    return {
      results: {
        gapVolume: gap,
        raceVolume: race,
        beadDiameter: small,
        gapBead: propagate(inputs, (x) => diameter(x.dose / x.balls)),
      },
      warnings:
        small.value < 1 ? ['Beads this small are hard to place: spread the dose over every second gap instead.'] : [],
      worked: [
        `gap = ${figure(dose.value)} mL / ${figure(balls.value)} = ${figure(gap.value)} mL`,
        `of it at each raceway, half = ${figure(race.value)} mL, a bead of ${figure(small.value, 2)} mm`,
        `${figure(balls.value)} gaps x 2 raceways x ${figure(race.value)} mL = ${figure(dose.value)} mL, the dose once`,
      ],
    };
  },
});
