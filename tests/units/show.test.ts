import { describe, expect, it } from 'vitest';
import type { QuantityKind } from '../../src/units/kinds.js';
import { type ShowOptions, showQuantity } from '../../src/units/show.js';

describe('showQuantity', () => {
  const cases: [number, QuantityKind, ShowOptions, string][] = [
    [120e6, 'resistance', {}, '120 MΩ'],
    [0.004, 'resistance', {}, '4 mΩ'],
    [0, 'resistance', {}, '0 Ω'],
    // What subtracting equal figures leaves of them.
    [-4.67e-14, 'share', {}, '0 %'],
    [-4.67e-14, 'share', { roundBy: 2 }, '0 %'],
    [2.2e-15, 'duration', {}, '0 min'],
    [999, 'resistance', {}, '999 Ω'],
    [2.5e9, 'resistance', { plusMinus: 0.1e9 }, '2.5 ± 0.1 GΩ'],
    [120e6, 'resistance', { unit: 'kΩ' }, '120\u00a0000 kΩ'],
    [-0.015, 'voltage', {}, '-15 mV'],
    [36, 'torque', { plusMinus: 1.8 }, '36.0 ± 1.8 N·m'],
    [0.3, 'pressure', {}, '300 mbar'],
    [1800, 'force', {}, '1.8 kN'],
    [14.5, 'length', { plusMinus: 0.1 }, '14.5 ± 0.1 mm'],
    [14.5, 'length', { plusMinus: 0.05 }, '14.50 ± 0.05 mm'],
    [14.5034, 'length', {}, '14.5 mm'],
    [14.5034, 'length', { unit: 'in' }, '0.571 in'],
    [0.86512, 'volume', {}, '0.8651 mL'],
    [1500, 'volume', {}, '1.5 L'],
    [2000, 'volume', { plusMinus: 100 }, '2.0 ± 0.1 L'],
    [500, 'volume', {}, '500 mL'],
    [0.865, 'volume', { plusMinus: 0.14 }, '0.87 ± 0.14 mL'],
    [4.512, 'volume', { plusMinus: 0.98, least: 3 }, '4.51 ± 0.98 mL'],
    [11.3, 'volume', { plusMinus: 2.1, least: 3 }, '11.3 ± 2.1 mL'],
    [11.3, 'volume', { roundBy: 2.1, least: 3 }, '11.3 mL'],
    [0, 'volume', { roundBy: 2.1, least: 3 }, '0 mL'],
    [1234, 'length', { plusMinus: 56 }, '1230 ± 60 mm'],
    // Rounded by a half width that is not shown.
    [0.4389, 'volume', { roundBy: 0.06 }, '0.44 mL'],
    [0.4389, 'volume', { roundBy: 0.6 }, '0.4 mL'],
    [0.4389, 'volume', { roundBy: 0.0001 }, '0.4389 mL'],
    [0, 'volume', { roundBy: 0.6 }, '0 mL'],
    [13000, 'speed', { roundBy: 420 }, '13\u00a0000 rpm'],
    [10920, 'speed', { roundBy: 420 }, '10\u00a0900 rpm'],
    // What a hand sets by a rule keeps its tenth of a millimetre.
    [44.2347, 'length', { roundBy: 3 }, '44.2 mm'],
    [7.484, 'length', { roundBy: 0.4 }, '7.5 mm'],
    [4.968, 'length', { roundBy: 0.08 }, '5.0 mm'],
    [7.938, 'length', { roundBy: 0.01 }, '7.94 mm'],
    [1234, 'length', { roundBy: 56 }, '1234 mm'],
    // What was worked out has no more figures than a hand can set, whatever they are.
    [13104, 'speed', { figures: 3 }, '13\u00a0100 rpm'],
    [1444, 'speed', { figures: 3 }, '1444 rpm'],
    [4.1434, 'length', { figures: 3 }, '4.1 mm'],
    [0.8534, 'length', { figures: 3 }, '0.853 mm'],
    [13104, 'speed', {}, '13\u00a0104 rpm'],
    // A reading keeps the figures that were read.
    [0.94, 'density', { plusMinus: 0.1, asRead: true }, '0.94 ± 0.1 g/mL'],
    [14.5, 'length', { plusMinus: 0.05, asRead: true }, '14.50 ± 0.05 mm'],
    [90, 'duration', {}, '1 h 30 min'],
    [45, 'duration', {}, '45 min'],
    [0.5, 'duration', {}, '30 s'],
    [59.99, 'duration', {}, '1 h'],
    [120, 'duration', {}, '2 h'],
    [90, 'duration', { unit: 'h' }, '1.5 h'],
    [15, 'share', {}, '15 %'],
    [70, 'temperature', {}, '70 °C'],
    [70, 'temperature', { unit: '°F' }, '158 °F'],
    [70, 'temperature', { plusMinus: 5, unit: '°F' }, '158 ± 9 °F'],
    [-0.0001, 'temperature', { plusMinus: 1 }, '0 ± 1 °C'],
    [12000, 'speed', {}, '12\u00a0000 rpm'],
    [1200, 'speed', {}, '1200 rpm'],
    [45678, 'speed', { unit: 'krpm' }, '45.68 krpm'],
    [1080000, 'speed-factor', {}, '1\u00a0080\u00a0000 mm/min'],
    [8, 'count', {}, '8'],
    [480, 'money', {}, '480'],
    [480.5, 'money', {}, '480.50'],
    [15, 'angle', {}, '15°'],
    [0, 'volume', {}, '0 mL'],
    [Number.NaN, 'volume', {}, '-'],
  ];
  it.each(cases)('shows %s %s %j as %s', (value, kind, options, text) => {
    expect(showQuantity(value, kind, options)).toBe(text);
  });
});
