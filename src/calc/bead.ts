/**
 * How large a bead of grease goes to each ball gap and each race.
 * A dose (mL) is spread over Z gaps; each gap gets half at the inner, half at the outer race: 2 Z beads are the dose, once.
 * Bead diameter (mm) is that of a ball of the same volume: (6 V / pi)^(1/3). As a string from a tip of the bore t it is
 * V / (pi/4 t^2) long; grease swells a little behind a tip, so a string laid on a rule is the surer measure.
 * Uncertainty: that of the dose. Source: geometry.
 */
import { defineCalculator } from './define.js';
import { arithmetic, figure, length, quantityInput, result } from './spec.js';
import { propagate } from './uncertainty.js';

const diameter = (mL: number): number => ((6 * mL * 1000) / Math.PI) ** (1 / 3);

export const bead = defineCalculator({
  name: 'bead',
  title: 'Bead for each ball gap and raceway',
  inputs: {
    dose: quantityInput('Dose', 'volume', 'mL', [0.001, 1000]),
    balls: quantityInput('Number of balls', 'count', '', [3, 60]),
    tip: length('Inside diameter of the tip', [0.3, 10], true),
    gap: length('Room between two balls', [0.2, 50], true),
  },
  results: {
    gapVolume: result('Each ball gap, both raceways together', 'volume', 'mL'),
    raceVolume: result('Of it at each raceway, half', 'volume', 'mL'),
    beadDiameter: result('The bead as one drop, diameter', 'length', 'mm'),
    gapBead: result('Both beads of a gap as one, diameter', 'length', 'mm'),
    beadString: result('Length of the bead at each raceway', 'length', 'mm'),
    gapString: result('Length of both beads of a gap', 'length', 'mm'),
    doseString: result('Length of the whole dose as one bead', 'length', 'mm'),
  },
  formula: 'gap = dose / Z;  race = gap / 2;  bead = (6 V / pi)^(1/3)',
  source: arithmetic('volume of a ball'),
  run: (given) => {
    const [dose, balls] = [given.number('dose'), given.number('balls')];
    const inputs = { dose, balls };
    const gap = propagate(inputs, (x) => x.dose / x.balls);
    const race = propagate(inputs, (x) => x.dose / x.balls / 2);
    const small = propagate(inputs, (x) => diameter(x.dose / x.balls / 2));
    const tip = given.maybe('tip');
    const gapRoom = given.maybe('gap');
    const stringOf = (parts: (x: { dose: number; balls: number }) => number) =>
      tip && propagate({ ...inputs, tip }, (x) => (1000 * parts(x)) / ((Math.PI / 4) * x.tip ** 2));
    const strings = {
      beadString: stringOf((x) => x.dose / x.balls / 2),
      gapString: stringOf((x) => x.dose / x.balls),
      doseString: stringOf((x) => x.dose),
    };
    return {
      results: {
        ...(strings.beadString && strings.gapString && strings.doseString
          ? { beadString: strings.beadString, gapString: strings.gapString, doseString: strings.doseString }
          : {}),
        gapVolume: gap,
        raceVolume: race,
        beadDiameter: small,
        gapBead: propagate(inputs, (x) => diameter(x.dose / x.balls)),
      },
      warnings: [
        ...(small.value < 1
          ? ['Beads this small are hard to place: spread the dose over every second gap instead.']
          : []),
        ...(gapRoom && small.value > gapRoom.value
          ? [
              `A bead of ${figure(small.value, 2)} mm does not go into a gap of ${figure(gapRoom.value, 2)} mm at once: lay it along the raceway in two or three short beads, off the cage.`,
            ]
          : []),
      ],
      worked: [
        `gap = ${figure(dose.value)} mL / ${figure(balls.value)} = ${figure(gap.value)} mL`,
        ...(tip && strings.beadString
          ? [
              `from a tip of ${figure(tip.value)} mm: a bead ${figure(strings.beadString.value, 3)} mm long at each raceway`,
            ]
          : []),
        `of it at each raceway, half = ${figure(race.value)} mL, a bead of ${figure(small.value, 2)} mm`,
        `${figure(balls.value)} gaps x 2 raceways x ${figure(race.value)} mL = ${figure(dose.value)} mL, the dose once`,
      ],
    };
  },
});
