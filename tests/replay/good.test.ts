/**
 * The shipped practice job through the real program, against figures worked out by hand. Each figure has its formula
 * and source; tags: P published, M from memory of the named source, CP common practice without source, A arithmetic.
 * Nothing here is computed by the program's own code.
 */
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

beforeAll(async () => {
  const { code, out, err } = await replayed(goodFile, '--json');
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
    // 6207 is 35 x 72 x 17 and 6204 is 20 x 47 x 14 mm (ISO 15, P). 14000 x 53.5 and x 33.5; 14000 x 35 and x 20.
    expect(of('ndm', 'a')).toBe(749_000);
    expect(of('ndm', 'b')).toBe(469_000);
    expect(of('nd', 'a')).toBe(490_000);
    expect(of('nd', 'b')).toBe(280_000);
    // Above 500 000 is high (P: a grease maker's tip sheet).
    expect([of('speed_band', 'a'), of('speed_band', 'b')]).toEqual(['high', 'medium']);
  });

  it('free volume pi/4 B (D2 - d2) - m/rho (M), within the 10 % that a catalogue mass allows', () => {
    // 6207: 0.785398 x 17 x (5184 - 1225) = 52 859 mm3; 288 g (M) / 7.81 g/cm3 (P) = 36.876; rest 15.983 mL.
    near('volume_envelope', 'a', 15.983);
    // 6204: 0.785398 x 14 x (2209 - 400) = 19 891 mm3; 106 / 7.81 = 13.572; rest 6.319 mL.
    near('volume_envelope', 'b', 6.319);
    // Cross-check V = 61 W with W in kg (P; K = 61 from memory): 61 x 0.288 = 17.568; 61 x 0.106 = 6.466.
    near('volume_second', 'a', 17.568);
    near('volume_second', 'b', 6.466);
  });

  it('room between the seals (CP: usual depths of a seal; shoulders, corners M)', () => {
    // 6207: ring from 35 + 0.325 x 37 = 47.025 to 72 - 0.245 x 37 = 62.935 mm, 1374.0 mm2; two seals of 0.6 + 0.04 x 17 =
    // 1.28 mm: 3.517 mL; corners 0.25 x 1.105^2 x 2 pi x 107 = 0.205 mL; moulded cage 6 % of 15.983 = 0.959 mL; rest 11.302 mL.
    near('sealed_room', 'a', 11.302);
    near('free_volume', 'a', 11.302);
    // 6204: ring from 28.775 to 40.385 mm, 630.6 mm2; 2 x 1.16 mm: 1.463 mL; corners 0.087; cage 0.379; rest 4.390 mL.
    near('sealed_room', 'b', 4.39);
    // A spare of it was weighed, (110.1 - 106.2) g / 0.85 g/mL = 4.588 mL: within a tenth of that (A).
    near('free_volume', 'b', 4.5882);
    expect(Math.abs(4.5882 / 4.39 - 1)).toBeLessThan(0.1);
  });

  it('dose: 20 % at high speed, 30 % below that (CP)', () => {
    // 11.302 x 0.20 = 2.2604, dosed as 2.3 mL; 4.5882 x 0.30 = 1.3765, dosed as 1.4 mL (A).
    near('dose_due', 'a', 2.2604);
    near('dose_due', 'b', 1.3765);
    expect([of('dose_set', 'a'), of('dose_set', 'b')]).toEqual([2.3, 1.4]);
    // By weight at 0.90 g/mL: 2.07 g and 1.26 g (A).
    near('dose_mass', 'a', 2.07, 1e-9);
    near('dose_mass', 'b', 1.26, 1e-9);
    // The band stays under 30 % (CP; M: 15 +- 2 % for spindle bearings).
    expect(of('share_low', 'a')).toBeGreaterThanOrEqual(13);
    expect(of('share_low', 'a')).toBeLessThanOrEqual(15);
    expect(of('share_high', 'a')).toBeLessThanOrEqual(30);
  });

  it('residue: a block of 13 x 11 x 9 mm and one of 12 x 9 x 8 mm (A), the dose somewhat more than that', () => {
    near('residue_volume', 'a', 1.287, 1e-9);
    near('residue_volume', 'b', 0.864, 1e-9);
    near('residue_ratio', 'a', 2.3 / 1.287, 1e-9);
    near('residue_ratio', 'b', 1.4 / 0.864, 1e-9);
    expect([of('residue_verdict', 'a'), of('residue_verdict', 'b')]).toEqual(['plausible', 'plausible']);
  });

  it('marks: travel = 1000 V / (pi/4 x 12.4^2) mm (A)', () => {
    // pi/4 x 153.76 = 120.763 mm2; 1 mL = 8.2807 mm; 2.3 mL = 19.046 mm; 1.4 mL = 11.593 mm, together 30.639 mm.
    near('travel_per_ml', 'job', 8.2807);
    expect(of('syringe_travel')).toEqual([expect.closeTo(19.046, 3), expect.closeTo(11.593, 3)]);
    expect(of('syringe_marks')).toEqual([expect.closeTo(19.046, 3), expect.closeTo(30.639, 3)]);
    // 0.2 mL in the tip is pressed out first: 1.656 mm.
    near('prime_travel', 'job', 1.6561);
  });

  it('what went in, by weight (A)', () => {
    // (14.10 - 12.05) / 0.90 = 2.27778 mL, - 0.97 %; (12.05 - 10.80) / 0.90 = 1.38889 mL, - 0.79 %.
    near('dose_given', 'a', 2.27778);
    near('dose_given', 'b', 1.38889);
    near('dose_error', 'a', -0.96618);
    near('dose_error', 'b', -0.79365);
  });

  it('viscosity at 62 C by ASTM D341 and kappa by ISO 281 cl. 9.3 (M)', () => {
    // W = lg lg(nu + 0.7): 0.149198 at lg T = 2.495753 (25 mm2/s, 40 C) and -0.121550 at 2.571883 (5 mm2/s, 100 C).
    // B = 0.270748 / 0.076130 = 3.55638; at 62 C lg T = 2.525239, W = 0.044337; nu = 10^10^W - 0.7 = 12.108.
    near('nu', 'a', 12.108);
    // nu1 = 4500 / sqrt(14000 x 53.5) = 5.1996; 4500 / sqrt(14000 x 33.5) = 6.5709 mm2/s.
    near('nu1', 'a', 5.1996);
    near('nu1', 'b', 6.5709);
    near('kappa', 'a', 2.3286);
    near('kappa', 'b', 1.8426);
  });

  it('run-in stages from a tenth of the top speed by tenths (P)', () => {
    expect(of('stages')).toEqual([1400, 2800, 4200, 5600, 7000, 8400, 9800, 11_200, 12_600, 14_000]);
    expect(of('run_in_says')).toBe('complete');
  });

  it('tones: standard kinematics, inner ring turns at 14 000 rpm = 233.333 Hz', () => {
    // a: g = 11.1/53.5 = 0.207477. 9(1-g)/2 = 3.56636, 9(1+g)/2 = 5.43364, 53.5(1-g2)/22.2 = 2.30617, (1-g)/2 = 0.39626.
    near('order_outer', 'a', 3.56636);
    near('order_inner', 'a', 5.43364);
    near('order_ball', 'a', 2.30617);
    near('order_cage', 'a', 0.39626);
    near('freq_outer', 'a', 832.15);
    near('freq_inner', 'a', 1267.85);
    near('freq_ball', 'a', 538.11);
    near('freq_cage', 'a', 92.461);
    // Of any geometry: outer + inner = Z, cage = outer / Z.
    expect((of('order_outer', 'b') as number) + (of('order_inner', 'b') as number)).toBeCloseTo(8, 9);
    near('order_cage', 'b', (of('order_outer', 'b') as number) / 8, 1e-9);
  });

  it('vapour: 30 mL of n-heptane in 8 x 6 x 3 m', () => {
    // 1 mL in 1 m3 of still air is 167 ppm (A): 30 x 167 / 144 = 34.8 ppm, under the 85 ppm of NIOSH (P).
    near('vapour_ppm', 'job', 34.8, 2e-3);
  });

  it('verdicts', () => {
    // Meter and ring proven, every ball silent (P: silicon nitride insulates; 13 of the trade's test order).
    expect([of('ball_verdict', 'a'), of('ball_verdict', 'b')]).toEqual(['ceramic', 'ceramic']);
    // n-Heptane: no rubber is soaked (CP); PEEK and steel 1 stand it and the isopropanol of the rinse (M).
    for (const seal of ['a.front', 'a.back', 'b.front', 'b.back']) expect(of('seal_soak', seal)).toBe('never');
    expect([of('cage_soak', 'a'), of('cage_rinse', 'a')]).toEqual(['allowed', 'allowed']);
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
