// @ts-nocheck
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
  ['1 lbf', 'force', '1 lbf', 'N'],
  ['1 kgf', 'force', '1 kgf', 'N'],
  ['2.5 kN', 'force', '2.5 kN', 'N'],
  ['36 Nm', 'torque', '36 N m', 'N m'],
  ['10 N·cm', 'torque', '10 N cm', 'N m'],
  ['1 ft-lb', 'torque', '1 lbf ft', 'N m'],
  ['1 lbf·in', 'torque', '1 lbf in', 'N m'],
  ['1 MPa', 'pressure', '1 MPa', 'bar'],
  ['1 mbar', 'pressure', '100 Pa', 'bar'],
  ['100 psi', 'pressure', '100 psi', 'bar'],
  ['15 mV', 'voltage', '15 mV', 'V'],
  ['6.6 kV', 'voltage', '6.6 kV', 'V'],
  ['20 mA', 'current', '20 mA', 'A'],
  ['5 µA', 'current', '5 uA', 'A'],
  ['120 Mohm', 'resistance', '120 megaohm', 'ohm'],
  ['120 MΩ', 'resistance', '120 megaohm', 'ohm'],
  ['120 megohms', 'resistance', '120 megaohm', 'ohm'],
  ['1.2 GΩ', 'resistance', '1.2 gigaohm', 'ohm'],
  ['4 mΩ', 'resistance', '4 milliohm', 'ohm'],
];

describe('units against mathjs (reference library)', () => {
  it.each(cases)('%s', (typed, kind, asked, canonical) => {
    const read = parseQuantity(typed, kind);
    expect(read.ok).toBe(true);
    if (read.ok) expect(Math.abs(read.value / unit(asked).toNumber(canonical) - 1)).toBeLessThan(1e-6);
  });
  // NIST Guide to the SI (SP 811, 2008), appendix B.8: foot pound-force, inch pound-force, psi.
  it('P: NIST SP 811, B.8: torque and pressure of the inch system', () => {
    const of = (text: string, kind: QuantityKind): number => {
      const read = parseQuantity(text, kind);
      return read.ok ? read.value : Number.NaN;
    };
    expect(of('1 lbf·ft', 'torque')).toBeCloseTo(1.355818, 5);
    expect(of('1 lbf·in', 'torque')).toBeCloseTo(0.1129848, 6);
    expect(of('1 psi', 'pressure')).toBeCloseTo(0.06894757, 7);
  });
  it('tells m from M, which are nine powers of ten apart', () => {
    for (const [text, kind] of [
      ['5 MV', 'voltage'],
      ['5 mPa', 'pressure'],
      ['5 MA', 'current'],
    ] as const)
      expect(parseQuantity(text, kind).ok, text).toBe(false);
    expect(parseQuantity('5 mohm', 'resistance')).toMatchObject({ ok: true, value: 0.005 });
    expect(parseQuantity('5 Mohm', 'resistance')).toMatchObject({ ok: true, value: 5e6 });
    expect(parseQuantity('5 megohm', 'resistance')).toMatchObject({ ok: true, value: 5e6 });
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
