import { describe, expect, it } from 'vitest';
import { calc, off, refusal, value, word } from '../calc/support.js';

describe('speed factors', () => {
  it('P: NSK, Tech Talk no. 06: 100x150 at 7000 rpm is n dm 875 000', () => {
    expect(value('speed-factor bore=100 outside=150 speed=7000', 'ndm')).toBe(875_000);
  });
  it('A: the same bearing has n d 700 000, and both are told apart', () => {
    const run = calc('speed-factor bore=100 outside=150 speed=7000');
    expect(run.results.nd?.value).toBe(700_000);
    expect(run.warnings.join()).toMatch(/different numbers/);
  });
  it('A: 40x68 at 20 000 rpm is n dm 1 080 000', () => {
    expect(value('speed-factor bore=40 outside=68 speed=20000', 'ndm')).toBe(1_080_000);
  });
  it.each([
    [89_999, 'low'],
    [90_000, 'medium'],
    [500_000, 'medium'],
    [500_001, 'high'],
  ])('M, an excerpt of a tip sheet of Klüber Lubrication: n dm %s is %s', (ndm, band) => {
    // dm of 1 mm at that many rpm does not exist: scale by a bearing of dm 100 mm.
    expect(word(`speed-factor bore=80 outside=120 speed=${ndm / 100}`, 'band')).toBe(band);
  });
});

describe('limits of speed', () => {
  it('a sealed bearing above the open one is refused', () => {
    expect(refusal('speed-limit open=10000 sealed=20000 balls=ceramic seal=contact')).toMatch(
      /^sealed: .*20000 rpm.*above 10000 rpm/,
    );
    expect(value('speed-limit open=10000 sealed=10000 balls=steel seal=gap', 'low')).toBe(10_000);
  });
  it('M, a table of NTN, page not noted: contact seal against open 0.70 to 0.72', () => {
    expect(off(value('speed-limit open=10000 balls=steel seal=contact', 'low'), 7000)).toBeLessThan(1e-9);
    expect(off(value('speed-limit open=10000 balls=steel seal=contact', 'high'), 7200)).toBeLessThan(1e-9);
  });
  it('takes the catalogue figure of the sealed bearing instead, and says that catalogues differ where there is none', () => {
    const own = 'speed-limit open=10000 sealed=5000 balls=ceramic seal=contact';
    // A rubbing lip gains nothing by the balls at the cautious end: 5000 x 1.0; x 1.2 at the other.
    expect(value(own, 'low')).toBeCloseTo(5000, 6);
    expect(value(own, 'high')).toBeCloseTo(6000, 6);
    expect(calc(own).warnings.join()).toMatch(/rubbing lip sets this limit/);
    // By hand: 10 000 x 0.70 and 10 000 x 0.72 x 1.2 = 8640.
    const open = 'speed-limit open=10000 balls=ceramic seal=contact';
    expect(value(open, 'low')).toBeCloseTo(7000, 6);
    expect(value(open, 'high')).toBeCloseTo(8640, 6);
    for (const seal of ['none', 'shield', 'gap'])
      expect(value(`speed-limit open=10000 balls=ceramic seal=${seal}`, 'low')).toBeCloseTo(12_000, 6);
    expect(calc(own).warnings.join()).not.toMatch(/Catalogues differ/);
    expect(calc('speed-limit open=10000 balls=steel seal=contact').warnings.join()).toMatch(/Catalogues differ/);
  });
  it('CP: hybrids 20 to 40 % faster, shown as a range; not proven counts as steel', () => {
    expect(value('speed-limit open=10000 balls=ceramic seal=none', 'low')).toBeCloseTo(12_000, 6);
    expect(value('speed-limit open=10000 balls=ceramic seal=none', 'high')).toBeCloseTo(14_000, 6);
    expect(value('speed-limit open=10000 balls=not-proven seal=none', 'high')).toBe(10_000);
  });
});
