/** Laws that hold for any input, by fast-check. Sources: arithmetic (A) and standard kinematics. */
// @ts-nocheck

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runCalc } from '../../src/calc/command.js';
import { calculators } from '../../src/calc/index.js';
import type { CalcOutcome, Inputs } from '../../src/calc/types.js';
import { canonicalUnit, type QuantityKind } from '../../src/units/kinds.js';
import { parseQuantity } from '../../src/units/parse.js';
import { unitPresets } from '../../src/units/presets.js';
import { showQuantity } from '../../src/units/show.js';
import { tables } from '../calc/support.js';
import { size } from '../setup/size.js';

const run = (name: string, inputs: Inputs): CalcOutcome => calculators[name]!.run(inputs, tables);
const number = (outcome: CalcOutcome, key: string): number => outcome.results[key]!.value as number;
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const close = (a: number, b: number, tolerance = 1e-9): boolean =>
  Math.abs(a - b) <= tolerance * Math.max(1, Math.abs(a), Math.abs(b));
const holds = (property: fc.IProperty<never>): void => {
  void fc.assert(property, { numRuns: size(150, 10_000) });
};
const prop = fc.property as unknown as (...args: unknown[]) => fc.IProperty<never>;

const bearing = fc
  .record({ bore: between(5, 120), wall: between(4, 60), width: between(4, 50) })
  .map(({ bore, wall, width }) => ({ bore, outside: bore + 2 * wall, width }));

describe('units', () => {
  it('A: a value shown in any preset unit reads back to itself within its figures', () => {
    const kinds = Object.keys(canonicalUnit).filter((k) => !['count', 'money'].includes(k)) as QuantityKind[];
    holds(
      prop(
        fc.constantFrom(...kinds),
        between(1e-3, 9e4),
        fc.nat(5),
        (kind: QuantityKind, value: number, pick: number) => {
          const unit = unitPresets[kind][pick % unitPresets[kind].length]!;
          const text = showQuantity(value, kind, { unit, figures: 12 });
          const read = parseQuantity(text, kind, canonicalUnit[kind]);
          // `speed`, `speed-factor` and `concentration` show whole numbers from ten on.
          const rounded = ['speed', 'speed-factor', 'concentration'].includes(kind);
          const half = rounded ? 0.5 : 0;
          if (!read.ok) return false;
          return close(read.value, value, 1e-6) || (rounded && Math.abs(read.value - value) <= half);
        },
      ),
    );
  });
  it('A: parsing never throws and never gives a number that is not finite', () => {
    const kinds = Object.keys(canonicalUnit) as QuantityKind[];
    const typed = fc.oneof(fc.string({ maxLength: 100 }), fc.stringMatching(/^[0-9.,eE+\-/ ]{0,12}[a-z"°%]{0,6}$/));
    fc.assert(
      fc.property(typed, fc.constantFrom(...kinds), (text, kind) => {
        const read = parseQuantity(text, kind);
        return read.ok
          ? Number.isFinite(read.value) && (read.plusMinus === undefined || read.plusMinus >= 0)
          : read.message.length > 10 && read.message.length < 300;
      }),
      { numRuns: size(1000, 100_000) },
    );
  });
});

describe('dose and marks', () => {
  it('A: the dose is linear in the free volume', () => {
    holds(
      prop(between(0.1, 100), between(1.01, 20), between(1e4, 3e6), (V: number, k: number, ndm: number) => {
        const at = (v: number): number =>
          number(run('fill', { freeVolume: { value: v }, ndm: { value: ndm } }), 'doseVolume');
        return close(at(V * k), k * at(V));
      }),
    );
  });
  it('CP: the fill never rises with speed', () => {
    holds(
      prop(between(1e3, 3e6), between(1e3, 3e6), (a: number, b: number) => {
        const at = (ndm: number, key: string): number =>
          number(run('fill', { freeVolume: { value: 10 }, ndm: { value: ndm } }), key);
        const [slow, fast] = a < b ? [a, b] : [b, a];
        return ['shareLow', 'share', 'shareHigh', 'doseVolume'].every((key) => at(fast, key) <= at(slow, key));
      }),
    );
  });
  it('A: marks are the running sum of the travels, whatever the bore', () => {
    holds(
      prop(
        between(2, 60),
        fc.array(between(0.05, 20), { minLength: 1, maxLength: 6 }),
        (bore: number, volumes: number[]) => {
          const doses = volumes.map((value) => ({ value }));
          const { results } = run('syringe', { bore: { value: bore }, doses });
          const [travel, marks] = [results.travel!.value as number[], results.marks!.value as number[]];
          let sum = 0;
          return travel.every((t, i) => {
            sum += t;
            return close(marks[i]!, sum) && close(t * (Math.PI / 4) * bore ** 2, volumes[i]! * 1000);
          });
        },
      ),
    );
  });
  it('A: beads of all gaps and races hold the dose', () => {
    holds(
      prop(between(0.01, 50), fc.integer({ min: 3, max: 60 }), (dose: number, balls: number) => {
        const out = run('bead', { dose: { value: dose }, balls: { value: balls } });
        const ball = (Math.PI / 6) * number(out, 'beadDiameter') ** 3;
        return close(number(out, 'raceVolume') * 2 * balls, dose) && close((ball * 2 * balls) / 1000, dose);
      }),
    );
  });
});

describe('kinematics and viscosity', () => {
  it('standard kinematics: outer + inner = Z and cage = outer / Z for any geometry', () => {
    holds(
      prop(
        fc.integer({ min: 3, max: 15 }),
        between(30, 500),
        between(0.02, 0.2),
        between(0, 40),
        (Z: number, pitch: number, r: number, a: number) => {
          const out = run('frequencies', {
            balls: { value: Z },
            ball: { value: pitch * r },
            pitch: { value: pitch },
            angle: { value: a },
            speed: { value: 6000 },
          });
          return (
            close(number(out, 'outerOrder') + number(out, 'innerOrder'), Z) &&
            close(number(out, 'cageOrder'), number(out, 'outerOrder') / Z) &&
            close(number(out, 'outer'), number(out, 'outerOrder') * 100)
          );
        },
      ),
    );
  });
  it('ASTM D341: Walther returns both ends, and falls all the way between', () => {
    holds(
      prop(between(8, 1000), between(0.1, 0.5), between(41, 99), (nu40: number, ratio: number, temp: number) => {
        const nu100 = Math.max(2, nu40 * ratio);
        if (nu100 >= nu40) return true;
        const at = (t: number): number =>
          number(run('viscosity', { nu40: { value: nu40 }, nu100: { value: nu100 }, temp: { value: t } }), 'nu');
        return at(40) === nu40 && at(100) === nu100 && at(temp) < nu40 && at(temp) > nu100;
      }),
    );
  });
});

describe('uncertainty', () => {
  it('never shrinks when that of an input grows', () => {
    holds(
      prop(
        bearing,
        between(0, 0.2),
        between(1, 3),
        fc.constantFrom('bore', 'outside', 'width', 'mass'),
        (size: Record<string, number>, half: number, grow: number, key: string) => {
          const envelope = ((Math.PI / 4) * size.width! * (size.outside! ** 2 - size.bore! ** 2)) / 1000;
          const given = (h: number): Inputs => ({
            bore: { value: size.bore!, plusMinus: 0.1 },
            outside: { value: size.outside!, plusMinus: 0.1 },
            width: { value: size.width!, plusMinus: 0.1 },
            mass: { value: envelope * 7.81 * 0.69, plusMinus: 1 },
            massIs: 'steel',
            [key]: {
              value: key === 'mass' ? envelope * 7.81 * 0.69 : size[key]!,
              plusMinus: h,
            },
          });
          const width = (h: number): number => run('free-volume', given(h)).results.volume!.plusMinus as number;
          return width(half * grow) >= width(half) - 1e-12;
        },
      ),
    );
  });
  it('the same for the syringe', () => {
    holds(
      prop(between(5, 30), between(0, 0.3), between(1, 4), (bore: number, half: number, grow: number) => {
        const at = (h: number): number[] =>
          run('syringe', { bore: { value: bore, plusMinus: h }, doses: [{ value: 1 }, { value: 2 }] }).results.marks!
            .plusMinus as number[];
        const [small, large] = [at(half), at(half * grow)];
        return large.every((v, i) => v >= small[i]! - 1e-12);
      }),
    );
  });
});

it('the shell edge never throws: it answers with 0, or with 2 and one line', () => {
  const word = fc.oneof(
    fc.constantFrom(...Object.keys(calculators), '--json', 'bore=40', 'outside=68mm', 'doses=1ml,1ml', 'findings=none'),
    fc
      .tuple(
        fc.constantFrom('bore', 'doses', 'speed', 'ndm', '__proto__', 'constructor', 'old', 'temps'),
        fc.string({ maxLength: 12 }),
      )
      .map(([key, typed]) => `${key}=${typed}`),
    fc.string({ maxLength: 12 }),
  );
  fc.assert(
    fc.property(fc.array(word, { maxLength: 6 }), (words) => {
      const { code, stderr, stdout } = runCalc(words, tables);
      return code === 0 ? stdout !== '' && stderr === '' : code === 2 && stdout === '' && stderr.trim() !== '';
    }),
    { numRuns: size(700, 100_000) },
  );
});

it('a refusal is always one sentence that names a key', () => {
  const names = Object.keys(calculators);
  for (const name of names) {
    expect(() => run(name, {})).toThrow(/missing|Give|type/);
    expect(() => run(name, { nonsense: true })).toThrow(/no input "nonsense"/);
  }
});
