import { describe, expect, it } from 'vitest';
import { ballVolume, envelopeOf } from '../../src/calc/free-volume.js';
import { calc, off, refusal, tables, value } from '../calc/support.js';

describe('free volume (M formula; boundary dimensions ISO 15; masses M, physical within 10 %)', () => {
  it.each([
    ['6000', 10, 26, 8, 19, 1.186],
    ['6205', 25, 52, 15, 128, 8.103],
    ['6208', 40, 80, 18, 366, 20.995],
  ])('A: %s: %s x %s x %s mm, %s g -> %s mL at 7.81 g/mL', (id, d, D, B, m, V) => {
    const line = `free-volume bore=${d} outside=${D} width=${B} mass=${m}`;
    expect(off(value(line, 'volume'), V)).toBeLessThan(0.001);
    expect(off(value(line, 'envelope'), (Math.PI / 4) * B * (D * D - d * d) * 1e-3)).toBeLessThan(1e-12);
    const row = tables['iso15-sizes']!.rows.find((r) => r.id === id);
    expect(row).toMatchObject({ bore: d, outside: D, width: B, mass: m });
  });
  it.each([
    ['6205', 25, 52, 15, 128, 7.81],
    ['6208', 40, 80, 18, 366, 22.33],
  ])('M: V = 61 W: %s -> %s', (_id, d, D, B, m, V) => {
    const line = `free-volume bore=${d} outside=${D} width=${B} mass=${m}`;
    expect(off(value(line, 'secondEstimate'), V)).toBeLessThan(0.001);
    expect(Math.abs(value(line, 'disagreement'))).toBeLessThan(10);
  });
  it('P: densities lie in the published spans', () => {
    const at = (id: string) => tables.densities!.rows.find((r) => r.id === id)!;
    const span = (id: string) => [
      Number(at(id).value) - Number(at(id).plus_minus),
      Number(at(id).value) + Number(at(id).plus_minus),
    ];
    expect(at('steel').value).toBe(7.81);
    expect(span('steel')[1]).toBeCloseTo(7.83, 9);
    expect(span('silicon-nitride')[0]).toBeCloseTo(3.11, 9);
    expect(span('silicon-nitride')[1]).toBeCloseTo(3.29, 9);
    expect([at('pa66').value, at('peek').value]).toEqual([1.14, 1.32]);
    expect(span('grease')[0]).toBeCloseTo(0.85, 9);
    expect(span('grease')[1]).toBeCloseTo(0.95, 9);
  });
});

describe('the hybrid trap (A on P densities)', () => {
  const steelMass = 366;
  const balls = ballVolume(9, 11.906);
  const hybridMass = steelMass - balls * (7.81 - 3.2);
  const size = 'bore=40 outside=80 width=18';
  it('over steel density a hybrid overstates the volume by over 20 %', () => {
    const wrong = envelopeOf(40, 80, 18) - hybridMass / 7.81;
    expect(wrong / 20.995 - 1).toBeGreaterThan(0.2);
  });
  it('split into rings and balls it equals the all-steel bearing', () => {
    const hybrid = `free-volume ${size} mass=${hybridMass} massIs=hybrid balls=9 ball=11.906mm`;
    const steel = `free-volume ${size} mass=${steelMass} massIs=steel`;
    expect(off(value(hybrid, 'volume'), value(steel, 'volume'))).toBeLessThan(1e-9);
    expect(off(value(hybrid, 'secondEstimate'), value(steel, 'secondEstimate'))).toBeLessThan(1e-9);
  });
  it('refuses or warns wherever the mass may be that of the hybrid', () => {
    expect(refusal(`free-volume ${size} mass=${hybridMass} ballMaterial=ceramic`)).toMatch(/^massIs: /);
    expect(refusal(`free-volume ${size} mass=${hybridMass} massIs=hybrid`)).toMatch(/^balls: /);
    expect(refusal(`free-volume ${size} mass=${hybridMass} massIs=hybrid ballMaterial=steel`)).toMatch(/^massIs: /);
    expect(calc(`free-volume ${size} mass=${hybridMass} massIs=steel`).warnings.join()).toMatch(/hybrid's mass/);
  });
});

describe('every size of the table (M) is physically possible', () => {
  it.each(tables['iso15-sizes']!.rows.filter((r) => r.mass !== null).map((r) => [r.id, r] as const))('%s', (_id, r) => {
    const line = `free-volume bore=${r.bore} outside=${r.outside} width=${r.width} mass=${r.mass} massIs=steel`;
    const share = value(line, 'freeShare');
    expect(share).toBeGreaterThan(24);
    expect(share).toBeLessThan(36);
    expect(Math.abs(value(line, 'disagreement'))).toBeLessThan(26);
    if (r.balls === null) return;
    // Between a third and two thirds of the space between the rings, and round the pitch circle.
    expect(Number(r.ball) / ((Number(r.outside) - Number(r.bore)) / 2)).toBeGreaterThan(0.5);
    expect(Number(r.ball) / ((Number(r.outside) - Number(r.bore)) / 2)).toBeLessThan(0.7);
    expect(Number(r.balls) * Number(r.ball)).toBeLessThan((Math.PI * (Number(r.outside) + Number(r.bore))) / 2);
  });
});

describe('common practice rows', () => {
  it('CP: a measured 6.5 mL at 15 % gives 0.975 mL', () => {
    expect(value('fill freeVolume=6.5ml share=15%', 'doseVolume')).toBeCloseTo(0.975, 12);
    expect(value('fill freeVolume=6.5ml ndm=1080000', 'doseVolume')).toBeCloseTo(0.975, 12);
  });
  it('CP: a residue block of 10 x 10 x 5 mm is 0.5 mL, and a dose of twice that is plausible', () => {
    const run = calc('residue length=10 width=10 height=5 dose=1ml');
    expect(run.results.volume?.value).toBeCloseTo(0.5, 12);
    expect(run.results.ratio?.value).toBeCloseTo(2, 12);
    expect(run.results.verdict?.value).toBe('plausible');
  });
});
