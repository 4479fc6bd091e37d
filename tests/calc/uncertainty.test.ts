import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import type { Inputs, Measured } from '../../src/calc/types.js';
import { propagate } from '../../src/calc/uncertainty.js';
import type { Answer } from '../../src/engine/journal/entry.js';
import type { Known } from '../../src/engine/values/known.js';
import { halfDifference } from '../../src/engine/values/spread.js';
import { random, size } from '../setup/size.js';
import { tables } from './support.js';

/** Normal numbers by Box and Muller, the same for the same seed. */
function normals(seed: number): () => number {
  const next = random(seed);
  // Never nought, which has no logarithm.
  const uniform = (): number => next() + 2 ** -33;
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

function spread(values: readonly number[]): number {
  const mean = values.reduce((s, v) => s + v, 0) / values.length;
  return Math.sqrt(values.reduce((s, v) => s + (v - mean) ** 2, 0) / (values.length - 1));
}

/** Of 5 000 draws the standard deviation is off by 1 % (one in root 2n), of 20 000 by half of that. */
const draws = size(5_000, 20_000);

/** Reference: standard deviation over that many draws (JCGM 101, propagation of distributions). */
function monteCarlo(name: string, inputs: Inputs, key: string): number {
  const next = normals(20_251);
  const values: number[] = [];
  for (let i = 0; i < draws; i++) {
    const drawn = Object.fromEntries(
      Object.entries(inputs).map(([k, v]) => {
        const m = v as Measured;
        return typeof v === 'object' && m.plusMinus !== undefined
          ? [k, { value: m.value + m.plusMinus * next(), plusMinus: 0 }]
          : [k, v];
      }),
    );
    values.push(calculators[name]!.run(drawn, tables).results[key]!.value as number);
  }
  return spread(values);
}

describe('propagation against a Monte-Carlo run (JCGM 101), within 5 %', () => {
  const m = (value: number, plusMinus?: number): Measured => ({
    value,
    ...(plusMinus === undefined ? {} : { plusMinus }),
  });
  const cases: [string, Inputs, string][] = [
    ['speed-factor', { bore: m(40, 0.1), outside: m(68, 0.1), speed: m(20000, 200) }, 'ndm'],
    ['viscosity', { nu40: m(25, 1), nu100: m(5, 0.2), temp: m(70, 3) }, 'nu'],
    ['required-viscosity', { speed: m(12000, 300), pitch: m(60, 0.5) }, 'nu1'],
    [
      'viscosity-ratio',
      { nu40: m(25, 1), nu100: m(5, 0.2), temp: m(70, 3), speed: m(12000, 300), pitch: m(60, 0.5) },
      'kappa',
    ],
    ['fill', { freeVolume: m(6.5, 0.3), share: m(15, 1), density: m(0.9, 0.03) }, 'doseMass'],
    ['syringe', { bore: m(14.5, 0.1), doses: [m(1)], ruler: m(0) }, 'travelPerMl'],
    ['bead', { dose: m(1, 0.1), balls: m(9) }, 'beadDiameter'],
    ['residue', { length: m(10, 0.5), width: m(10, 0.5), height: m(5, 0.3), dose: m(1, 0.05) }, 'ratio'],
    ['vapour', { solvent: 'acetone', volume: m(20, 2), room: m(40, 2) }, 'ppm'],
    ['frequencies', { balls: m(9), ball: m(9.5, 0.1), pitch: m(60, 0.3), speed: m(6000, 50) }, 'inner'],
    ['grease-life', { type: 'general', speedRatio: m(0.5, 0.02), temp: m(85, 2) }, 'hours'],
  ];
  it.each(cases)('%s', (name, inputs, key) => {
    const found = calculators[name]!.run(inputs, tables).results[key]!.plusMinus as number;
    expect(Math.abs(found / monteCarlo(name, inputs, key) - 1)).toBeLessThan(0.05);
  });
  it('free-volume, with the width of the density taken out of both', () => {
    const flat = {
      ...tables,
      densities: { ...tables.densities!, rows: tables.densities!.rows.map((r) => ({ ...r, plus_minus: null })) },
    };
    const inputs = { bore: m(40, 0.1), outside: m(80, 0.1), width: m(18, 0.1), mass: m(366, 5), massIs: 'steel' };
    const found = calculators['free-volume']!.run(inputs, flat).results.volume!.plusMinus as number;
    expect(Math.abs(found / monteCarlo('free-volume', inputs, 'volume') - 1)).toBeLessThan(0.05);
  });
});

describe('propagate', () => {
  it('is the root sum of squares for a sum, and names the input that dominates', () => {
    const found = propagate({ a: { value: 1, plusMinus: 3 }, b: { value: 2, plusMinus: 4 } }, (x) => x.a + x.b);
    expect(found.plusMinus).toBeCloseTo(5, 9);
    expect(found.dominant).toBe('b');
  });
  it('says nothing where nothing is known, and 0 where all is exact', () => {
    expect(propagate({ a: { value: 1 } }, (x) => x.a)).toEqual({ value: 1 });
    expect(propagate({ a: { value: 1, plusMinus: 0 } }, (x) => x.a)).toEqual({ value: 1, plusMinus: 0 });
  });
  it('is half of what both ends differ by, and sees a clamp, a valley and a step', () => {
    const at = (value: number, plusMinus: number, f: (a: number) => number) =>
      propagate({ a: { value, plusMinus } }, (x) => f(x.a)).plusMinus;
    // By hand: (1/1.5 - 1/2.5) / 2 = 0.13333; |5 +- 1 - 5| spans 0 to 1; 2.2 +- 0.4 rounds to 2 and 3.
    expect(at(2, 0.5, (a) => 1 / a)).toBeCloseTo(0.13333, 5);
    expect(at(5, 1, (a) => Math.abs(a - 5))).toBeCloseTo(0.5, 9);
    expect(at(2.2, 0.4, Math.round)).toBeCloseTo(0.5, 9);
  });
  it.each([
    // Half of the difference between the life at 69 C, clamped to 70, and at 79 C: (5420 - 3748) / 2.
    ['grease-life', { type: 'general', speedRatio: { value: 0.6 }, temp: { value: 69, plusMinus: 10 } }, 'hours', 836],
    // The trade rule at 88 C: (5500 - 3976) / 2.
    ['hot-interval', { hours: { value: 5500 }, temp: { value: 78, plusMinus: 10 } }, 'hours', 762],
  ])('A: %s has a width at its clamp', (name, inputs, key, half) => {
    const found = calculators[name]!.run(inputs as Inputs, tables).results[key]!.plusMinus as number;
    expect(Math.abs(found / half - 1)).toBeLessThan(0.002);
  });
  it('an expression of a procedure and a calculator come to the same', () => {
    for (const [value, half, f] of [
      [2, 0.5, (a: number) => 1 / a],
      [5, 1, (a: number) => Math.abs(a - 5)],
      [10, 3, (a: number) => Math.sqrt(a)],
    ] as const) {
      const run = ({ a }: Record<string, Answer>) => f(a as number);
      const known = { known: true, value, plusMinus: half, asOf: 0, names: [] } as unknown as Known;
      expect(halfDifference(run, { a: value }, 'a', known)).toBeCloseTo(
        propagate({ a: { value, plusMinus: half } }, (x) => f(x.a)).plusMinus ?? Number.NaN,
        12,
      );
    }
  });
  it('takes one side where the other lies outside the domain', () => {
    const found = propagate({ a: { value: 0, plusMinus: 0.1 } }, (x) => {
      if (x.a < 0) throw new Error('below zero');
      return 2 * x.a;
    });
    expect(found.plusMinus).toBeCloseTo(0.2, 9);
  });
  it('and the other one likewise', () => {
    const found = propagate({ a: { value: 0, plusMinus: 0.1 } }, (x) => {
      if (x.a > 0) throw new Error('above zero');
      return 3 * x.a;
    });
    expect(found.plusMinus).toBeCloseTo(0.3, 9);
  });
});
