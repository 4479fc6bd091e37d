import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import type { QuantityKind } from '../../src/units/kinds.js';
import { parseQuantity } from '../../src/units/parse.js';

/** typed, kind, the same for mathjs, canonical unit for mathjs */
const cases: [string, QuantityKind, string, string][] = [
  ['1 in', 'length', '1 inch', 'mm'],
  ['1 thou', 'length', '1 mil', 'mm'],
  ['1 ft', 'length', '1 ft', 'mm'],
  ['1 m', 'length', '1 m', 'mm'],
  ['1 µm', 'length', '1 um', 'mm'],
  ['1 fl oz', 'volume', '1 fluidounce', 'cm^3'],
  ['1 cc', 'volume', '1 cm^3', 'cm^3'],
  ['1 L', 'volume', '1 l', 'cm^3'],
  ['1 in3', 'volume', '1 cuin', 'cm^3'],
  ['1 ft3', 'room', '1 cuft', 'm^3'],
  ['1 oz', 'mass', '1 ounce', 'g'],
  ['1 lb', 'mass', '1 poundmass', 'g'],
  ['158 °F', 'temperature', '158 degF', 'degC'],
  ['343.15 K', 'temperature', '343.15 K', 'degC'],
  ['1.5 h', 'duration', '1.5 hour', 'minute'],
  ['2 d', 'duration', '2 day', 'minute'],
  ['30 s', 'duration', '30 second', 'minute'],
  ['1 St', 'viscosity', '1 cm^2/s', 'mm^2/s'],
  ['1 m2/s', 'viscosity', '1 m^2/s', 'mm^2/s'],
  ['900 kg/m3', 'density', '900 kg/m^3', 'g/cm^3'],
  ['1 rad', 'angle', '1 rad', 'deg'],
  ['1 kHz', 'frequency', '1 kHz', 'Hz'],
];

describe('units against mathjs (reference library)', () => {
  it.each(cases)('%s', (typed, kind, asked, canonical) => {
    const read = parseQuantity(typed, kind);
    expect(read.ok).toBe(true);
    if (read.ok) expect(Math.abs(read.value / unit(asked).toNumber(canonical) - 1)).toBeLessThan(1e-6);
  });
  it('P: NIST SP 811: inch, ounce and fluid ounce', () => {
    const of = (text: string, kind: QuantityKind): number => {
      const read = parseQuantity(text, kind);
      return read.ok ? read.value : Number.NaN;
    };
    expect(of('1 in', 'length')).toBe(25.4);
    expect(of('1 oz', 'mass')).toBeCloseTo(28.3495, 4);
    expect(of('1 fl oz', 'volume')).toBeCloseTo(29.5735, 4);
    expect(of('0.571 in', 'length')).toBeCloseTo(14.5034, 9);
  });
});
