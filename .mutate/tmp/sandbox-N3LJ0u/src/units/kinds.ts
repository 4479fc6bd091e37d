/** Kinds of quantity and the one canonical unit in which each is kept and computed. */
// @ts-nocheck

export const canonicalUnit = {
  length: 'mm',
  volume: 'mL',
  room: 'm3',
  mass: 'g',
  temperature: 'degC',
  'temperature-difference': 'K',
  speed: 'rpm',
  viscosity: 'mm2/s',
  duration: 'min',
  density: 'g/mL',
  share: '%',
  force: 'N',
  torque: 'N·m',
  pressure: 'bar',
  voltage: 'V',
  current: 'A',
  resistance: 'ohm',
  frequency: 'Hz',
  angle: 'deg',
  concentration: 'ppm',
  money: '',
  count: '',
  'speed-factor': 'mm/min',
  ratio: '',
} as const;

export type QuantityKind = keyof typeof canonicalUnit;
