/**
 * Test voltage for a winding against ground, V, and how long it is discharged to earth after one minute of it, min.
 * 250 V up to 120 V rated, 500 V below 1 kV, 1000 V to 2.5 kV, 2500 V to 5 kV, 5000 V above. Discharged for four times the test.
 * Known before anything is measured: it needs the rated voltage alone.
 * Source: IEEE 43 and IEC 60364-6 (extra-low voltage: 50 V AC or 120 V DC), from memory.
 */
import { defineCalculator } from './define.js';
import { figure, quantityInput, result, usual } from './spec.js';

/** V; up to here the winding may be made for no more than 250 V of test. */
const extraLow = 120;

/** Usual test voltage, V, for a rated voltage in V. */
export const testVoltsFor = (rated: number): number =>
  rated <= extraLow ? 250 : rated < 1000 ? 500 : rated <= 2500 ? 1000 : rated <= 5000 ? 2500 : 5000;

/** Time of the discharge to earth over time of the test. */
export const dischargeShare = 4;

export const ratedVoltsInput = quantityInput('Rated voltage', 'voltage', 'V', [12, 50_000]);
export const testVoltsResult = result('Usual test voltage', 'voltage', 'V');
export const dischargeResult = result('Then discharged to earth for at least', 'duration', 'min');

export const insulationTest = defineCalculator({
  name: 'insulation-test',
  title: 'Test voltage and discharge of an insulation test of one minute',
  inputs: { ratedVolts: ratedVoltsInput },
  results: { testVolts: testVoltsResult, discharge: dischargeResult },
  formula: 'by the rated voltage; discharge = 4 x time of the test',
  source: usual('IEEE 43, test voltages and discharge, IEC 60364-6, test voltage of extra-low voltage, from memory'),
  run: (given) => {
    const rated = given.number('ratedVolts').value;
    const volts = testVoltsFor(rated);
    return {
      results: { testVolts: { value: volts }, discharge: { value: dischargeShare } },
      warnings: [
        'Locked out, proven dead, drive and sensors disconnected first. The maker’s instruction and licensed practice come before these figures.',
      ],
      worked: [`${figure(rated)} V rated: ${figure(volts)} V for 1 min, then discharged ${dischargeShare} x 1 min`],
    };
  },
});
