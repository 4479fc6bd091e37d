/** Each limit and each pattern of the readers and of what is shown: at it, just below, just above. All written out by hand. */
import { describe, expect, it } from 'vitest';
import { currencyIn, currencyOf } from '../../src/units/currency.js';
import type { QuantityKind } from '../../src/units/kinds.js';
import { readNumber } from '../../src/units/number.js';
import { parseDimensions, parseQuantity } from '../../src/units/parse.js';
import { type ShowOptions, showQuantity } from '../../src/units/show.js';
import { findUnit, kindsOfUnit } from '../../src/units/unit-names.js';

describe('what is read', () => {
  const good: [string, QuantityKind, number][] = [
    ['0 mm', 'length', 0],
    ['-0 °C', 'temperature', 0],
    // 80 signs are one answer, 81 are not.
    [`14.5${' '.repeat(73)} mm`, 'length', 14.5],
    ['1  1/2 in', 'length', 38.1],
    ['12 1/2 in', 'length', 317.5],
    ['15/16 in', 'length', 23.8125],
    ['1/16 in', 'length', 1.5875],
    ['+1/2 in', 'length', 12.7],
    ['-1/2 °C', 'temperature', -0.5],
    ['- 5 °C', 'temperature', -5],
    ['12 000.25 rpm', 'speed', 12000.25],
    ['0e15 mm', 'length', 0],
    ['1e15 mm', 'length', 1e15],
    ['46mm²/s', 'viscosity', 46],
    // 1 K = 1.8 °F.
    ['9 °F', 'temperature-difference', 5],
    ['-300 K', 'temperature-difference', -300],
    ['-273.15 °C', 'temperature', -273.15],
    ['12h30', 'duration', 750],
    ['1h30min', 'duration', 90],
    ['1 hr 30 mins', 'duration', 90],
    ['2 hrs 5', 'duration', 125],
    ['1 hour 30 minutes', 'duration', 90],
    ['2 hours 1 minute', 'duration', 121],
    ['12 d 12 h', 'duration', 18000],
    ['2d3h', 'duration', 3060],
    ['1 day 1 hour', 'duration', 1500],
    ['2 days 3 hours', 'duration', 3060],
    ['1 d 1 hr', 'duration', 1500],
    ['1 d 2 hrs', 'duration', 1560],
    // A prefix that is spelt out is no matter of its first letter.
    ['5 Milliohm', 'resistance', 0.005],
    ['15 Millivolts', 'voltage', 0.015],
    ['5 MEGOHM', 'resistance', 5e6],
  ];
  it.each(good)('%s as %s', (text, kind, value) => {
    expect(parseQuantity(text, kind)).toMatchObject({ ok: true });
    const read = parseQuantity(text, kind);
    if (read.ok) expect(read.value).toBeCloseTo(value, 9);
  });

  const whole: [string, QuantityKind, { value: number; unit: string; plusMinus?: number }][] = [
    ['14.5 mm', 'length', { value: 14.5, unit: 'mm' }],
    ['14.5', 'length', { value: 14.5, unit: 'mm' }],
    ['14.5 +- 0', 'length', { value: 14.5, unit: 'mm', plusMinus: 0 }],
    ['1.5 cm +- 1 mm', 'length', { value: 15, unit: 'cm', plusMinus: 1 }],
    ['1.5 +- 0.1 cm', 'length', { value: 15, unit: 'cm', plusMinus: 1 }],
    ['200 mm +- 2 %', 'length', { value: 200, unit: 'mm', plusMinus: 4 }],
    ['200 +- 2 %', 'length', { value: 200, unit: 'mm', plusMinus: 4 }],
    ['70 +- 5 K', 'temperature', { value: 70, unit: 'degC', plusMinus: 5 }],
    ['70 +- 5 kelvin', 'temperature', { value: 70, unit: 'degC', plusMinus: 5 }],
    ['158 °F +- 9', 'temperature', { value: 70, unit: '°F', plusMinus: 5 }],
    // 45 °F are 25 K, of which 2 % are 0.5 K; 45 °F stand at 7.222 °C.
    ['45 °F +- 2 %', 'temperature', { value: 7.222222222222, unit: '°F', plusMinus: 0.5 }],
    ['-50 °C +- 2 %', 'temperature', { value: -50, unit: '°C', plusMinus: 1 }],
    // Of a concentration a percentage is a value, not a share of it: 0.002 % are 20 ppm.
    ['250 ppm +- 0.002 %', 'concentration', { value: 250, unit: 'ppm', plusMinus: 20 }],
    ['15 +- 2 %', 'share', { value: 15, unit: '%', plusMinus: 2 }],
    ['1 h 30 min', 'duration', { value: 90, unit: 'h min' }],
    ['12h30min', 'duration', { value: 750, unit: 'h min' }],
    ['4 x 4 x 2.5 m', 'room', { value: 40, unit: 'm' }],
  ];
  it.each(whole)('%s as %s whole', (text, kind, { value, ...rest }) => {
    expect(parseQuantity(text, kind)).toStrictEqual({ ok: true, value: expect.closeTo(value, 9), ...rest });
  });

  const refused: [string, QuantityKind, string][] = [
    [
      `14.5${' '.repeat(74)} mm`,
      'length',
      'That is too long to be one answer: type a length such as 14.5 mm or 0.571 in.',
    ],
    ['10 ²', 'length', 'A raised or lowered figure is not read: type a length such as 14.5 mm or 0.571 in.'],
    ['about 1/2 in', 'length', '"about 1/2 in" has no number in front: type a length such as 14.5 mm or 0.571 in.'],
    ['about 14 mm', 'length', '"about 14 mm" has no number in front: type a length such as 14.5 mm or 0.571 in.'],
    ['€ 5', 'length', '"€ 5" has no number in front: type a length such as 14.5 mm or 0.571 in.'],
    ['5 eur', 'length', '"eur" is not a unit of length: type a length such as 14.5 mm or 0.571 in.'],
    ['1.2.3', 'length', '"1.2.3" has more than one point or comma: type it with one, or none, such as 12000 or 14.5.'],
    ['1/0 in', 'length', '"1/0" divides by zero: type a length such as 14.5 mm or 0.571 in.'],
    ['1,000 mm', 'length', '"1,000" can mean 1000 or 1: type 1000 or 1.'],
    ['200,000 mm', 'length', '"200,000" can mean 200000 or 200: type 200000 or 200.'],
    ['-20,000 °C', 'temperature', '"-20,000" can mean -20000 or -20: type -20000 or -20.'],
    ['1.1e15 mm', 'length', '"1.1e15" is too large to be meant: type a length such as 14.5 mm or 0.571 in.'],
    [
      '3.5 oz',
      'volume',
      'An "oz" alone is a mass (28.35 g), not a volume: type fl oz for the US fluid ounce (29.57 mL), or a volume such as 1.5 mL.',
    ],
    [
      '3.5 ounce',
      'volume',
      'An "oz" alone is a mass (28.35 g), not a volume: type fl oz for the US fluid ounce (29.57 mL), or a volume such as 1.5 mL.',
    ],
    [
      '3.5 ounces.',
      'volume',
      'An "oz" alone is a mass (28.35 g), not a volume: type fl oz for the US fluid ounce (29.57 mL), or a volume such as 1.5 mL.',
    ],
    ['3.5 ozx', 'volume', '"ozx" is not a unit of volume: type a volume such as 1.5 mL, 1.5 cc or 3.5 fl oz.'],
    ['3.5 xoz', 'volume', '"xoz" is not a unit of volume: type a volume such as 1.5 mL, 1.5 cc or 3.5 fl oz.'],
    ['3.5 oz', 'length', '"oz" is a unit of mass: type a length such as 14.5 mm or 0.571 in.'],
    [
      '3.5 fl oz',
      'mass',
      'A fluid ounce is a volume (29.57 mL), not a mass: type oz for the mass, or a mass such as 128 g.',
    ],
    ['3.5 fl oz', 'length', '"fl oz" is a unit of volume: type a length such as 14.5 mm or 0.571 in.'],
    ['3.5 flasks', 'mass', '"flasks" is not a unit of mass: type a mass such as 128 g, 0.128 kg or 4.5 oz.'],
    ['3.5 troy oz', 'mass', '"troy oz" is not a unit of mass: type a mass such as 128 g, 0.128 kg or 4.5 oz.'],
    ['5 gr', 'mass', 'A "gr" can be a gram or a grain (0.0648 g): type g for grams, such as 128 g.'],
    ['5 gr', 'length', '"gr" is not a unit of length: type a length such as 14.5 mm or 0.571 in.'],
    ['5 xgr', 'mass', '"xgr" is not a unit of mass: type a mass such as 128 g, 0.128 kg or 4.5 oz.'],
    ['5 grx', 'mass', '"grx" is not a unit of mass: type a mass such as 128 g, 0.128 kg or 4.5 oz.'],
    ['5 xyz', 'length', '"xyz" is not a unit of length: type a length such as 14.5 mm or 0.571 in.'],
    [
      '5 xyz',
      'money',
      '"xyz" is no currency of ISO 4217: type a bare amount such as 480, or one with its code, such as 480 EUR.',
    ],
    ['5 abcd', 'money', '"abcd" is not a unit of amount of money: type an amount such as 480.'],
    [
      `5 ${'abcdefghij'.repeat(2)}`,
      'length',
      '"abcdefghijabcdefghij" is not a unit of length: type a length such as 14.5 mm or 0.571 in.',
    ],
    [
      `5 ${'abcdefghij'.repeat(2)}k`,
      'length',
      '"abcdefghijabcdefghij…" is not a unit of length: type a length such as 14.5 mm or 0.571 in.',
    ],
    ['14.5 +- about', 'length', '"about" has no number in front: type a length such as 14.5 mm or 0.571 in.'],
    ['14.5 +- 2 %x', 'length', '"%x" is not a unit of length: type a length such as 14.5 mm or 0.571 in.'],
    ['5 m +- 2 k', 'length', '"k" is a unit of temperature: type a length such as 14.5 mm or 0.571 in.'],
    ['70 °C +- 5 kx', 'temperature', '"kx" is not a unit of temperature: type a temperature such as 70 °C or 158 °F.'],
    ['70 °C +- 5 xk', 'temperature', '"xk" is not a unit of temperature: type a temperature such as 70 °C or 158 °F.'],
    ['-273.16 °C', 'temperature', 'That is below absolute zero: type a temperature such as 70 °C or 158 °F.'],
    ['4 x 4 m', 'room', 'That is 2 of 3 lengths: type a room volume such as 40 m3 or 4 x 4 x 2.5 m.'],
    ['1 : 30', 'duration', '"1 : 30" can be hours or minutes: type a time such as 90 min, 1.5 h or 1 h 30 min.'],
    ['1 h 30 x', 'duration', '"h 30 x" is not a unit of time: type a time such as 90 min, 1.5 h or 1 h 30 min.'],
    ['2 d 3 hx', 'duration', '"d 3 hx" is not a unit of time: type a time such as 90 min, 1.5 h or 1 h 30 min.'],
    [
      'or 1 h 30 min',
      'duration',
      '"or 1 h 30 min" has no number in front: type a time such as 90 min, 1.5 h or 1 h 30 min.',
    ],
    ['or 2 d 3 h', 'duration', '"or 2 d 3 h" has no number in front: type a time such as 90 min, 1.5 h or 1 h 30 min.'],
    [
      `1 h ${'9'.repeat(20)}`,
      'duration',
      `"${'9'.repeat(20)}" is too large to be meant: type a time such as 90 min, 1.5 h or 1 h 30 min.`,
    ],
    [
      `${'9'.repeat(20)} h 1`,
      'duration',
      `"${'9'.repeat(20)}" is too large to be meant: type a time such as 90 min, 1.5 h or 1 h 30 min.`,
    ],
  ];
  it.each(refused)('refuses %s for %s', (text, kind, message) => {
    expect(parseQuantity(text, kind)).toStrictEqual({ ok: false, message });
  });

  it('numbers alone', () => {
    expect(readNumber(' 5 ', false)).toStrictEqual({ ok: true, value: 5 });
    expect(readNumber('-0', false)).toStrictEqual({ ok: true, value: 0 });
    expect(readNumber('12.000', false)).toStrictEqual({ ok: true, value: 12 });
    for (const no of ['x5', '5x', 'abc', '1 2', '1e- 5', 'x1/2', '1/2x'])
      expect(readNumber(no, false), no).toStrictEqual({ ok: false, message: `"${no}" is not a number.` });
  });

  it('lengths in a row, with their units', () => {
    expect(parseDimensions('12x9x4 mm', 3)).toStrictEqual({ ok: true, values: [12, 9, 4], unit: 'mm' });
    expect(parseDimensions('12x9', 2)).toStrictEqual({ ok: true, values: [12, 9], unit: 'mm' });
    expect(parseDimensions('1 in x 10 mm', 2)).toStrictEqual({ ok: true, values: [25.4, 10], unit: 'in, mm' });
    expect(parseDimensions('1e1 mm x 5 mm', 2)).toStrictEqual({ ok: true, values: [10, 5], unit: 'mm' });
    expect(parseDimensions('10', 2)).toStrictEqual({
      ok: false,
      message: 'That is 1 of 2 lengths: type all 2, such as 12x9 mm.',
    });
    expect(parseDimensions('10x10', 3)).toStrictEqual({
      ok: false,
      message: 'That is 2 of 3 lengths: type all 3, such as 12x9x4 mm.',
    });
  });

  it('units and currencies', () => {
    expect(findUnit(' MΩ ', 'resistance')?.show).toBe('MΩ');
    expect(kindsOfUnit('')).toEqual([]);
    expect(kindsOfUnit(' mΩ ')).toEqual(['resistance']);
    expect(currencyOf('eur')).toBe('EUR');
    expect(currencyOf('euro')).toBeUndefined();
    expect(currencyOf('deur')).toBeUndefined();
    expect(currencyIn('480 qqq')).toBeUndefined();
  });
});

describe('what is shown', () => {
  const cases: [number, QuantityKind, ShowOptions, string][] = [
    // A half width of 1.05 to 1.94 has two figures.
    [1234, 'length', { plusMinus: 104 }, '1200 ± 100 mm'],
    [1234, 'length', { plusMinus: 105 }, '1230 ± 110 mm'],
    [1234, 'length', { plusMinus: 170 }, '1230 ± 170 mm'],
    [1234, 'length', { plusMinus: 194 }, '1230 ± 190 mm'],
    [1234, 'length', { plusMinus: 195 }, '1200 ± 200 mm'],
    // Halves away from zero, as on paper.
    [-2.5, 'temperature', { plusMinus: 2 }, '-3 ± 2 °C'],
    [-0.001, 'temperature', { plusMinus: 0.05 }, '0.00 ± 0.05 °C'],
    // What was worked out.
    [13104, 'length', { figures: 3 }, '13\u00a0104 mm'],
    [1081234, 'speed-factor', { figures: 3 }, '1\u00a0081\u00a0000 mm/min'],
    [4.4444, 'speed', { figures: 3 }, '4.44 rpm'],
    [4.4444, 'speed', {}, '4.444 rpm'],
    [123.45, 'speed', {}, '123 rpm'],
    [14.5534, 'length', {}, '14.55 mm'],
    [4.1434, 'volume', { figures: 3 }, '4.14 mL'],
    [123.456, 'length', { figures: 5 }, '123.46 mm'],
    [12345.6, 'length', {}, '12\u00a0346 mm'],
    [1.23456e-7, 'length', {}, '1.235e-7 mm'],
    // Rounded by a half width that is not shown.
    [480.5, 'money', { roundBy: 3 }, '480.50'],
    [1, 'volume', { roundBy: 0.00001 }, '1.000 mL'],
    [7.484, 'volume', { roundBy: 3 }, '7 mL'],
    [190.0936, 'length', { roundBy: 76.2, unit: 'in' }, '7 in'],
    [7.938, 'volume', { roundBy: 0.06 }, '7.94 mL'],
    [201.6252, 'length', { roundBy: 1.524, unit: 'in' }, '7.94 in'],
    [7.938, 'length', { roundBy: 0.05 }, '7.9 mm'],
    [7.938, 'length', { roundBy: 0.049 }, '7.94 mm'],
    [0.938, 'length', { roundBy: 0.06 }, '0.94 mm'],
    [1, 'length', { roundBy: 0.06 }, '1.0 mm'],
    // Kinds with a scale change unit at 1.
    [1, 'resistance', {}, '1 Ω'],
    [0.999, 'resistance', {}, '999 mΩ'],
    [26.85, 'temperature', { unit: 'K' }, '300 K'],
    // Times.
    [90, 'duration', { plusMinus: 5 }, '90 ± 5 min'],
    [0, 'duration', {}, '0 min'],
    [-90, 'duration', {}, '-1 h 30 min'],
    [-0.5, 'duration', {}, '-30 s'],
    [0.99, 'duration', {}, '59.4 s'],
    [1, 'duration', {}, '1 min'],
    [60, 'duration', {}, '1 h'],
    [5999, 'duration', {}, '99 h 59 min'],
    [6030, 'duration', {}, '100 h'],
    [14399, 'duration', {}, '239 h'],
    [14400, 'duration', {}, '10 days'],
    [20160, 'duration', {}, '14 days'],
  ];
  it.each(cases)('%s %s %j as %s', (value, kind, options, text) => {
    expect(showQuantity(value, kind, options)).toBe(text);
  });
});
