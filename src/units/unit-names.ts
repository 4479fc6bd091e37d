/**
 * The units that people type, by kind. Factors come from the `convert` package;
 * rpm, cSt, density, ppm, speed factor and the electrical ones are ours because it has none of them.
 */
import { convert } from 'convert';
import { currencyOf } from './currency.js';
import type { QuantityKind } from './kinds.js';
import type { ShownUnit } from './shown-units.js';

export interface Unit<Shown extends string = string> {
  /** Spellings in lower case and without blanks; the first is how the unit is shown. */
  readonly names: readonly string[];
  readonly show: Shown;
  /** Spellings that stand for this unit only with their first letter just so: MΩ is a thousand million mΩ. */
  readonly cased?: readonly string[];
  /** To the canonical unit of the kind. */
  readonly to: (value: number) => number;
  readonly from: (value: number) => number;
}

/** Floating-point dust of a conversion (1 L = 1000.0000000000001 mL) is cut at 13 figures. */
export const tidy = (value: number): number => (Number.isFinite(value) ? Number(value.toPrecision(13)) : value);

function by<S extends ShownUnit>(factor: number, show: S, ...more: string[]): Unit<S> {
  const exact = tidy(factor);
  return {
    show,
    names: [spelling(show), ...more.map(spelling)],
    to: (value) => tidy(value * exact),
    from: (value) => tidy(value / exact),
  };
}

/** One spelling for all ways to write the same unit: lower case, no blanks, plain micro, quotes and dots. */
function spelling(text: string): string {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[\s^]/g, '')
    .replace(/[\u2212\u2010-\u2013]/g, '-')
    .replace(/[\u201c\u201d\u2033]|''|\u2032\u2032/g, '"')
    .replace(/[µμ]/g, 'u')
    .replace(/º|˚/g, '°')
    .replace(/[·⋅•]/g, '*')
    .replace(/\.$/, '');
}

/** A unit of which the first letter tells m from M, unless the prefix is spelt out. */
function cased<S extends ShownUnit>(factor: number, show: S, ...more: string[]): Unit<S> {
  const letter = show.slice(0, 1);
  const same = [show, ...more].filter((name) => name.startsWith(letter) && !/^(milli|meg)/i.test(name));
  return { ...by(factor, show, ...more), cased: same.map((name) => letter + spelling(name).slice(1)) };
}

const poundForce = convert(1, 'lbf').to('N');
const cubicFoot = convert(1, 'ft3');
const one = <S extends ShownUnit>(show: S, ...more: string[]): Unit<S> => by(1, show, ...more);

export const units: { readonly [K in QuantityKind]: readonly Unit<ShownUnit<K>>[] } = {
  length: [
    one('mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'),
    by(convert(1, 'cm').to('mm'), 'cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'),
    by(convert(1, 'm').to('mm'), 'm', 'metre', 'metres', 'meter', 'meters'),
    by(convert(1, 'in').to('mm'), 'in', 'inch', 'inches', '"'),
    by(convert(0.001, 'in').to('mm'), 'thou'),
    by(convert(1, 'ft').to('mm'), 'ft', 'foot', 'feet'),
    by(convert(1, 'micrometer').to('mm'), 'µm', 'um', 'micron', 'microns'),
  ],
  volume: [
    one('mL', 'cc', 'ccm', 'cm3', 'millilitre', 'millilitres', 'milliliter', 'milliliters'),
    by(convert(1, 'microliter').to('mL'), 'µL', 'ul', 'mm3'),
    by(convert(1, 'cL').to('mL'), 'cL'),
    by(convert(1, 'L').to('mL'), 'L', 'litre', 'litres', 'liter', 'liters', 'dm3'),
    by(
      convert(1, 'US fluid ounce').to('mL'),
      'fl oz',
      'fl. oz',
      'us fl oz',
      'floz.',
      'fluid ounce',
      'fluid ounces',
      'ozfl',
    ),
    by(convert(1, 'in3').to('mL'), 'in3', 'cu in', 'cuin.'),
  ],
  room: [
    one('m3', 'cbm', 'cubic metre', 'cubic metres', 'cubic meter', 'cubic meters', 'cu m'),
    by(convert(1, 'L').to('m3'), 'L', 'litre', 'litres', 'liter', 'liters', 'dm3'),
    by(cubicFoot.to('m3'), 'ft3', 'cu ft', 'cubic foot', 'cubic feet', 'cuft.'),
  ],
  mass: [
    one('g', 'gram', 'grams', 'gramme', 'grammes'),
    by(convert(1, 'mg').to('g'), 'mg', 'milligram', 'milligrams'),
    by(convert(1, 'kg').to('g'), 'kg', 'kilo', 'kilogram', 'kilograms'),
    by(convert(1, 'oz').to('g'), 'oz', 'ounce', 'ounces'),
    by(convert(1, 'lb').to('g'), 'lb', 'lbs', 'pound', 'pounds'),
  ],
  temperature: [
    one('°C', 'c', 'degc', 'celsius', 'deg c'),
    {
      show: '°F',
      names: ['°f', 'f', 'degf', 'fahrenheit'],
      to: (value) => tidy(convert(value, 'F').to('C')),
      from: (value) => tidy(convert(value, 'C').to('F')),
    },
    {
      show: 'K',
      names: ['k', 'kelvin'],
      to: (value) => tidy(convert(value, 'K').to('C')),
      from: (value) => tidy(convert(value, 'C').to('K')),
    },
  ],
  'temperature-difference': [one('K', 'kelvin', '°c', 'c', 'degc', 'deg'), by(5 / 9, '°F', 'f', 'degf')],
  speed: [
    one('rpm', 'r/min', 'rev/min', 'u/min', '1/min', '/min', 'min-1', 'revs/min', 'r.p.m', 'rpm.', 'upm'),
    by(1000, 'krpm', 'kr/min', 'k rpm'),
    by(60, 'r/s', 'rps', 'rev/s', '1/s', 's-1'),
  ],
  viscosity: [one('mm2/s', 'cst', 'centistokes', 'centistoke', 'sqmm/s'), by(100, 'St'), by(1e6, 'm2/s')],
  duration: [
    one('min', 'm', 'mins', 'minute', 'minutes'),
    by(convert(1, 's').to('min'), 's', 'sec', 'secs', 'second', 'seconds'),
    by(convert(1, 'h').to('min'), 'h', 'hr', 'hrs', 'hour', 'hours'),
    by(convert(1, 'd').to('min'), 'd', 'day', 'days'),
    by(convert(1, 'week').to('min'), 'week', 'weeks', 'wk'),
  ],
  density: [one('g/mL', 'g/cm3', 'g/cc', 'kg/l', 'kg/dm3', 'g/ccm'), by(0.001, 'kg/m3', 'g/l')],
  share: [one('%', 'percent', 'pct', 'per cent', 'pc')],
  force: [
    one('N', 'newton', 'newtons'),
    by(1000, 'kN', 'kilonewton', 'kilonewtons'),
    by(poundForce, 'lbf', 'lb', 'lbs', 'pound-force', 'pounds-force'),
    by(convert(1, 'kgf').to('N'), 'kgf', 'kp', 'kilogram-force'),
  ],
  torque: [
    one('N·m', 'nm', 'n-m', 'newton metre', 'newton metres', 'newton meter', 'newton meters'),
    by(0.01, 'N·cm', 'ncm', 'n-cm'),
    by(1000, 'kN·m', 'knm', 'kn-m'),
    by(
      poundForce * convert(1, 'ft').to('m'),
      'lbf·ft',
      'lbfft',
      'ft·lbf',
      'ftlbf',
      'lb·ft',
      'lb-ft',
      'lbft',
      'ft-lb',
      'ft·lb',
      'ftlb',
      'ft-lbs',
      'ftlbs',
    ),
    by(
      poundForce * convert(1, 'in').to('m'),
      'lbf·in',
      'lbfin',
      'in·lbf',
      'inlbf',
      'lb·in',
      'lb-in',
      'lbin',
      'in-lb',
      'in·lb',
      'inlb',
      'in-lbs',
      'inlbs',
    ),
  ],
  pressure: [
    one('bar', 'bars'),
    cased(convert(1, 'mbar').to('bar'), 'mbar', 'hPa', 'millibar'),
    by(convert(1, 'kPa').to('bar'), 'kPa'),
    cased(convert(1, 'MPa').to('bar'), 'MPa', 'N/mm2'),
    by(convert(1, 'Pa').to('bar'), 'Pa', 'pascal'),
    by(convert(1, 'psi').to('bar'), 'psi', 'lbf/in2', 'lb/in2'),
  ],
  voltage: [
    one('V', 'volt', 'volts'),
    cased(0.001, 'mV', 'millivolt', 'millivolts'),
    by(1000, 'kV', 'kilovolt', 'kilovolts'),
  ],
  current: [
    one('A', 'amp', 'amps', 'ampere', 'amperes'),
    cased(0.001, 'mA', 'milliamp', 'milliamps', 'milliampere', 'milliamperes'),
    by(1e-6, 'µA', 'ua', 'microamp', 'microamps'),
    by(1000, 'kA'),
  ],
  resistance: [
    one('Ω', 'ohm', 'ohms'),
    cased(0.001, 'mΩ', 'mohm', 'milliohm', 'milliohms'),
    by(1000, 'kΩ', 'kohm', 'kilohm', 'kilohms'),
    cased(1e6, 'MΩ', 'Mohm', 'megohm', 'megohms', 'megaohm', 'meg'),
    by(1e9, 'GΩ', 'gohm', 'gigohm', 'gigohms', 'gigaohm'),
  ],
  frequency: [one('Hz', 'hertz'), by(convert(1, 'kHz').to('Hz'), 'kHz')],
  angle: [one('°', 'deg', 'degree', 'degrees'), by(convert(1, 'rad').to('deg'), 'rad', 'radian', 'radians')],
  concentration: [one('ppm', 'ml/m3'), by(10_000, '%', 'percent', 'vol%', '%vol')],
  money: [one('', '€', '$', '£')],
  count: [one('', 'x', 'pcs', 'pc', 'pieces', 'balls')],
  'speed-factor': [one('mm/min', 'mm*rpm', 'rpm*mm', 'mmrpm', 'rpmmm'), by(1000, 'm/min')],
  ratio: [one('', 'x')],
};

/** `typed` tells a small first letter from a capital. */
function isCalled(unit: Unit, wanted: string, typed: string): boolean {
  if (!unit.names.includes(wanted)) return false;
  const firm = unit.cased?.some((name) => name.toLowerCase() === wanted);
  return !firm || unit.cased?.includes(typed.slice(0, 1) + wanted.slice(1)) === true;
}

/** The unit of that spelling, or nothing. Money takes the code of a currency. */
export function findUnit(text: string, kind: QuantityKind): Unit | undefined {
  const wanted = spelling(text);
  const found = units[kind].find((unit) => isCalled(unit, wanted, text.trim()));
  if (found) return found;
  if (kind === 'money' && currencyOf(wanted)) return units.money[0];
  return undefined;
}

/** Kinds in which that spelling is a unit: the hint when someone types ounces for a volume. */
export function kindsOfUnit(text: string): QuantityKind[] {
  const wanted = spelling(text);
  if (wanted === '') return [];
  return (Object.keys(units) as QuantityKind[]).filter((kind) =>
    units[kind].some((u) => isCalled(u, wanted, text.trim())),
  );
}
