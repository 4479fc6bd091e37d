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
];
it.each(same)('reads %s (%s) as %d', (text, kind, value) => {
  expect(parseQuantity(text, kind)).toMatchObject({ ok: true, value });
});

it('keeps the unit that was asked for behind a shortened figure', () => {
  expect(parseQuantity('1k krpm', 'speed')).toMatchObject({ ok: true, value: 1_000_000 });
  expect(parseQuantity('15k +- 1k', 'speed')).toMatchObject({ ok: true, value: 15_000, plusMinus: 1000 });
});
