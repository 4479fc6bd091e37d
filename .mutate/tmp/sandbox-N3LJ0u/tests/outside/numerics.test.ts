/** Formulas and slopes against mathjs, a reference library with units and symbolic derivatives. */
// @ts-nocheck

import { derivative, evaluate, type Unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { calc, off, value } from '../calc/support.js';

const inUnit = (expression: string, unit: string): number => (evaluate(expression) as Unit).toNumber(unit);

describe('formulas against mathjs with its units', () => {
  it('A: envelope less solids', () => {
    const expected = inUnit('pi/4 * 18 mm * ((80 mm)^2 - (40 mm)^2) - 366 g / (7.81 g/cm^3)', 'cm^3');
    expect(off(value('free-volume bore=40 outside=80 width=18 mass=366', 'volume'), expected)).toBeLessThan(1e-12);
  });
  it('A: travel of a syringe, typed in inches and fluid ounces', () => {
    const expected = inUnit('0.1 fluidounce / (pi/4 * (0.571 inch)^2)', 'mm');
    expect(
      off(
        value('syringe bore=0.571in doses=0.1floz', 'prime') +
          (calc('syringe bore=0.571in doses=0.1floz').results.marks!.value as number[])[0]!,
        expected,
      ),
    ).toBeLessThan(1e-6);
  });
  it('A: bead of a ball gap', () => {
    const expected = inUnit('cbrt(6/pi * 1 cm^3 / 18)', 'mm');
    expect(off(value('bead dose=1ml balls=9', 'beadDiameter'), expected)).toBeLessThan(1e-9);
  });
  it('M: grease life and required viscosity', () => {
    expect(
      off(
        value('grease-life type=general speedRatio=0.6 temp=90', 'hours'),
        evaluate('10^(6.54-2.6*0.6-(0.025-0.012*0.6)*90)'),
      ),
    ).toBeLessThan(1e-9);
    expect(
      off(value('required-viscosity speed=700 pitch=54', 'nu1'), evaluate('45000*700^(-0.83)*54^(-0.5)')),
    ).toBeLessThan(1e-12);
  });
});

describe('uncertainty against mathjs', () => {
  /** Root of the sum of squares of half the difference of both ends, each worked out by the library. */
  const ends = (expression: string, at: Record<string, number>, half: Record<string, number>): number =>
    Math.sqrt(
      Object.entries(half).reduce((sum, [name, h]) => {
        const [up, down] = [1, -1].map((s) => Number(evaluate(expression, { ...at, [name]: at[name]! + s * h })));
        return sum + ((up! - down!) / 2) ** 2;
      }, 0),
    );

  const rss = (expression: string, at: Record<string, number>, half: Record<string, number>): number =>
    Math.sqrt(
      Object.entries(half).reduce(
        (sum, [name, h]) => sum + (Number(derivative(expression, name).evaluate(at)) * h) ** 2,
        0,
      ),
    );
  it('n dm, by its symbolic derivatives', () => {
    const expected = rss('n*(d+D)/2', { n: 20000, d: 40, D: 68 }, { n: 100, d: 0.1, D: 0.1 });
    expect(
      off(Number(calc('speed-factor bore=40+-0.1 outside=68+-0.1 speed=20000+-100').results.ndm?.plusMinus), expected),
    ).toBeLessThan(1e-6);
  });
  it('Walther', () => {
    const formula =
      '10^(10^(log10(log10(a+0.7)) + (log10(log10(b+0.7)) - log10(log10(a+0.7))) * (log10(t+273.15) - log10(313.15)) / (log10(373.15) - log10(313.15)))) - 0.7';
    const expected = ends(formula, { a: 25, b: 5, t: 70 }, { a: 1, b: 0.2, t: 3 });
    expect(
      off(Number(calc('viscosity nu40=25+-1 nu100=5+-0.2 temp=70+-3').results.nu?.plusMinus), expected),
    ).toBeLessThan(1e-5);
  });
  it('travel for each mL', () => {
    const expected = ends('1000/(pi/4*b^2)', { b: 14.5 }, { b: 0.1 });
    expect(off(Number(calc('syringe bore=14.5+-0.1 doses=1ml').results.travelPerMl?.plusMinus), expected)).toBeLessThan(
      1e-6,
    );
  });
});
