/**
 * Grease life of a healthy, clean, factory-filled sealed bearing, hours.
 * lg t = 6.54 - 2.6 x - (0.025 - 0.012 x) T for general greases, 6.12 - 1.4 x - (0.018 - 0.006 x) T for wide-range greases;
 * x = n / n max, at least 0.25; T in degC, at least 70. Refused above x = 1 and above 110 or 130 degC.
 * A bearing regreased by hand is inspected far earlier: see inspection. Uncertainty: first order in x and T.
 * Source: usual estimate for sealed bearings, coefficients from memory.
 */
import { type CheckedInputs, defineCalculator } from './define.js';
import { choiceInput, figure, quantityInput, result, usual } from './spec.js';
import { CalcRefusal, type InputSpec } from './types.js';
import { type Propagated, propagate } from './uncertainty.js';

const types = ['general', 'wide-range'] as const;
type Type = (typeof types)[number];
const hottest: Readonly<Record<Type, number>> = { general: 110, 'wide-range': 130 };

export const lifeInputs: Readonly<Record<string, InputSpec>> = {
  type: choiceInput('Type of grease', types),
  speedRatio: quantityInput('Speed over the limiting speed', 'ratio', '', [0, 1]),
  temp: quantityInput('Bearing temperature', 'temperature', 'degC', [-40, 130]),
};
export const lifeAliases: Readonly<Record<string, string>> = { wide: 'wide-range', gen: 'general' };
const lifeSource = usual('estimate for sealed bearings, coefficients from memory');

/** Hours; x and T already within validity. */
function hours(type: Type, x: number, T: number): number {
  const [xc, Tc] = [Math.max(x, 0.25), Math.max(T, 70)];
  return type === 'general'
    ? 10 ** (6.54 - 2.6 * xc - (0.025 - 0.012 * xc) * Tc)
    : 10 ** (6.12 - 1.4 * xc - (0.018 - 0.006 * xc) * Tc);
}

export function greaseLifeOf(given: CheckedInputs): { life: Propagated; worked: string; warnings: string[] } {
  const type = given.choice('type', types);
  const [x, T] = [given.number('speedRatio'), given.number('temp')];
  if (T.value > hottest[type])
    throw new CalcRefusal(
      'temp',
      `For a ${type} grease the estimate ends at ${hottest[type]} °C, not ${figure(T.value)} °C: there is no figure beyond.`,
    );
  const life = propagate({ speedRatio: x, temp: T }, (v) => hours(type, v.speedRatio, v.temp));
  const warnings: string[] = [];
  if (x.value < 0.25)
    warnings.push('Below a quarter of the limiting speed the estimate does not grow further: 0.25 was taken.');
  if (T.value < 70) warnings.push('Below 70 °C the estimate does not grow further: 70 °C was taken.');
  return {
    life,
    warnings,
    worked: `x = ${figure(Math.max(x.value, 0.25))}, T = ${figure(Math.max(T.value, 70))} °C: t = ${figure(life.value)} h (${type})`,
  };
}

export const greaseLife = defineCalculator({
  name: 'grease-life',
  title: 'Grease life of a factory-filled bearing',
  inputs: lifeInputs,
  results: { hours: result('Grease life', 'ratio', 'h') },
  formula: 'lg t = 6.54-2.6x-(0.025-0.012x)T general; 6.12-1.4x-(0.018-0.006x)T wide-range',
  source: lifeSource,
  aliases: lifeAliases,
  run: (given) => {
    const { life, worked, warnings } = greaseLifeOf(given);
    return {
      results: { hours: life },
      warnings: [
        ...warnings,
        'This is for a healthy, clean bearing as it left the factory: a hand-regreased one is inspected far earlier.',
        'It is an average life, good to a factor of two or three, for loads up to a tenth of the rating.',
      ],
      worked: [worked],
    };
  },
});
