/** What is expected of each kind, in words with an example: the second half of every complaint. */
// @ts-nocheck

import type { QuantityKind } from './kinds.js';

export const expected: Readonly<Record<QuantityKind, string>> = {
  length: 'a length such as 14.5 mm or 0.571 in',
  volume: 'a volume such as 1.5 mL, 1.5 cc or 3.5 fl oz',
  room: 'a room volume such as 40 m3 or 4 x 4 x 2.5 m',
  mass: 'a mass such as 128 g, 0.128 kg or 4.5 oz',
  temperature: 'a temperature such as 70 °C or 158 °F',
  'temperature-difference': 'a temperature difference such as 5 K',
  speed: 'a speed such as 12000 rpm or 12 krpm',
  viscosity: 'a viscosity such as 46 cSt or 46 mm2/s',
  duration: 'a time such as 90 min, 1.5 h or 1 h 30 min',
  density: 'a density such as 0.9 g/mL',
  share: 'a share such as 15 %',
  force: 'a force such as 250 N, 2.5 kN or 56 lbf',
  torque: 'a torque such as 36 N·m or 27 lbf·ft',
  pressure: 'a pressure such as 6 bar, 0.6 MPa or 87 psi',
  voltage: 'a voltage such as 500 V or 15 mV',
  current: 'a current such as 4.2 A or 20 mA',
  resistance: 'a resistance such as 120 MΩ, 120 Mohm or 0.4 ohm',
  frequency: 'a frequency such as 120 Hz',
  angle: 'an angle such as 15 deg',
  concentration: 'a concentration such as 250 ppm or 2.5 %',
  money: 'an amount such as 480',
  count: 'a whole number such as 8',
  'speed-factor': 'a speed factor such as 875000 mm/min',
  ratio: 'a number such as 1.5',
};

export const kindName: Readonly<Record<QuantityKind, string>> = {
  length: 'length',
  volume: 'volume',
  room: 'room volume',
  mass: 'mass',
  temperature: 'temperature',
  'temperature-difference': 'temperature difference',
  speed: 'speed',
  viscosity: 'viscosity',
  duration: 'time',
  density: 'density',
  share: 'share',
  force: 'force',
  torque: 'torque',
  pressure: 'pressure',
  voltage: 'voltage',
  current: 'current',
  resistance: 'resistance',
  frequency: 'frequency',
  angle: 'angle',
  concentration: 'concentration',
  money: 'amount of money',
  count: 'count',
  'speed-factor': 'speed factor',
  ratio: 'plain number',
};

/** Kinds that have a meaning below zero; any other refuses a minus. */
export const mayBeNegative: ReadonlySet<QuantityKind> = new Set([
  'temperature',
  'temperature-difference',
  'angle',
  'voltage',
  'current',
]);
/** Kinds in which `20.000` is more likely twenty thousand than twenty. */
export const usuallyWhole: ReadonlySet<QuantityKind> = new Set([
  'speed',
  'count',
  'money',
  'concentration',
  'speed-factor',
]);
