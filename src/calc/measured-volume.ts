/**
 * Free volume of a sealed bearing by weighing, mL: a spare of the very size, dry with its seals, then filled with a thin oil
 * through the gap of a seal until no bubble comes, wiped outside and weighed again. V = (filled - dry) / density of the oil.
 * Air that stays in makes it a little low, which is the safe side. Half widths: 0.1 g for each weighing unless typed, and that of
 * the density. Held against a computed one where that is given. Source: arithmetic.
 */
import { defineCalculator } from './define.js';
import { arithmetic, figure, oneOf, quantityInput, result } from './spec.js';
import { constant, findRow, sourceOf } from './table.js';
import { CalcRefusal, type Measured } from './types.js';
import { propagate } from './uncertainty.js';

/** Half width of one weighing, g, unless stated. */
const usualScale = 0.1;
const weighed = (m: Measured): Measured => (m.plusMinus === undefined ? { ...m, plusMinus: usualScale } : m);

export const measuredVolume = defineCalculator({
  name: 'measured-volume',
  title: 'Free volume by weighing a spare dry and filled with oil',
  inputs: {
    dry: quantityInput('Spare with its seals, dry', 'mass', 'g', [0.5, 200_000]),
    filled: quantityInput('The same, filled with thin oil', 'mass', 'g', [0.5, 200_000]),
    oilDensity: quantityInput('Density of that oil', 'density', 'g/mL', [0.65, 1.3], true),
    computed: quantityInput('Room left for grease, computed', 'volume', 'mL', [0.01, 20_000], true),
  },
  results: {
    volume: result('Free volume, measured', 'volume', 'mL'),
    against: result('Against the computed one', 'share', '%'),
    agrees: oneOf('Both agree', ['yes', 'no', 'nothing to compare']),
  },
  formula: 'V = (filled - dry) / density of the oil',
  source: arithmetic('mass over density'),
  run: (given, tables) => {
    const [dry, filled] = [weighed(given.number('dry')), weighed(given.number('filled'))];
    if (filled.value <= dry.value)
      throw new CalcRefusal(
        'filled',
        `Filled (${figure(filled.value)} g) it must weigh more than dry (${figure(dry.value)} g): check which is which.`,
      );
    const density = given.maybe('oilDensity') ?? constant(tables, 'densities', 'light-oil');
    const row = findRow(tables, 'densities', 'light-oil');
    const volume = propagate({ dry, filled, density }, (x) => (x.filled - x.dry) / x.density);
    const steel = constant(tables, 'densities', 'steel').value;
    if (volume.value > dry.value / steel)
      throw new CalcRefusal(
        'filled',
        `${figure(volume.value)} mL of oil is more than all the metal of this bearing (${figure(dry.value / steel)} mL): read both weights again.`,
      );
    const computed = given.maybe('computed');
    const apart = computed ? (volume.value / computed.value - 1) * 100 : undefined;
    const width = computed ? volume.value * 0.1 + Math.max(computed.plusMinus ?? 0, computed.value * 0.2) : 0;
    const agrees = computed ? (Math.abs(volume.value - computed.value) <= width ? 'yes' : 'no') : 'nothing to compare';
    return {
      results: { volume, ...(apart === undefined ? {} : { against: { value: apart } }), agrees: { value: agrees } },
      warnings: [
        'Wipe the outside dry before the second weighing; a spare that was filled with oil is washed before it is used.',
        ...(given.has('oilDensity') ? [] : ['A density of 0.85 g/mL was taken, usual for a thin oil.']),
        ...(agrees === 'no'
          ? [
              `It is ${figure(Math.abs(apart ?? 0), 2)} % ${(apart ?? 0) < 0 ? 'below' : 'above'} the computed one: is the spare of the same size, cage and seals, was it full, and are the dimensions right?`,
            ]
          : []),
      ],
      worked: [
        `V = (${figure(filled.value)} - ${figure(dry.value)}) g / ${figure(density.value)} g/mL = ${figure(volume.value)} mL`,
      ],
      sources: row && !given.has('oilDensity') ? [sourceOf(row)] : [],
    };
  },
});
