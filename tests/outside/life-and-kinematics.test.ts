import { describe, expect, it } from 'vitest';
import { calc, list, off, refusal, tables, value, word } from '../calc/support.js';

describe('grease life of sealed bearings, NSK (coefficients M)', () => {
  it.each([
    ['general', 0.5, 70, 8128],
    ['general', 1, 70, 1072],
    ['wide-range', 0.5, 70, 23_442],
    ['wide-range', 1, 130, 1445],
  ])('A: %s, x %s, %s C -> %s h', (type, x, T, hours) => {
    expect(off(value(`grease-life type=${type} speedRatio=${x} temp=${T}`, 'hours'), hours)).toBeLessThan(0.001);
  });
  it('M: x below 0.25 and T below 70 give no more; above x = 1 and 110 or 130 C it refuses', () => {
    const base = value('grease-life type=general speedRatio=0.25 temp=70', 'hours');
    expect(value('grease-life type=general speedRatio=0.1 temp=40', 'hours')).toBe(base);
    expect(refusal('grease-life type=general speedRatio=1.01 temp=70')).toMatch(/^speedRatio: /);
    expect(refusal('grease-life type=general speedRatio=0.5 temp=111')).toMatch(/^temp: /);
    expect(refusal('grease-life type=wide-range speedRatio=0.5 temp=131')).toMatch(/^temp: /);
    expect(value('grease-life type=wide-range speedRatio=0.5 temp=111', 'hours')).toBeGreaterThan(0);
  });
  it('a hand-regreased bearing is inspected earlier, and earlier still with doubts', () => {
    const line = 'inspection type=general speedRatio=0.5 temp=70 hoursPerDay=8';
    expect(value(line, 'hours')).toBeLessThan(8128 / 2);
    expect(value(`${line} doubts=seal-left-in`, 'hours')).toBeLessThan(value(line, 'hours'));
    expect(value(line, 'hours')).toBeGreaterThan(8128 / 4 - 100);
    expect(value(line, 'days')).toBeLessThanOrEqual(value(line, 'hours') / 8);
    expect(value(line, 'days')).toBeGreaterThan(value(line, 'hours') / 8 - 10);
  });
  // By hand: 5500 / 2^((T - 65) / 14): 79 C 2750, 93 C 1375, 107 C 687.5.
  it.each([
    [65, 5500],
    [79, 2750],
    [93, 1375],
    [107, 687.5],
  ])(
    'P: MIL-HDBK-1164, 11.6.4 d: halved each 14 K above 65 C: %s C -> %s h, and that is what to plan with',
    (T, hours) => {
      expect(off(value(`hot-interval hours=5500 temp=${T}`, 'handbook'), hours)).toBeLessThan(1e-9);
      expect(off(value(`hot-interval hours=5500 temp=${T}`, 'plan'), hours)).toBeLessThan(1e-9);
    },
  );
  it('P: MIL-HDBK-1164: not beyond 48 months, 35 064 h', () => {
    expect(value('hot-interval hours=100000 temp=40', 'handbook')).toBeCloseTo(35_064, 6);
  });
  it.each([
    [80, 5500],
    [90, 3667],
    [100, 2444],
  ])('M, a relubrication example, document not noted: %s C -> %s h', (T, hours) => {
    expect(off(value(`hot-interval hours=5500 temp=${T}`, 'hours'), hours)).toBeLessThan(0.001);
  });
});

describe('defect frequencies (standard kinematics)', () => {
  it.each([
    [8, 10, 50, 0, 3.2, 4.8, 2.4, 0.4],
    [13, 9.525, 59.7, 15, 5.49828, 7.50172, 3.05943, 0.42294],
  ])('A: Z %s, Dw %s, Dpw %s, %s deg', (balls, ball, pitch, angle, outer, inner, spin, cage) => {
    const { results } = calc(`frequencies balls=${balls} ball=${ball} pitch=${pitch} angle=${angle} speed=6000`);
    const order = (key: string): number => Number(results[`${key}Order`]?.value);
    expect(order('outer')).toBeCloseTo(outer, 4);
    expect(order('inner')).toBeCloseTo(inner, 4);
    expect(order('ballSpin')).toBeCloseTo(spin, 4);
    expect(order('cage')).toBeCloseTo(cage, 4);
    expect(Number(results.outer?.value)).toBeCloseTo(order('outer') * 100, 6);
  });
  it('A: which way slip moves them, and which ball spin it counts', () => {
    // By hand, Z 9, g 0.2034, cage 2 % slow: cage 0.3983 -> 0.3903, outer 3.585 -> 3.513 (lower), inner 5.415 -> 5.487 (higher).
    const order = (key: string): number =>
      Number(calc('frequencies balls=9 ball=10.17 pitch=50 speed=6000').results[`${key}Order`]?.value);
    expect(order('cage')).toBeCloseTo(0.3983, 4);
    expect(9 * 0.98 * 0.3983).toBeLessThan(order('outer'));
    expect(9 * (1 - 0.98 * 0.3983)).toBeGreaterThan(order('inner'));
    expect(calc('frequencies balls=8 ball=10 pitch=50 speed=6000').warnings.join()).toMatch(
      /1 to 3 % lower or higher: slip and axial load shift it.*both raceways/s,
    );
  });
});

describe('run-in', () => {
  it('P: NSK technical talk: begin at a tenth, step a tenth, up to 10 h, wanted above n dm 500 000', () => {
    expect(list('run-in speed=12000', 'stages')).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map((k) => k * 1200));
    expect(value('run-in speed=12000', 'longestMinutes')).toBe(600);
    expect(word('run-in speed=12000 ndm=500001', 'need')).toMatch(/^yes/);
    expect(word('run-in speed=12000 ndm=499999', 'need')).toMatch(/^not by n dm/);
  });
  it('M: precision-bearing catalogue, p. E40: 70 C at most, 35 to 40 C ideal at full speed', () => {
    expect(value('run-in speed=12000', 'limit')).toBe(70);
    expect([value('run-in speed=12000', 'idealLow'), value('run-in speed=12000', 'idealHigh')]).toEqual([35, 40]);
    expect(refusal('run-in-step stages=1200 ambient=20 limit=71')).toMatch(/^limit: /);
  });
  it('M: precision-bearing catalogue, p. E40: short bursts of 30 s with five times as long to rest', () => {
    const row = (id: string): number => Number(tables['run-in-rules']!.rows.find((r) => r.id === id)!.value);
    expect(row('short-burst-rest')).toBe(5 * row('short-burst-run'));
    expect(row('short-burst-run')).toBe(0.5);
  });
});
