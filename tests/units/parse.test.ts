import { describe, expect, it } from 'vitest';
import type { QuantityKind } from '../../src/units/kinds.js';
import { parseDimensions, parseQuantity } from '../../src/units/parse.js';
import { unitPresets } from '../../src/units/presets.js';

/** Typed, kind, canonical value: factors are those of NIST SP 811 (1 in = 25.4 mm, 1 US fl oz = 29.5735 mL, P). */
const good: [string, QuantityKind, number][] = [
  ['0.571 in', 'length', 14.5034],
  ['.571"', 'length', 14.5034],
  ['0,571 in', 'length', 14.5034],
  ['1/2 in', 'length', 12.7],
  ['½ in', 'length', 12.7],
  ['1 1/2 in', 'length', 38.1],
  ['1½"', 'length', 38.1],
  ['14,5 mm', 'length', 14.5],
  ['14.500 mm', 'length', 14.5],
  ['14.5', 'length', 14.5],
  ['1.2 m', 'length', 1200],
  ['50 µm', 'length', 0.05],
  ['1.5cc', 'volume', 1.5],
  ['1 ml', 'volume', 1],
  ['1 ML', 'volume', 1],
  ['3.5 fl oz', 'volume', 103.5073534],
  ['3.5 fl. oz.', 'volume', 103.5073534],
  ['500 mm3', 'volume', 0.5],
  ['500 mm³', 'volume', 0.5],
  ['1 L', 'volume', 1000],
  ['158F', 'temperature', 70],
  ['158 °F', 'temperature', 70],
  ['70 ° C', 'temperature', 70],
  ['70', 'temperature', 70],
  ['-18 C', 'temperature', -18],
  ['−18 °C', 'temperature', -18],
  ['343.15 K', 'temperature', 70],
  ['12000 rpm', 'speed', 12000],
  ['12 000 rpm', 'speed', 12000],
  ['12krpm', 'speed', 12000],
  ['12.000 krpm', 'speed', 12000],
  ['12 krpm', 'speed', 12000],
  ['200 r/s', 'speed', 12000],
  ['12000 min⁻¹', 'speed', 12000],
  ['1.2e4 rpm', 'speed', 12000],
  ['15%', 'share', 15],
  ['15 %', 'share', 15],
  ['46 cSt', 'viscosity', 46],
  ['46 mm2/s', 'viscosity', 46],
  ['46 mm²/s', 'viscosity', 46],
  ['46 mm^2/s', 'viscosity', 46],
  ['0.128 kg', 'mass', 128],
  ['1 oz', 'mass', 28.349523125],
  ['1.5 h', 'duration', 90],
  ['1 h 30 min', 'duration', 90],
  ['1h30', 'duration', 90],
  ['90 min', 'duration', 90],
  ['90', 'duration', 90],
  ['30 s', 'duration', 0.5],
  ['2 d', 'duration', 2880],
  ['40 m3', 'room', 40],
  ['4 x 4 x 2.5 m', 'room', 40],
  ['400x400x250 cm', 'room', 40],
  ['900 kg/m3', 'density', 0.9],
  ['0.9 g/cm³', 'density', 0.9],
  ['2.5 %', 'concentration', 25000],
  ['15°', 'angle', 15],
  ['€ 480', 'money', 480],
  ['480 EUR', 'money', 480],
  ['8', 'count', 8],
  ['8 balls', 'count', 8],
  ['875 000', 'speed-factor', 875000],
];

describe('parseQuantity', () => {
  it.each(good)('reads %s as %s', (text, kind, value) => {
    const read = parseQuantity(text, kind);
    expect(read).toMatchObject({ ok: true });
    if (read.ok) expect(read.value).toBeCloseTo(value, 6);
  });

  const widths: [string, QuantityKind, number, number][] = [
    ['14.5 +- 0.1 mm', 'length', 14.5, 0.1],
    ['14.5 mm ± 0.1', 'length', 14.5, 0.1],
    ['14.5 mm +/- 0.1 mm', 'length', 14.5, 0.1],
    ['0.571 +- 0.004 in', 'length', 14.5034, 0.1016],
    ['0.571 in +- 0.1 mm', 'length', 14.5034, 0.1],
    ['14.5 mm +- 2 %', 'length', 14.5, 0.29],
    ['15 +- 2 %', 'share', 15, 2],
    ['158 +- 9 °F', 'temperature', 70, 5],
    ['70 °C +- 5 K', 'temperature', 70, 5],
    ['70 +- 5 K', 'temperature', 70, 5],
  ];
  it.each(widths)('reads the width of %s', (text, kind, value, plusMinus) => {
    const read = parseQuantity(text, kind);
    expect(read.ok, JSON.stringify(read)).toBe(true);
    if (!read.ok) return;
    expect(read.value).toBeCloseTo(value, 6);
    expect(read.plusMinus).toBeCloseTo(plusMinus, 6);
  });

  const bad: [string, QuantityKind, RegExp][] = [
    ['', 'length', /Nothing was typed.*14\.5 mm/],
    ['20,000 rpm', 'speed', /20000 or 20: type 20000 or 20/],
    ['20,000', 'speed', /type 20000 or 20/],
    ['20.000 rpm', 'speed', /type 20000 or 20/],
    ['14,500 mm', 'length', /type 14500 or 14\.5/],
    ['1,23,456', 'speed', /more than one point or comma/],
    ['1,234.567,8', 'speed', /more than one point or comma/],
    // Thousands behind a comma can be meant as well as a fraction, however they are shortened.
    ['1,600k', 'speed-factor', /type 1600 or 1\.6/],
    ['1.600M', 'speed-factor', /type 1600 or 1\.6/],
    ['1,600x10^3', 'speed-factor', /can mean 1600000 or 1600/],
    // Where the letter is a unit of another kind, or of none, it stays refused.
    ['15k', 'length', /unit of temperature|not a unit/],
    ['15m', 'speed', /unit of length/],
    ['1.6x10', 'speed-factor', /unit|number/],
    ['NaN', 'length', /no number/],
    ['Infinity', 'length', /no number/],
    ['1e999 mm', 'length', /too large/],
    ['1e-999 mm', 'length', /too small/],
    ['1/0 in', 'length', /divides by zero/],
    ['0x10', 'length', /not a unit/],
    ['3.5 oz', 'volume', /fl oz/],
    ['3.5 fl oz', 'mass', /volume/],
    ['14.5 kg', 'length', /unit of mass: type a length/],
    ['14.5 furlongs', 'length', /not a unit of length/],
    ['mm', 'length', /no number/],
    ['-3 mm', 'length', /negative/],
    ['-300 C', 'temperature', /absolute zero/],
    ['8.5', 'count', /fractions/],
    ['10²', 'length', /raised/],
    ['1:30', 'duration', /hours or minutes/],
    ['14.5 +-', 'length', /Nothing follows/],
    ['14.5 +- 0.1 +- 2', 'length', /more than one \+-/],
    ['14.5 +- -1', 'length', /negative/],
    ['9'.repeat(5000), 'length', /too long/],
    ['9'.repeat(70), 'length', /too large/],
    ['4 x 4 m', 'room', /2 of 3 lengths.*40 m3/],
  ];
  it.each(bad)('refuses %s for %s in one sentence', (text, kind, message) => {
    const read = parseQuantity(text, kind);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.message).toMatch(message);
    expect(read.message).toMatch(/\.$/);
    expect(read.message).not.toMatch(/[.!?] [A-Z].*[.!?] [A-Z]/);
    expect(read.message.length).toBeLessThan(240);
  });

  it('keeps the unit as typed and uses the bare unit when none was', () => {
    expect(parseQuantity('1.5cc', 'volume')).toMatchObject({ unit: 'cc' });
    expect(parseQuantity('0.571', 'length', 'in')).toMatchObject({ value: 14.5034, unit: 'in' });
  });

  it('reads every preset unit', () => {
    for (const [kind, names] of Object.entries(unitPresets))
      for (const name of names)
        expect(parseQuantity(`5 ${name}`, kind as QuantityKind), `${kind} ${name}`).toHaveProperty('ok', true);
  });
});

describe('parseDimensions', () => {
  const cases: [string, number, number[]][] = [
    ['12x9x4 mm', 3, [12, 9, 4]],
    ['12 × 9 × 4', 3, [12, 9, 4]],
    ['10mm x 10mm x 5mm', 3, [10, 10, 5]],
    ['1 x 1 x 0.5 cm', 3, [10, 10, 5]],
    ['1 in x 10 mm', 2, [25.4, 10]],
    ['10 by 5', 2, [10, 5]],
    ['10,5*5', 2, [10.5, 5]],
  ];
  it.each(cases)('reads %s', (text, count, values) => {
    const read = parseDimensions(text, count);
    expect(read.ok, JSON.stringify(read)).toBe(true);
    if (read.ok) expect(read.values.map((v) => Number(v.toFixed(9)))).toEqual(values);
  });
  const bad: [string, RegExp][] = [
    ['10x10', /2 of 3/],
    ['', /Nothing/],
    ['10 mm x 1 in x 5', /not clear/],
    ['10xx5', /no number|of 3|Nothing/],
    ['10 kg x 1 kg x 1 kg', /mass|not a unit/],
  ];
  it.each(bad)('refuses %s', (text, message) => {
    const read = parseDimensions(text, 3);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.message).toMatch(message);
  });
});
