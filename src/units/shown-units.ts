/**
 * Every unit as it is shown, by kind, the canonical one first: light enough for whoever only has to know one where it
 * stands in a text. The compiler holds the table of factors (unit-names.ts) and the usual ones (presets.ts) against it.
 */
import type { QuantityKind } from './kinds.js';

export const shownUnits = {
  length: ['mm', 'cm', 'm', 'in', 'thou', 'ft', 'µm'],
  volume: ['mL', 'µL', 'cL', 'L', 'fl oz', 'in3'],
  room: ['m3', 'L', 'ft3'],
  mass: ['g', 'mg', 'kg', 'oz', 'lb'],
  temperature: ['°C', '°F', 'K'],
  'temperature-difference': ['K', '°F'],
  speed: ['rpm', 'krpm', 'r/s'],
  viscosity: ['mm2/s', 'St', 'm2/s'],
  duration: ['min', 's', 'h', 'd', 'week'],
  density: ['g/mL', 'kg/m3'],
  share: ['%'],
  force: ['N', 'kN', 'lbf', 'kgf'],
  torque: ['N·m', 'N·cm', 'kN·m', 'lbf·ft', 'lbf·in'],
  pressure: ['bar', 'mbar', 'kPa', 'MPa', 'Pa', 'psi'],
  voltage: ['V', 'mV', 'kV'],
  current: ['A', 'mA', 'µA', 'kA'],
  resistance: ['Ω', 'mΩ', 'kΩ', 'MΩ', 'GΩ'],
  frequency: ['Hz', 'kHz'],
  angle: ['°', 'rad'],
  concentration: ['ppm', '%'],
  money: [''],
  count: [''],
  'speed-factor': ['mm/min', 'm/min'],
  ratio: [''],
} as const satisfies Readonly<Record<QuantityKind, readonly string[]>>;

export type ShownUnit<K extends QuantityKind = QuantityKind> = (typeof shownUnits)[K][number];

/** How a long time is shown, beside the units that it is typed in. */
export const inDays = 'days';

const names = [...new Set([...Object.values(shownUnits).flat(), inDays])].filter(Boolean);
/** The longest first, or `m` would be found in `mm2/s`; a unit of a quotient such as `mm/mL` is two. */
const one = `(?:${names.sort((a, b) => b.length - a.length).join('|')})`;
const behindFigure = new RegExp(`(?<=\\d) (${one}(?:/${one})?)(?![\\p{L}\\d])`, 'gu');

/** A figure, its half width and its unit stay on one line: their blanks become ones at which nothing breaks. */
export const heldTogether = (text: string): string =>
  text
    .replaceAll(' ± ', '\u00a0±\u00a0')
    .replace(behindFigure, (_, unit: string) => `\u00a0${unit.replaceAll(' ', '\u00a0')}`);
