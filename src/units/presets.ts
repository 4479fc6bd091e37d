/** Units that ↑ and ↓ go through while a figure is typed, by kind, the usual first. */
import type { QuantityKind } from './kinds.js';
import type { ShownUnit } from './shown-units.js';

export const unitPresets: { readonly [K in QuantityKind]: readonly ShownUnit<K>[] } = {
  length: ['mm', 'cm', 'in'],
  volume: ['mL', 'µL', 'fl oz'],
  room: ['m3', 'ft3', 'L'],
  mass: ['g', 'mg', 'kg', 'oz'],
  temperature: ['°C', '°F'],
  'temperature-difference': ['K', '°F'],
  speed: ['rpm', 'krpm', 'r/s'],
  viscosity: ['mm2/s'],
  duration: ['min', 'h', 's', 'd'],
  density: ['g/mL', 'kg/m3'],
  share: ['%'],
  force: ['N', 'kN', 'lbf'],
  torque: ['N·m', 'N·cm', 'lbf·ft', 'lbf·in'],
  pressure: ['bar', 'kPa', 'MPa', 'psi'],
  voltage: ['V', 'mV', 'kV'],
  current: ['A', 'mA'],
  resistance: ['Ω', 'mΩ', 'kΩ', 'MΩ', 'GΩ'],
  frequency: ['Hz', 'kHz'],
  angle: ['°', 'rad'],
  concentration: ['ppm', '%'],
  money: [''],
  count: [''],
  'speed-factor': ['mm/min'],
  ratio: [''],
};
