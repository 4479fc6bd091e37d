/**
 * Viscosity of the base oil at running temperature, mm2/s.
 * From nu at 40 and 100 degC, or at two stated temperatures. ASTM D341 (Walther), above 2 mm2/s.
 * A pair that no oil has is refused: nu at 100 degC above a half or below a hundredth of that at 40 degC; above 0.3 it is doubtful
 * (mineral, PAO and ester oils 0.1 to 0.25, silicones about 0.4, usual). Refused too where it no longer flows, above 1e6 mm2/s.
 * Inside the two temperatures it interpolates; up to 40 K outside it warns, beyond it refuses.
 * Uncertainty: first order in all five inputs.
 */
import { type CheckedInputs, defineCalculator } from './define.js';
import { figure, quantityInput, result } from './spec.js';
import { CalcRefusal, type InputSpec, type Measured, type Source } from './types.js';
import { type Propagated, propagate } from './uncertainty.js';
import { viscosityAt } from './walther.js';

const nu = (label: string): InputSpec => quantityInput(label, 'viscosity', 'mm2/s', [2, 50_000], true);
const degree = (label: string, optional = false): InputSpec =>
  quantityInput(label, 'temperature', 'degC', [-40, 200], optional);

export const viscosityInputs: Readonly<Record<string, InputSpec>> = {
  nu40: nu('Base oil viscosity at 40 °C'),
  nu100: nu('Base oil viscosity at 100 °C'),
  nuA: nu('Viscosity at the first temperature'),
  tA: degree('First temperature', true),
  nuB: nu('Viscosity at the second temperature'),
  tB: degree('Second temperature', true),
  temp: degree('Running temperature'),
};

const beyond = 40;
const waltherSource: Source = {
  tag: 'P',
  text: 'ASTM D341, equation lg lg (nu + 0.7) = A - B lg T (worked example read: 32 and 5.4 mm2/s give 8.5 at 80 °C)',
};

interface Ends {
  readonly nuA: Measured;
  readonly tA: Measured;
  readonly nuB: Measured;
  readonly tB: Measured;
  readonly names: readonly [string, string];
}

function endsOf(given: CheckedInputs): Ends {
  const byForty = given.has('nu40') || given.has('nu100');
  const byStated = ['nuA', 'tA', 'nuB', 'tB'].filter((key) => given.has(key));
  if (byForty && byStated.length > 0)
    throw new CalcRefusal(
      byStated[0] ?? 'nuA',
      'Give the viscosity at 40 and 100 °C, or at two temperatures of your own: not both.',
    );
  if (byStated.length > 0) {
    for (const key of ['nuA', 'tA', 'nuB', 'tB'])
      if (!given.has(key))
        throw new CalcRefusal(
          key,
          `${viscosityInputs[key]?.label} is missing: give both viscosities with their temperatures.`,
        );
    const ends = { nuA: given.number('nuA'), tA: given.number('tA'), nuB: given.number('nuB'), tB: given.number('tB') };
    return { ...ends, names: ['nuA', 'nuB'] };
  }
  for (const key of ['nu40', 'nu100'])
    if (!given.has(key))
      throw new CalcRefusal(
        key,
        `The base oil's viscosity at ${key === 'nu40' ? 40 : 100} °C is missing: type it, such as ${key === 'nu40' ? 25 : 5} cSt.`,
      );
  return {
    nuA: given.number('nu40'),
    tA: { value: 40 },
    nuB: given.number('nu100'),
    tB: { value: 100 },
    names: ['nu40', 'nu100'],
  };
}

/** mm2/s */
const stiffest = 1e6;

/** Refuses a pair of viscosities that no oil has; says where one is doubtful. */
function checkPair(ends: Ends): string[] {
  const [a, b] = [
    { nu: ends.nuA.value, t: ends.tA.value },
    { nu: ends.nuB.value, t: ends.tB.value },
  ];
  const ratio = viscosityAt(a, b, 100) / viscosityAt(a, b, 40);
  const key = ends.names[1];
  if (!(ratio <= 0.5))
    throw new CalcRefusal(
      key,
      `No oil keeps that much of its viscosity when hot: from 40 to 100 °C usual is 0.1 to 0.25 of it, here ${figure(ratio, 2)}; read both figures again.`,
    );
  if (ratio < 0.01)
    throw new CalcRefusal(
      key,
      `No oil thins that much: from 40 to 100 °C usual is 0.1 to 0.25, here ${figure(ratio, 2)}; read both figures again.`,
    );
  return ratio > 0.3
    ? [
        `From 40 to 100 °C it would keep ${figure(ratio * 100, 2)} % of its viscosity, usual is 10 to 25 % (silicone oils about 40 %): read both figures again.`,
      ]
    : [];
}

/** Viscosity at running temperature with its half width, warnings and worked lines. */
export function runningViscosity(given: CheckedInputs): { nu: Propagated; warnings: string[]; worked: string[] } {
  const ends = endsOf(given);
  const temp = given.number('temp');
  const [cold, hot] = ends.tA.value < ends.tB.value ? [ends.tA, ends.tB] : [ends.tB, ends.tA];
  if (hot.value - cold.value < 5)
    throw new CalcRefusal('tB', 'The two temperatures must lie at least 5 K apart, such as 40 and 100 °C.');
  const [thick, thin] = ends.tA.value < ends.tB.value ? [ends.nuA, ends.nuB] : [ends.nuB, ends.nuA];
  if (thin.value >= thick.value)
    throw new CalcRefusal(
      ends.names[1],
      'The oil must be thinner at the higher temperature: check which figure is which.',
    );
  const warnings = checkPair(ends);
  const outside = Math.max(cold.value - temp.value, temp.value - hot.value, 0);
  if (outside > beyond)
    throw new CalcRefusal(
      'temp',
      `The running temperature must be from ${cold.value - beyond} to ${hot.value + beyond} °C for these two figures, not ${figure(temp.value)} °C.`,
    );
  const { names: _names, ...inputs } = ends;
  const named = { [ends.names[0]]: inputs.nuA, [ends.names[1]]: inputs.nuB, tA: inputs.tA, tB: inputs.tB, temp };
  const nu = propagate(named, (x) =>
    viscosityAt({ nu: x[ends.names[0]] ?? 0, t: x.tA ?? 0 }, { nu: x[ends.names[1]] ?? 0, t: x.tB ?? 0 }, x.temp ?? 0),
  );
  if (!(nu.value >= 2))
    throw new CalcRefusal(
      'temp',
      `At ${figure(temp.value)} °C this oil is thinner than 2 mm2/s, where the equation no longer holds.`,
    );
  if (nu.value > stiffest)
    throw new CalcRefusal(
      'temp',
      `At ${figure(temp.value)} °C this oil would be thicker than 1 000 000 mm2/s and no longer flow: there is no figure.`,
    );
  if (outside > 0)
    warnings.push(
      `${figure(temp.value)} °C lies ${figure(outside)} K outside the two given temperatures: the figure is extrapolated.`,
    );
  const worked = [
    'lg lg (nu + 0.7) = A - B lg T, through both given points',
    `${figure(inputs.nuA.value)} mm2/s at ${figure(inputs.tA.value)} °C and ${figure(inputs.nuB.value)} mm2/s at ${figure(inputs.tB.value)} °C give ${figure(nu.value)} mm2/s at ${figure(temp.value)} °C`,
  ];
  return { nu, warnings, worked };
}

export const viscosity = defineCalculator({
  name: 'viscosity',
  title: 'Viscosity of the base oil at running temperature',
  inputs: viscosityInputs,
  results: { nu: result('Viscosity at running temperature', 'viscosity', 'mm2/s') },
  formula: 'lg lg (nu + 0.7) = A - B lg T',
  source: waltherSource,
  run: (given) => {
    const { nu, warnings, worked } = runningViscosity(given);
    return { results: { nu }, warnings, worked };
  },
});
