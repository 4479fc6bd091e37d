/**
 * The shipped practice job through the real program, against figures worked out by hand. Each figure has its formula
 * and source; tags: P published, M from memory of the named source, CP common practice without source, A arithmetic.
 * Nothing here is computed by the program's own code.
 */
// @ts-nocheck

import { beforeAll, describe, expect, it } from 'vitest';
import { goodFile, replayed } from './program.js';

interface Figure {
  readonly key: string;
  readonly place: string;
  readonly value: unknown;
  readonly plusMinus?: unknown;
}
const figures = new Map<string, Figure>();
let sheet: Record<string, unknown> = {};

beforeAll(() => {
  const { code, out, err } = replayed(goodFile, '--json');
  expect(err).toBe('');
  expect(code).toBe(0);
  sheet = JSON.parse(out) as Record<string, unknown>;
  const collect = (x: unknown): void => {
    if (Array.isArray(x)) for (const y of x) collect(y);
    else if (typeof x === 'object' && x !== null) {
      const f = x as Figure;
      if ('key' in f && 'place' in f && 'value' in f) figures.set(`${f.key}@${f.place}`, f);
      for (const y of Object.values(x)) collect(y);
    }
  };
  collect(sheet);
});

const of = (key: string, place = 'job'): unknown => figures.get(`${key}@${place}`)?.value;
/** Within 0.1 % of a figure worked out on paper. */
const near = (key: string, place: string, by: number, share = 1e-3): void => {
  const value = of(key, place);
  expect(value, `${key} at ${place}`).toBeTypeOf('number');
  expect(Math.abs((value as number) / by - 1), `${key} at ${place}: ${String(value)}`).toBeLessThan(share);
};

describe('the good practice job, by hand', () => {
  it('speed factor n (d+D)/2, and n d, which is another number (A)', () => {
    // 6206 is 30 x 62 x 16 and 6205 is 25 x 52 x 15 mm (ISO 15, P). 14000 x 46 and x 38.5; 14000 x 30 and x 25.
    expect(of('ndm', 'a')).toBe(644_000);
    expect(of('ndm', 'b')).toBe(539_000);
    expect(of('nd', 'a')).toBe(420_000);
    expect(of('nd', 'b')).toBe(350_000);
    // Above 500 000 is high (P: a grease maker's tip sheet).
    expect([of('speed_band', 'a'), of('speed_band', 'b')]).toEqual(['high', 'high']);
  });

  it('free volume pi/4 B (D2 - d2) - m/rho (M), within the 10 % that a catalogue mass allows', () => {
    // 6206: 0.785398 x 16 x (3844 - 900) = 36 995 mm3; 199 g (M) / 7.81 g/cm3 (P) = 25.48; rest 11.515 mL.
    near('volume_envelope', 'a', 11.515);
    // 6205: 0.785398 x 15 x (2704 - 625) = 24 492 mm3; 128 / 7.81 = 16.389; rest 8.103 mL.
    near('volume_envelope', 'b', 8.103);
    // Cross-check V = 61 W with W in kg (P; K = 61 from memory): 61 x 0.199 = 12.139; 61 x 0.128 = 7.808.
    near('volume_second', 'a', 12.139);
    near('volume_second', 'b', 7.808);
    // The second one was measured: 6.5 mL.
    expect(of('free_volume', 'b')).toBe(6.5);
  });

  it('dose: 15 % at high speed (CP)', () => {
    // 6.5 x 0.15 = 0.975, dosed as 1 mL (CP). 11.515 x 0.15 = 1.7273, dosed as 1.7 mL.
    near('dose_due', 'b', 0.975, 1e-9);
    near('dose_due', 'a', 1.7273);
    expect([of('dose_set', 'a'), of('dose_set', 'b')]).toEqual([1.7, 1]);
    // By weight at 0.90 g/mL: 1.53 g and 0.9 g (A).
    near('dose_mass', 'a', 1.53, 1e-9);
    near('dose_mass', 'b', 0.9, 1e-9);
    // The band holds 15 % and stays under 30 % (CP; M: 15 +- 2 % for spindle bearings).
    expect(of('share_low', 'a')).toBeGreaterThanOrEqual(13);
    expect(of('share_low', 'a')).toBeLessThanOrEqual(15);
    expect(of('share_high', 'a')).toBeLessThanOrEqual(30);
  });

  it('residue: a block of 12 x 10 x 7 mm and one of 10 x 10 x 5 mm (A), the dose about twice that (CP)', () => {
    near('residue_volume', 'a', 0.84, 1e-9);
    near('residue_volume', 'b', 0.5, 1e-9);
    near('residue_ratio', 'a', 1.7 / 0.84, 1e-9);
    near('residue_ratio', 'b', 2, 1e-9);
    expect([of('residue_verdict', 'a'), of('residue_verdict', 'b')]).toEqual(['plausible', 'plausible']);
  });

  it('marks: travel = 1000 V / (pi/4 x 12.4^2) mm (A)', () => {
    // pi/4 x 153.76 = 120.763 mm2; 1 mL = 8.2807 mm; 1.7 mL = 14.077 mm; together 2.7 mL = 22.358 mm.
    near('travel_per_ml', 'job', 8.2807);
    expect(of('syringe_travel')).toEqual([expect.closeTo(14.077, 3), expect.closeTo(8.281, 3)]);
    expect(of('syringe_marks')).toEqual([expect.closeTo(14.077, 3), expect.closeTo(22.358, 3)]);
    // 0.2 mL in the tip is pressed out first: 1.656 mm.
    near('prime_travel', 'job', 1.6561);
  });

  it('what went in, by weight (A)', () => {
    // (12.60 - 11.05) / 0.90 = 1.7222 mL, + 1.31 %; (11.05 - 10.16) / 0.90 = 0.98889 mL, - 1.11 %.
    near('dose_given', 'a', 1.7222);
    near('dose_given', 'b', 0.98889);
    near('dose_error', 'a', 1.3072);
    near('dose_error', 'b', -1.1111);
  });

  it('viscosity at 62 C by ASTM D341 and kappa by ISO 281 cl. 9.3 (M)', () => {
    // W = lg lg(nu + 0.7): 0.149198 at lg T = 2.495753 (25 mm2/s, 40 C) and -0.121550 at 2.571883 (5 mm2/s, 100 C).
    // B = 0.270748 / 0.076130 = 3.55638; at 62 C lg T = 2.525239, W = 0.044337; nu = 10^10^W - 0.7 = 12.108.
    near('nu', 'a', 12.108);
    // nu1 = 4500 / sqrt(14000 x 46) = 5.6075; 4500 / sqrt(14000 x 38.5) = 6.1294 mm2/s.
    near('nu1', 'a', 5.6075);
    near('nu1', 'b', 6.1294);
    near('kappa', 'a', 2.1592);
    near('kappa', 'b', 1.9754);
  });

  it('run-in stages from a tenth of the top speed by tenths (P)', () => {
    expect(of('stages')).toEqual([1400, 2800, 4200, 5600, 7000, 8400, 9800, 11_200, 12_600, 14_000]);
    expect(of('run_in_says')).toBe('complete');
  });

  it('tones: standard kinematics, inner ring turns at 14 000 rpm = 233.333 Hz', () => {
    // a: g = 9.5/46 = 0.206522. 9(1-g)/2 = 3.57065, 9(1+g)/2 = 5.42935, 46(1-g2)/19 = 2.31779, (1-g)/2 = 0.39674.
    near('order_outer', 'a', 3.57065);
    near('order_inner', 'a', 5.42935);
    near('order_ball', 'a', 2.31779);
    near('order_cage', 'a', 0.39674);
    near('freq_outer', 'a', 833.15);
    near('freq_inner', 'a', 1266.85);
    near('freq_ball', 'a', 540.82);
    near('freq_cage', 'a', 92.572);
    // Of any geometry: outer + inner = Z, cage = outer / Z.
    expect((of('order_outer', 'b') as number) + (of('order_inner', 'b') as number)).toBeCloseTo(9, 9);
    near('order_cage', 'b', (of('order_outer', 'b') as number) / 9, 1e-9);
  });

  it('vapour: 30 mL of acetone in 8 x 6 x 3 m', () => {
    // 1 mL in 1 m3 of still air is 333 ppm (A): 30 x 333 / 144 = 69.4 ppm, under the 250 ppm of NIOSH (P).
    near('vapour_ppm', 'job', 69.4, 2e-3);
  });

  it('verdicts', () => {
    // Meter and ring proven, every ball silent (P: silicon nitride insulates; 13 of the trade's test order).
    expect([of('ball_verdict', 'a'), of('ball_verdict', 'b')]).toEqual(['ceramic', 'ceramic']);
    // Acetone: NBR 4 with published support, never soaked; PA66 2 and steel 1 stand it (CP).
    for (const seal of ['a.front', 'a.back', 'b.front', 'b.back']) expect(of('seal_soak', seal)).toBe('never');
    expect(of('cage_soak', 'a')).toBe('allowed');
    // Lithium with lithium complex: compatible (P: US Bureau of Reclamation, FIST 2-4, Table 2).
    expect(of('grease_overall', 'a')).toBe('ok');
    expect(of('first_advice', 'a')).toBe('save');
    expect(of('second_advice', 'b')).toBe('save');
  });

  it('is finished, says that it is invented, and carries every signature', () => {
    expect(sheet.head).toMatchObject({ finished: true, practice: expect.stringMatching(/invented/) });
    expect((sheet.signatures as { initials: string }[]).every((s) => s.initials === 'MN')).toBe(true);
    expect(sheet.remedies).toEqual([]);
    expect(JSON.stringify(sheet)).not.toMatch(/not known/);
  });
});
