/** Large figures as data sheets and catalogues print them, where they can only be meant in one way. */
import { expect, it } from 'vitest';
import type { QuantityKind } from '../../src/units/kinds.js';
import { parseQuantity } from '../../src/units/parse.js';

// Each value written out by hand.
const same: [string, QuantityKind, number][] = [
  ['1.6M', 'speed-factor', 1_600_000],
  ['1,6M', 'speed-factor', 1_600_000],
  ['1.6 M', 'speed-factor', 1_600_000],
  ['1.6M mm/min', 'speed-factor', 1_600_000],
  ['800k', 'speed-factor', 800_000],
  ['15k', 'speed', 15_000],
  ['15K', 'speed', 15_000],
  ['12.5k rpm', 'speed', 12_500],
  ['1,600,000', 'speed-factor', 1_600_000],
  ['1.600.000', 'speed-factor', 1_600_000],
  ['1,234,567', 'speed', 1_234_567],
  ['1,600,000.5 mm', 'length', 1_600_000.5],
  ['1.6x10^6', 'speed-factor', 1_600_000],
  ['1.6 x 10^6 mm/min', 'speed-factor', 1_600_000],
  ['1.6*10^6', 'speed-factor', 1_600_000],
  ['1.6 · 10⁶', 'speed-factor', 1_600_000],
  ['1,6×10⁶', 'speed-factor', 1_600_000],
  ['5×10⁻² mm', 'length', 0.05],
  ['2k EUR', 'money', 2000],
  ['12,345,678', 'speed-factor', 12_345_678],
  ['1,234,567,890', 'speed-factor', 1_234_567_890],
  ['-1,600,000 K', 'temperature-difference', -1_600_000],
  ['1.6 x 10 ^ 6', 'speed-factor', 1_600_000],
  ['5x10^-2 mm', 'length', 0.05],
  ['5x10^+2 mm', 'length', 500],
  ['1x10^12', 'speed-factor', 1e12],
  ['1×10¹²', 'speed-factor', 1e12],
];
it.each(same)('reads %s (%s) as %d', (text, kind, value) => {
  expect(parseQuantity(text, kind)).toMatchObject({ ok: true, value });
});

it('keeps the unit that was asked for behind a shortened figure', () => {
  expect(parseQuantity('1k krpm', 'speed')).toMatchObject({ ok: true, value: 1_000_000 });
  expect(parseQuantity('15k +- 1k', 'speed')).toMatchObject({ ok: true, value: 15_000, plusMinus: 1000 });
});

it.each<[string, QuantityKind, string]>([
  // Four figures before the first comma are no group of thousands.
  [
    '1234,600,000',
    'speed-factor',
    '"1234,600,000" has more than one point or comma: type it with one, or none, such as 12000 or 14.5.',
  ],
  // The letter stands right behind the figure, and of ppm it has no meaning.
  ['15 xk', 'speed', '"xk" is not a unit of speed: type a speed such as 12000 rpm or 12 krpm.'],
  ['2k', 'concentration', '"k" is a unit of temperature: type a concentration such as 250 ppm or 2.5 %.'],
])('refuses %s for %s', (text, kind, message) => {
  expect(parseQuantity(text, kind)).toStrictEqual({ ok: false, message });
});
