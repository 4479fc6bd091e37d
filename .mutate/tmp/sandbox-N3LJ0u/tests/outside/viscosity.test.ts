// @ts-nocheck
import { describe, expect, it } from 'vitest';
import { calc, list, off, refusal, tables, value, word } from '../calc/support.js';

describe('ISO 281:2007 cl. 9.3 required viscosity (M formula, from memory; A rows)', () => {
  it.each([
    [500, 60, 33.419],
    [1500, 60, 15],
    [12000, 60, 5.3033],
    [1000, 60, 18.371],
    [999.99, 60, 18.799],
  ])('A: n %s, Dpw %s -> %s mm2/s', (n, pitch, expected) => {
    expect(off(value(`required-viscosity speed=${n} pitch=${pitch}`, 'nu1'), expected)).toBeLessThan(0.001);
  });
  it('A: 1500 rpm and 60 mm give 15 exactly', () => {
    expect(value('required-viscosity speed=1500 pitch=60', 'nu1')).toBeCloseTo(15, 12);
  });
  it('M: the branches do not meet at 1000 rpm, and the calculator says so near it', () => {
    for (const n of [960, 1000, 1040])
      expect(calc(`required-viscosity speed=${n} pitch=60`).warnings.join()).toMatch(/step at 1000 rpm/);
    expect(calc('required-viscosity speed=1200 pitch=60').warnings).toEqual([]);
  });
});

describe('ASTM D341 Walther (M formula; A rows; viscosity pairs P: Schaeffler high-speed greases, VG 100 typical)', () => {
  it.each([
    [25, 5, 9.732],
    [55, 9, 19.081],
    [100, 11.4, 27.68],
  ])('A: %s / %s mm2/s at 40 / 100 C -> %s at 70 C', (nu40, nu100, expected) => {
    expect(off(value(`viscosity nu40=${nu40} nu100=${nu100} temp=70`, 'nu'), expected)).toBeLessThan(0.001);
  });
  it('A: returns both given ends exactly', () => {
    expect(value('viscosity nu40=55 nu100=9 temp=40', 'nu')).toBe(55);
    expect(value('viscosity nu40=55 nu100=9 temp=100', 'nu')).toBe(9);
  });
  // Dynamic viscosities measured at 30, 60 and 100 C; density 0.88 (1 - 0.00065 (T - 15)) is the converter's assumption.
  it.each([
    [153, 34, 9.1],
    [250, 50.5, 12.6],
  ])(
    'P: Stachowiak & Batchelor, Engineering Tribology, Table 2.3: %s / %s / %s mPa.s, within 3 %%',
    (at30, at60, at100) => {
      const density = (t: number): number => 0.88 * (1 - 0.00065 * (t - 15));
      const line = `viscosity nuA=${at30 / density(30)} tA=30 nuB=${at100 / density(100)} tB=100 temp=60`;
      expect(off(value(line, 'nu'), at60 / density(60))).toBeLessThan(0.03);
    },
  );
  it('P: the same, already converted', () => {
    expect(off(value('viscosity nuA=175.58 tA=30 nuB=10.95 tB=100 temp=60', 'nu'), 39.8)).toBeLessThan(0.03);
    expect(off(value('viscosity nuA=286.89 tA=30 nuB=15.16 tB=100 temp=60', 'nu'), 59.12)).toBeLessThan(0.03);
  });
  it('never extrapolates silently, and refuses far outside', () => {
    expect(calc('viscosity nu40=25 nu100=5 temp=110').warnings.join()).toMatch(/extrapolated/);
    expect(refusal('viscosity nu40=25 nu100=5 temp=150')).toMatch(/^temp: .*from 0 to 140/);
    expect(refusal('viscosity nu40=5 nu100=25 temp=70')).toMatch(/thinner at the higher/);
    expect(refusal('viscosity nu40=6 nu100=2 temp=130')).toMatch(/thinner than 2 mm2/);
  });
});

describe('a pair of viscosities that no oil has (nu100 / nu40 is 0.1 to 0.25, silicones about 0.4: usual, from memory)', () => {
  it('above a half and below a hundredth is refused, above 0.3 warned of', () => {
    expect(refusal('viscosity-ratio nu40=25 nu100=15 temp=90 speed=12000 pitch=54')).toMatch(/^nu100: .*here 0.6/);
    expect(refusal('viscosity nu40=100 nu100=80 temp=70')).toMatch(/^nu100: /);
    expect(refusal('viscosity nu40=50000 nu100=2 temp=0')).toMatch(/^nu100: .*thins that much/);
    expect(calc('viscosity nu40=25 nu100=8 temp=70').warnings.join()).toMatch(/keep 32 %/);
    expect(calc('viscosity nu40=25 nu100=7.5 temp=70').warnings).toEqual([]);
    expect(calc('viscosity nu40=25 nu100=12.5 temp=70').warnings.join()).toMatch(/keep 50 %/);
    expect(refusal('viscosity nu40=25 nu100=12.6 temp=70')).toMatch(/^nu100: /);
  });
  it('is held to the same wherever the two temperatures lie', () => {
    expect(refusal('viscosity nuA=30 tA=30 nuB=20 tB=90 temp=60')).toMatch(/^nuB: /);
  });
  it('A: with the real 5 mm2/s for a slip of 15 the ratio is 1.09', () => {
    expect(off(value('viscosity-ratio nu40=25 nu100=5 temp=90 speed=12000 pitch=54', 'kappa'), 1.09)).toBeLessThan(
      0.005,
    );
  });
  it('what no longer flows has no figure', () => {
    expect(refusal('viscosity nu40=1500 nu100=20 temp=0')).toMatch(/^temp: .*1 000 000/);
  });
});

describe('viscosity ratio (M: life curves cover 0.1 to 4)', () => {
  it('A: kappa is the quotient of both rows', () => {
    expect(
      off(value('viscosity-ratio nu40=25 nu100=5 temp=70 speed=12000 pitch=60', 'kappa'), 9.732 / 5.3033),
    ).toBeLessThan(0.001);
  });
  it('A: at the inner raceway, 10 K hotter: a reviewer’s 1.65 where the outer ring gives 2.16', () => {
    // By hand: 25 / 5 mm2/s at 62 and 72 C are 12.108 and 9.25, at 100 C 5 / 5.608 = 0.892; nu1 4500 / sqrt(14000 x 46) = 5.608.
    const line = 'viscosity-ratio nu40=25 nu100=5 temp=62 speed=14000 pitch=46';
    expect(off(value(line, 'kappa'), 2.159)).toBeLessThan(0.001);
    expect(off(value(line, 'kappaInner'), 1.65)).toBeLessThan(0.005);
    expect(calc('viscosity-ratio nu40=25 nu100=5 temp=90 speed=14000 pitch=46').warnings.join()).toMatch(
      /inner raceway.*kappa is 0.892/,
    );
    expect(calc('viscosity-ratio nu40=25 nu100=5 temp=135 speed=14000 pitch=46').results.kappaInner).toBeUndefined();
  });
  it('M: warns outside 0.1 to 4', () => {
    expect(calc('viscosity-ratio nu40=460 nu100=30 temp=40 speed=12000 pitch=60').warnings.join()).toMatch(/0.1 to 4/);
    expect(word('viscosity-ratio nu40=460 nu100=30 temp=40 speed=12000 pitch=60', 'verdict')).toBe('thick');
    expect(word('viscosity-ratio nu40=25 nu100=5 temp=70 speed=500 pitch=60', 'verdict')).toBe('too thin');
  });
});

describe('P: ISO 3448 viscosity grades', () => {
  const mid = [2.2, 3.2, 4.6, 6.8, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500];
  it('has all eighteen, with limits of 10 %', () => {
    const rows = tables['iso-vg']!.rows;
    expect(rows.map((r) => r.mid)).toEqual(mid);
    for (const row of rows) {
      expect(off(Number(row.low), Number(row.mid) * 0.9)).toBeLessThan(1e-9);
      expect(off(Number(row.high), Number(row.mid) * 1.1)).toBeLessThan(1e-9);
    }
  });
  it('follows a series of six steps a decade within 8 %, as the standard is built', () => {
    mid.slice(1).forEach((m, i) => expect(off(m / mid[i]!, 10 ** (1 / 6))).toBeLessThan(0.08));
  });
  it('names the grade, and none between two', () => {
    expect(word('viscosity-grade nu40=46', 'grade')).toBe('VG 46');
    expect(word('viscosity-grade nu40=50.6', 'grade')).toBe('VG 46');
    expect(word('viscosity-grade nu40=55', 'grade')).toBe('none');
    expect(list('viscosity-grade nu40=100', 'middle')).toBe(100);
  });
});
