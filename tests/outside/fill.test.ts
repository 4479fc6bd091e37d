import { describe, expect, it } from 'vitest';
import { calc, off, tables, value, word } from '../calc/support.js';

const at = (ndm: number, key: string): number => value(`fill freeVolume=10ml ndm=${ndm}`, key);

describe('fill of the free volume', () => {
  it('M, an excerpt of a tip sheet of Klüber Lubrication: 90 % below n dm 90 000 and 67 % to 500 000 only with a room outside that takes the surplus', () => {
    const open = (ndm: number): number => value(`fill freeVolume=10ml ndm=${ndm} closed=open-with-cavity`, 'shareHigh');
    expect([open(80_000), open(400_000)]).toEqual([90, 67]);
    for (const closed of ['sealed', 'shielded', 'open']) {
      const line = (ndm: number, share: number) => `fill freeVolume=10ml ndm=${ndm} share=${share} closed=${closed}`;
      expect(calc(line(300_000, 67)).warnings.join()).toMatch(/above the 20 to 40 %.*nowhere to go/);
      expect(calc(line(80_000, 90)).warnings.join()).toMatch(/above the 30 to 50 %/);
    }
    expect(calc('fill freeVolume=10ml ndm=300000').sources.join()).not.toMatch(/[Kk]l.ber/);
    expect(calc('fill freeVolume=10ml ndm=300000 closed=open-with-cavity').sources.join()).toMatch(/[Kk]l.ber/);
  });
  it('P: factory-sealed 20 to 50 %, bearings in general 30 to 40 %: the most of a sealed bearing, also where nothing is said', () => {
    expect([at(80_000, 'shareHigh'), at(400_000, 'shareHigh')]).toEqual([50, 40]);
  });
  // By hand: 30 - 15 x (n dm - 500 000) / 500 000, a whole percent down: 625 000 -> 26.25, 644 000 -> 25.68, 750 000 -> 22.5.
  it.each([
    [500_000, 30],
    [500_001, 29],
    [625_000, 26],
    [644_000, 25],
    [750_000, 22],
    [999_999, 15],
    [1_000_000, 15],
  ])('A: no jump at 500 000: n dm %s -> %s %%', (ndm, share) => {
    expect(at(ndm, 'suggested')).toBe(share);
  });
  it('a typed share is neither suggested nor in use', () => {
    const alone = calc('fill freeVolume=7.2 share=100').results;
    expect([alone.shareLow, alone.shareHigh, alone.suggested]).toEqual([undefined, undefined, undefined]);
    expect(alone.share?.value).toBe(100);
    const typed = calc('fill freeVolume=7.2 share=100 ndm=300000').results;
    expect([typed.shareLow?.value, typed.shareHigh?.value, typed.suggested?.value]).toEqual([20, 40, 30]);
  });
  it('says where both ends of a rotor are filled by free volumes of another kind', () => {
    const line = 'fill freeVolume=7.2 share=20 basis=measured otherBasis=';
    expect(word(`${line}sealed-room`, 'sameBasis')).toBe('no');
    expect(calc(`${line}sealed-room`).warnings.join()).toMatch(
      /on a measurement, at the other bearing on size and mass, seals taken off.*third/,
    );
    expect(word(`${line}measured`, 'sameBasis')).toBe('yes');
    expect(word(`${line}unknown`, 'sameBasis')).toBe('not known');
  });
  it('M, NTN, page not noted: 30 to 40 % of bearings in general lies in the bands of low and medium speed', () => {
    for (const ndm of [80_000, 400_000]) {
      expect(at(ndm, 'shareLow')).toBeLessThanOrEqual(30);
      expect(at(ndm, 'shareHigh')).toBeGreaterThanOrEqual(40);
      expect(at(ndm, 'share')).toBeGreaterThanOrEqual(30);
      expect(at(ndm, 'share')).toBeLessThanOrEqual(40);
    }
  });
  it('M, a trade article: as low as 20 % for high-speed precision bearings; M: spindles 15 +- 2 %', () => {
    expect(at(1_000_000, 'shareLow')).toBeLessThanOrEqual(13);
    expect(at(1_000_000, 'shareHigh')).toBeGreaterThanOrEqual(20);
  });
  it('CP: high speed under 30 %, 15 % as the middle', () => {
    expect(at(1_000_000, 'shareHigh')).toBeLessThanOrEqual(30);
    expect(at(1_000_000, 'share')).toBe(15);
  });
  it('CP: never rises with speed, limit by limit', () => {
    const speeds = [1000, 89_999, 90_000, 300_000, 500_000, 500_001, 2_000_000];
    for (const key of ['shareLow', 'share', 'shareHigh'])
      speeds.slice(1).forEach((ndm, i) => expect(at(ndm, key)).toBeLessThanOrEqual(at(speeds[i]!, key)));
  });
  it('takes the smaller fill when n dm may lie in the faster band', () => {
    expect(at(495_000, 'share')).toBe(30);
    const run = calc('fill freeVolume=10ml ndm=495000+-10000');
    // By hand at 505 000: 30 - 15 x 5 000 / 500 000 = 29.85, down to 29.
    expect(run.results.share?.value).toBe(29);
    expect(run.warnings.join()).toMatch(/smaller fill/);
  });
  it('P rows are cited, M rows are shown as usual', () => {
    const { sources } = calc('fill freeVolume=10ml ndm=1000000');
    const cited = "EIS, Bud's Take no. 10, article Bearing grease fill with closures: about 20 to 50 % as they leave";
    expect(sources.some((s) => s.startsWith(cited))).toBe(true);
    // 13 to 17 % are in use at this speed: that the source gives another range for any speed is said with it.
    expect(sources.join()).toContain('as they leave the factory, whatever the speed');
    expect(sources.some((s) => s.startsWith('usual, verify'))).toBe(true);
  });
});

describe('density', () => {
  it('M: 0.85 to 0.95 g/mL; PFPE about 1.9, told apart', () => {
    const run = calc('fill freeVolume=10ml ndm=1000000');
    expect(run.results.doseMass?.value).toBeCloseTo(1.35, 9);
    expect(run.warnings.join()).toMatch(/PFPE/);
    expect(value('fill freeVolume=10ml ndm=1000000 pfpe=yes', 'doseMass')).toBeCloseTo(2.85, 9);
    expect(calc('fill freeVolume=10ml ndm=1000000 density=1.9').warnings.join()).toMatch(/PFPE/);
    expect(calc('fill freeVolume=10ml ndm=1000000 density=0.9 pfpe=yes').warnings.join()).toMatch(
      /no density of a PFPE/,
    );
  });
});

describe('replenishment', () => {
  it('M, a maintenance magazine of March 2020, fig. 1: G = 0.005 D B; 6208 gives 7.2 g (A)', () => {
    expect(value('replenishment outside=80 width=18', 'grams')).toBeCloseTo(7.2, 12);
  });
  it('A: the inch constant is 0.11379 oz/in2', () => {
    expect(off(value('replenishment outside=1in width=1in', 'grams') / 28.349523125, 0.11379)).toBeLessThan(1e-4);
  });
  it('A: it would be 38 % of the free volume of a 6208, and is never called its dose', () => {
    const run = calc('replenishment bore=40 outside=80 width=18 freeVolume=20.995');
    expect(Math.round(run.results.shareOfFree!.value)).toBe(38);
    expect(run.warnings.join()).toMatch(/NOT the dose of a cleaned sealed bearing/);
  });
});

it('P: NLGI grades by ASTM D217, scope, Note 1: 310-340, 265-295, 220-250; 300 is no grade', () => {
  const grade = (p: number): string => String(calc(`consistency penetration=${p}`).results.grade?.value);
  expect([310, 340, 265, 295, 220, 250].map(grade)).toEqual(['1', '1', '2', '2', '3', '3']);
  expect(grade(300)).toBe('none');
  expect(tables.nlgi!.rows).toHaveLength(9);
});

it('A: what stays behind is taken off, and its doubt counts: 6.5 at 15 % less 0.3 is 0.675, half width 45 %', () => {
  const line = 'fill freeVolume=6.5+-0.2ml share=15 leftBehind=0.3+-0.3ml';
  expect(value(line, 'due')).toBeCloseTo(0.675, 9);
  expect(value(line, 'doubt')).toBeCloseTo((Math.hypot(0.2 * 0.15, 0.3) / 0.675) * 100, 6);
  expect(value('fill freeVolume=6.5+-0.2ml share=15', 'doubt')).toBeCloseTo((0.2 / 6.5) * 100, 6);
  expect(value('fill freeVolume=1ml share=15 leftBehind=0.3ml', 'due')).toBe(0);
  expect(value('fill freeVolume=1+-0.1ml share=15 leftBehind=0.3ml', 'doubt')).toBeGreaterThan(100);
});

it('no half width given: the doubt is not known, never 0', () => {
  const run = calc('fill freeVolume=6.5 share=15');
  expect(run.results.doubt).toBeUndefined();
  expect(run.results.doubtKnown?.value).toBe(false);
  expect(run.warnings.join()).toMatch(/may be off is not known/);
  expect(calc('fill freeVolume=6.5+-0.2ml share=15').results.doubtKnown?.value).toBe(true);
});
