/** Slips that leave a mark: a figure off by just the factor that a known mistake makes. Pure. */
// @ts-nocheck

import { convert } from 'convert';
import type { QuantityKind } from '../units/kinds.js';

export type SlipId =
  | 'decimal-point'
  | 'inch-for-millimetre'
  | 'centimetre-for-millimetre'
  | 'litre-for-millilitre'
  | 'fluid-ounce-for-millilitre'
  | 'cubic-inch-for-millilitre'
  | 'ounce-for-gram'
  | 'kilogram-for-gram'
  | 'per-second-for-per-minute'
  | 'hour-for-minute'
  | 'fahrenheit-for-celsius'
  | 'percent-for-share'
  | 'density-unit'
  | 'thousand'
  | 'diameter-for-radius'
  | 'factor-of-two'
  | 'other-bearing'
  | 'one-bearing-for-two'
  | 'two-bearings-for-one'
  | 'step-short';

export interface Slip {
  readonly slip: SlipId;
  /** One sentence: what the figure looks like. */
  readonly says: string;
}

interface Factor {
  readonly slip: SlipId;
  readonly factor: number;
  readonly says: string;
  /** All kinds when left out. */
  readonly kinds?: readonly QuantityKind[];
}

/** The first that fits is named: those of one kind of quantity stand before those of all. */
const factors: readonly Factor[] = [
  {
    slip: 'inch-for-millimetre',
    kinds: ['length'],
    factor: convert(1, 'in').to('mm'),
    says: 'An inch is 25.4 mm, and your figure is off by just that.',
  },
  {
    slip: 'centimetre-for-millimetre',
    kinds: ['length'],
    factor: 10,
    says: 'A centimetre is 10 mm, and your figure is off by just that.',
  },
  {
    slip: 'fluid-ounce-for-millilitre',
    kinds: ['volume'],
    factor: convert(1, 'US fluid ounce').to('mL'),
    says: 'A US fluid ounce is 29.6 mL, and your figure is off by just that.',
  },
  {
    slip: 'cubic-inch-for-millilitre',
    kinds: ['volume'],
    factor: convert(1, 'in3').to('mL'),
    says: 'A cubic inch is 16.4 mL, and your figure is off by just that.',
  },
  {
    slip: 'litre-for-millilitre',
    kinds: ['volume'],
    factor: 1000,
    says: 'A cc is a mL, but a litre is 1000 mL and a mL is 1000 mm3: your figure is off by just that.',
  },
  {
    slip: 'ounce-for-gram',
    kinds: ['mass'],
    factor: convert(1, 'oz').to('g'),
    says: 'An ounce is 28.3 g, and your figure is off by just that.',
  },
  {
    slip: 'kilogram-for-gram',
    kinds: ['mass'],
    factor: 1000,
    says: 'A kilogram is 1000 g, and your figure is off by just that.',
  },
  {
    slip: 'per-second-for-per-minute',
    kinds: ['speed'],
    factor: 60,
    says: 'A turn a second is 60 turns a minute, and your figure is off by just that.',
  },
  {
    slip: 'hour-for-minute',
    kinds: ['duration'],
    factor: 60,
    says: 'An hour is 60 minutes, and your figure is off by just that.',
  },
  {
    slip: 'percent-for-share',
    kinds: ['share'],
    factor: 100,
    says: '15 percent is a share of 0.15: your figure is off by 100.',
  },
  {
    slip: 'density-unit',
    kinds: ['density'],
    factor: 1000,
    says: 'A g/mL is 1000 kg/m3, and your figure is off by just that.',
  },
  {
    slip: 'diameter-for-radius',
    kinds: ['length'],
    factor: 2,
    says: 'Off by two: a diameter taken for a radius does that.',
  },
  {
    slip: 'factor-of-two',
    factor: 2,
    says: 'Off by a factor of two: look for a half left out, or one bearing counted twice.',
  },
  {
    slip: 'diameter-for-radius',
    factor: 4,
    says: 'Off by four: an area worked out with the diameter where the radius belongs does that.',
  },
  { slip: 'decimal-point', factor: 10, says: 'Off by ten: the decimal point has moved one place.' },
  {
    slip: 'percent-for-share',
    factor: 100,
    says: 'Off by a hundred: a percentage was taken for a share, or the decimal point has moved two places.',
  },
  { slip: 'thousand', factor: 1000, says: 'Off by a thousand: milli or kilo was left out.' },
];

/** How near a factor has to be met, at least and at most; between them as near as the figure itself is known. */
const LEAST = 0.04;
const MOST = 0.1;

/** True when the figure equals the other within the width in which slips are recognised. */
export function meets(figure: number, other: number, plusMinus: number | undefined): boolean {
  if (figure === other) return true;
  if (other === 0 || !Number.isFinite(figure)) return false;
  const width = Math.min(MOST, Math.max(LEAST, Math.abs((plusMinus ?? 0) / other)));
  return Math.abs(figure / other - 1) <= width;
}

/**
 * The slip that turns `value` into `predicted` (both canonical), or none.
 * Values of zero and of unlike sign show no factor.
 */
export function factorSlip(
  predicted: number,
  value: number,
  kind: QuantityKind | undefined,
  plusMinus?: number,
): Slip | undefined {
  if (kind === 'temperature') {
    const asFahrenheit = convert(value, 'C').to('F');
    const asCelsius = convert(value, 'F').to('C');
    return [asFahrenheit, asCelsius].some((t) => Math.abs(t - predicted) <= 1)
      ? { slip: 'fahrenheit-for-celsius', says: 'That is the figure on the other scale: Fahrenheit for Celsius.' }
      : undefined;
  }
  if (value === 0 || predicted / value <= 0) return undefined;
  for (const f of factors) {
    if (f.kinds && !(kind && f.kinds.includes(kind))) continue;
    const relative = (plusMinus ?? 0) / Math.abs(value);
    for (const other of [value * f.factor, value / f.factor])
      if (meets(predicted, other, relative * Math.abs(other))) return { slip: f.slip, says: f.says };
  }
  return undefined;
}
