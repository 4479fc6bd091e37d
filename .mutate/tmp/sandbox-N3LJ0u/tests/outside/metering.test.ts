// @ts-nocheck
import { describe, expect, it } from 'vitest';
import { calc, list, off, refusal, value, word } from '../calc/support.js';

describe('syringe', () => {
  it.each([
    [14.5, 6.056],
    [8.66, 16.978],
  ])('A: bore %s mm -> %s mm of travel for each mL', (bore, travel) => {
    expect(off(value(`syringe bore=${bore} doses=1ml,1ml`, 'travelPerMl'), travel)).toBeLessThan(0.0002);
  });
  it('A: marks of equal doses are multiples', () => {
    const marks = list('syringe bore=14.5 doses=1ml,1ml', 'marks');
    expect(off(marks[0]!, 6.056)).toBeLessThan(0.0002);
    expect(off(marks[1]!, 12.112)).toBeLessThan(0.0002);
  });
  it('P: NIST SP 811 factors: 1 cc = 1 mL, 1 US fl oz = 29.5735 mL', () => {
    expect(list('syringe bore=14.5 doses=1cc', 'marks')).toEqual(list('syringe bore=14.5 doses=1ml', 'marks'));
    expect(off(value('syringe bore=50 doses=1floz', 'filling'), 29.5735)).toBeLessThan(1e-5);
    expect(refusal('syringe bore=50 doses=1oz')).toMatch(/^doses: .*mass.*fl oz/);
  });
  it('A: beads of every gap at both races are the dose, once', () => {
    const line = 'bead dose=3.95ml balls=9';
    expect(off(2 * 9 * value(line, 'raceVolume'), 3.95)).toBeLessThan(1e-9);
    expect(off(9 * value(line, 'gapVolume'), 3.95)).toBeLessThan(1e-9);
  });
  it('refuses a filling that the barrel does not hold', () => {
    expect(refusal('syringe bore=8.66 doses=1ml,1ml capacity=2ml loss=0.1ml')).toMatch(/^capacity: .*2.1 mL/);
    expect(calc('syringe bore=8.66 doses=1ml,1ml capacity=2.5ml loss=0.1ml').results.filling?.value).toBeCloseTo(
      2.1,
      9,
    );
  });
});

describe('residue by weight, at the density of the old grease', () => {
  it('A: 1.9 g of a fluorinated grease at 1.9 g/mL is 1 mL, and a dose of 4 mL is four times that', () => {
    const run = calc('residue mass=1.9 thickener=ptfe dose=4');
    expect(run.results.volume?.value).toBeCloseTo(1, 9);
    expect(run.results.ratio?.value).toBeCloseTo(4, 9);
    expect(run.results.verdict?.value).toBe('large');
    // M: about 1.9 +- 0.1 g/mL for such greases.
    expect(run.results.volume?.plusMinus).toBeCloseTo(0.0527, 3);
    expect(calc('residue mass=1.9 thickener=ptfe density=0.9 dose=4').warnings.join()).toMatch(
      /no density of a fluorinated/,
    );
  });
  it('A: the same weight of a lithium grease at 0.9 g/mL is 2.111 mL', () => {
    expect(off(value('residue mass=1.9 thickener=lithium', 'volume'), 2.1111)).toBeLessThan(1e-4);
  });
  it('an old grease that nobody knows has no volume by weight', () => {
    const run = calc('residue mass=1.9 thickener=unknown dose=4');
    expect(run.results.volume).toBeUndefined();
    expect(run.results.verdict?.value).toBe('not known');
    expect(run.warnings.join()).toMatch(/from 1 mL.*to 2.1 mL/);
    expect(word('residue length=10 width=10 height=5 thickener=unknown dose=1ml', 'verdict')).toBe('plausible');
  });
});

describe('continuity (P: silicon nitride insulates, 1e12 ohm cm and more, and is not magnetic)', () => {
  const verdict = (balls: string, more = ''): string =>
    word(`ball-test leads=beep ring=beep balls=${balls}${more}`, 'verdict');
  it('several silent balls on a proven meter and contact are ceramic, several that beep are steel', () => {
    expect(verdict('open,open,open', ' magnet=not-attracted')).toBe('ceramic');
    expect(verdict('open,open,open', ' secondRange=open')).toBe('ceramic');
    expect(verdict('open,open,open,open,open,open,open', ' count=7')).toBe('ceramic');
    expect(verdict('beep,beep,beep')).toBe('steel');
  });
  it('silence does not prove ceramic: meter, contact and several balls come first', () => {
    expect(word('ball-test leads=open ring=open balls=open,open,open', 'verdict')).toBe('not proven');
    expect(word('ball-test leads=beep ring=open balls=open,open,open', 'verdict')).toBe('not proven');
    expect(verdict('open,open')).toBe('not proven');
    expect(verdict('open,open,beep')).toBe('not proven');
  });
  it('three silent balls without a second witness prove nothing: a film of grease is silent too', () => {
    for (const more of ['', ' magnet=skipped', ' secondRange=skipped', ' count=9'])
      expect(verdict('open,open,open', more)).toBe('not proven');
    expect(word('ball-test leads=beep ring=beep balls=open,open,open', 'why')).toMatch(
      /magnet.*another range.*every ball/,
    );
    expect(verdict('open,open,open', ' magnet=not-attracted secondRange=beep')).toBe('not proven');
    expect(verdict('open,open,open,open,open,open,open', ' count=7 magnet=attracted')).toBe('not proven');
    expect(refusal('ball-test leads=beep ring=beep balls=open,open,open,open count=3')).toMatch(
      /^balls: 4 balls.*has 3/,
    );
  });
  it('the magnet can take a proof away', () => {
    expect(verdict('open,open,open', ' magnet=attracted')).toBe('not proven');
    expect(verdict('beep,beep,beep', ' magnet=not-attracted')).toBe('not proven');
  });
});
