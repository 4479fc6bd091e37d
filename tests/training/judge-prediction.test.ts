/** Judging a prediction: properties that hold for any figure, and the slips by the factors of published units. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Expected, judgePrediction, type Neighbour, nearness } from '../../src/training/judge-prediction.js';
import { readFigures } from '../../src/training/read-figures.js';
import type { SlipId } from '../../src/training/slips.js';
import type { QuantityKind } from '../../src/units/kinds.js';

const figure = (value: number, quantity: QuantityKind | undefined, more: Partial<Expected> = {}): Expected => ({
  type: 'double',
  quantity,
  value,
  plusMinus: undefined,
  neighbours: [],
  ...more,
});
const size = fc.double({ min: 0.05, max: 5000, noNaN: true });
/** As typed. A point before just three digits may stand for thousands and is refused, so one more is typed there. */
const plain = (n: number): string => String(Number(n.toPrecision(9))).replace(/\.\d{3}$/, '$&0');
const judge = (n: number, e: Expected) => judgePrediction(plain(n), e);
const kinds: QuantityKind[] = ['length', 'volume', 'mass', 'speed', 'duration', 'density', 'ratio'];

describe('right, close or wrong', () => {
  it('takes the figure itself as right, whatever its unit and width', () => {
    fc.assert(
      fc.property(size, fc.constantFrom(...kinds), fc.option(size, { nil: undefined }), (v, kind, plusMinus) => {
        const j = judge(v, figure(v, kind, { plusMinus }));
        expect(j.verdict).toBe('right');
        expect(j.slip).toBeUndefined();
      }),
    );
  });

  it('never judges a nearer figure worse', () => {
    const rank = { right: 0, close: 1, wrong: 2 };
    fc.assert(
      fc.property(
        size,
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.option(fc.double({ min: 0, max: 100, noNaN: true }), {
          nil: undefined,
        }),
        (v, off, part, plusMinus) => {
          const far = nearness(v + off * v, v, plusMinus, 'volume');
          const near = nearness(v + off * part * v, v, plusMinus, 'volume');
          expect(rank[near]).toBeLessThanOrEqual(rank[far]);
        },
      ),
    );
  });

  it('never calls wrong what lies within the uncertainty, and never right what lies beyond it and a twentieth', () => {
    fc.assert(
      fc.property(
        size,
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        (v, width, off) => {
          const verdict = nearness(v * (1 + off), v, width * v, 'volume');
          if (Math.abs(off) < width * 0.999) expect(verdict).not.toBe('wrong');
          if (Math.abs(off) > Math.max(width, 0.05) * 1.001) expect(verdict).not.toBe('right');
        },
      ),
    );
  });

  it('judges the same figure typed in another unit alike', () => {
    // 25.4 mm to the inch, exactly (ISO 31-0, A).
    fc.assert(
      fc.property(size, fc.double({ min: 0.3, max: 3, noNaN: true }), (v, f) => {
        const mm = judgePrediction(`${plain(v * f)} mm`, figure(v, 'length')).verdict;
        const inch = judgePrediction(`${plain((v * f) / 25.4)} in`, figure(v, 'length')).verdict;
        const edge = [0.8, 0.95, 1, 1.05, 1.2].some((e) => Math.abs(f - e) < 1e-4);
        if (!edge) expect(inch).toBe(mm);
      }),
    );
  });

  it.each([
    ['1000 h', 1000],
    ['1000 hours', 1000],
    ['1000', 1000],
    ['40 days', 960],
  ])('takes %s for a count of hours', (text, hours) =>
    // A day is 24 h (A).
    expect(judgePrediction(text, figure(hours, 'count'))).toMatchObject({
      verdict: 'right',
      predicted: hours,
    }),
  );
  it.each(['1.2 g', '~1.2', '1 to 1.5'])('asks again for a volume of %s', (text) =>
    expect(judgePrediction(text, figure(1.2, 'volume'))).toMatchObject({
      verdict: 'unreadable',
    }),
  );

  it('reads anything that is typed without failing', () => {
    fc.assert(
      fc.property(
        fc.string(),
        fc.constantFrom<Expected['value']>(1.2, 'never', true, [3, 4], ['a', 'b']),
        (text, value) => {
          const j = judgePrediction(text, { ...figure(1, 'volume'), value });
          expect(['right', 'close', 'wrong', 'unreadable', 'not-judged']).toContain(j.verdict);
        },
      ),
    );
  });

  it('says what to type when a figure can’t be read', () => {
    const j = judgePrediction('about one', figure(1.2, 'volume'));
    expect(j.verdict).toBe('unreadable');
    expect(j.says).toMatch(/type/);
  });
});

describe('slips', () => {
  // Factors: inch 25.4 mm exactly, US fl oz 29.5735 mL, avoirdupois ounce 28.3495 g (check values 12; P for the last two
  // as given there), cubic inch 16.387064 mL (A: 2.54 cubed). The others are arithmetic.
  const rows: [SlipId, QuantityKind, number][] = [
    ['inch-for-millimetre', 'length', 25.4],
    ['centimetre-for-millimetre', 'length', 10],
    // Travel is V / (pi/4 d2): the radius in place of the diameter makes it four times as long, never twice (A).
    ['factor-of-two', 'length', 2],
    ['diameter-for-radius', 'length', 4],
    ['fluid-ounce-for-millilitre', 'volume', 29.5735],
    ['cubic-inch-for-millilitre', 'volume', 16.387064],
    ['litre-for-millilitre', 'volume', 1000],
    ['ounce-for-gram', 'mass', 28.3495],
    ['kilogram-for-gram', 'mass', 1000],
    ['per-second-for-per-minute', 'speed', 60],
    ['hour-for-minute', 'duration', 60],
    ['percent-for-share', 'share', 100],
    ['density-unit', 'density', 1000],
    ['factor-of-two', 'volume', 2],
    ['diameter-for-radius', 'volume', 4],
    ['decimal-point', 'volume', 10],
    ['percent-for-share', 'volume', 100],
    ['thousand', 'speed', 1000],
  ];
  it.each(rows)('%s of a %s is named both ways', (slip, kind, factor) => {
    fc.assert(
      fc.property(size, fc.double({ min: -0.02, max: 0.02, noNaN: true }), (x, noise) => {
        // A rotor turns some hundred times a minute at the least.
        const v = kind === 'speed' ? 1000 * x : x;
        for (const n of [v * factor, v / factor]) expect(judge(n * (1 + noise), figure(v, kind)).slip?.slip).toBe(slip);
      }),
    );
  });

  it('names none where a speed can be read in two ways: that is asked back first', () => {
    expect(judge(126.148, figure(1261.48, 'speed')).slip?.slip).toBe('decimal-point');
    const twoWays = judgePrediction('126.148', figure(126148, 'speed'));
    expect(twoWays).toMatchObject({
      verdict: 'unreadable',
      says: expect.stringContaining('126.148'),
    });
    expect(twoWays.slip).toBeUndefined();
  });

  it('takes Fahrenheit for Celsius by its own law', () => {
    // 9/5 and 32, by definition (A).
    fc.assert(
      fc.property(fc.double({ min: 35, max: 120, noNaN: true }), (c) => {
        const read = judge((c * 9) / 5 + 32, figure(c, 'temperature'));
        expect(read.slip?.slip).toBe('fahrenheit-for-celsius');
      }),
    );
  });

  it('names no slip for what is right, or off by no known factor', () => {
    fc.assert(
      fc.property(size, fc.double({ min: 1.3, max: 1.8, noNaN: true }), (v, f) => {
        expect(judge(v * f, figure(v, 'volume')).slip).toBeUndefined();
      }),
    );
  });

  it('knows the other bearing, both together, one for both, and a step left out', () => {
    const others: [Neighbour['slip'], number][] = [
      ['other-bearing', 1.7],
      ['two-bearings-for-one', 2.9],
      ['one-bearing-for-two', 3.4],
      ['step-short', 8.1],
    ];
    const neighbours = others.map(([slip, value]): Neighbour => ({ slip, label: 'that one', value }));
    for (const [slip, value] of others)
      expect(judge(value, figure(1.2, 'volume', { neighbours })).slip?.slip).toBe(slip);
  });
});

describe('several figures', () => {
  const two = (more: Partial<Expected> = {}): Expected => ({
    ...figure(0, 'length'),
    type: 'list<double>',
    value: [14.1, 8.3],
    plusMinus: [0.7, 0.5],
    ...more,
  });
  it.each(['14 mm and 8 mm', '14; 8', '14 8', '14, 8', '1.4 cm and 8 mm', '14,0; 8,1 mm', '0.55 in and 0.32 in'])(
    'reads “%s”',
    (text) => expect(judgePrediction(text, two()).verdict).toBe('right'),
  );
  it('knows them turned round, one alone and the sum', () => {
    expect(judgePrediction('8.3 and 14.1', two()).slip?.slip).toBe('other-bearing');
    expect(judgePrediction('14.1', two()).slip?.slip).toBe('one-bearing-for-two');
    expect(judgePrediction('22.4', two()).slip?.slip).toBe('two-bearings-for-one');
    expect(judgePrediction('1, 2, 3', two())).toMatchObject({
      verdict: 'wrong',
      says: expect.stringContaining('2 figures'),
    });
  });
  it('gives back what was joined', () => {
    fc.assert(
      fc.property(fc.array(size, { minLength: 1, maxLength: 4 }), (list) => {
        const read = readFigures(list.map((n) => `${plain(n)} mm`).join(' and '), list.length, 'length');
        expect(read.ok && read.values.map((v) => v.toPrecision(6))).toEqual(
          list.map((v) => Number(plain(v)).toPrecision(6)),
        );
      }),
    );
  });
});

describe('words', () => {
  const word = (value: string): Expected => ({
    ...figure(0, undefined),
    type: 'string',
    value,
  });
  it.each([
    ['Never', 'never', 'right'],
    ['brief wipe only!', 'brief wipe only', 'right'],
    ['wipe', 'brief wipe only', 'close'],
    ['proven', 'not proven', 'wrong'],
    ['not steel', 'steel', 'wrong'],
    ['steel', 'not proven', 'wrong'],
    ['no', 'marginal', 'close'],
    ['ok', 'marginal', 'wrong'],
    ['marginal', 'no', 'wrong'],
    ['none given', 'steel', 'not-judged'],
  ])('%s for %s is %s', (text, value, verdict) => expect(judgePrediction(text, word(value)).verdict).toBe(verdict));
});
