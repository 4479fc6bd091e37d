/**
 * Insulation resistance of a winding against ground before power comes on, after one minute; ohm, said in megohm.
 * Least value at 40 degC: 5 for random-wound stators and all below 1 kV, 100 for form-wound ones of 1 kV and more; rated kV + 1 for
 * windings older than about 1970. The reading is brought to 40 degC: it halves for each 10 K, R40 = R 0.5^((40 - T) / 10).
 * Polarisation index, ten minutes over one: 2.0 at least, unless the reading at 40 degC is above 5000.
 * The maker's figure, where given, takes the place of the least value when it is higher. Test
 * voltage and discharge as in insulation-test.
 * A high figure proves no safe machine: it tells wet or dirty from dry. Done by licensed people on a machine that is locked out.
 * Source: IEEE 43 and IEC 60364-6, from memory.
 */
import { defineCalculator } from './define.js';
import { dischargeResult, dischargeShare, ratedVoltsInput, testVoltsFor, testVoltsResult } from './insulation-test.js';
import { choiceInput, figure, oneOf, quantityInput, result, usual, word } from './spec.js';
import { CalcRefusal } from './types.js';
import { propagate } from './uncertainty.js';

const megohm = (label: string, optional = false) => quantityInput(label, 'resistance', 'MΩ', [0, 1e13], optional);
/** ohm in a megohm. */
const mega = 1e6;

export const insulation = defineCalculator({
  name: 'insulation',
  title: 'Insulation resistance of the winding before power',
  inputs: {
    reading: megohm('Winding to ground after one minute'),
    temp: quantityInput('Temperature of the winding', 'temperature', 'degC', [-10, 130]),
    winding: choiceInput('Winding', ['random-wound', 'form-wound', 'before-1970', 'unknown'], true),
    ratedVolts: ratedVoltsInput,
    tenMinutes: megohm('The same after ten minutes', true),
    makers: megohm('Least value by the maker at 40 °C', true),
    dewPossible: { type: 'flag', label: 'The winding may be colder than the dew point', optional: true },
  },
  results: {
    verdict: oneOf('Before power', ['dry enough', 'dry it first', 'ask the maker']),
    at40: result('Brought to 40 °C', 'resistance', 'ohm'),
    least: result('Least value at 40 °C', 'resistance', 'ohm'),
    index: result('Polarisation index', 'ratio', ''),
    testVolts: testVoltsResult,
    discharge: dischargeResult,
    why: word('Why'),
  },
  formula: 'R40 = R 0.5^((40 - T) / 10) against the least value; index = R10 / R1',
  source: usual(
    'IEEE 43, least values, temperature correction and discharge, IEC 60364-6, test voltage of extra-low voltage, from memory',
  ),
  aliases: { random: 'random-wound', form: 'form-wound', old: 'before-1970' },
  run: (given) => {
    const [reading, temp] = [given.number('reading'), given.number('temp')];
    const volts = given.number('ratedVolts').value;
    const winding = given.maybeWord('winding') ?? 'unknown';
    const at40 = propagate({ reading, temp }, (x) => x.reading * 0.5 ** ((40 - x.temp) / 10));
    const published =
      mega * (winding === 'before-1970' ? volts / 1000 + 1 : winding === 'random-wound' || volts < 1000 ? 5 : 100);
    const makers = given.maybe('makers')?.value;
    const least = Math.max(published, makers ?? 0);
    const ten = given.maybe('tenMinutes');
    if (ten && ten.value < reading.value / 10)
      throw new CalcRefusal(
        'tenMinutes',
        `${figure(ten.value / mega)} MΩ after ten minutes against ${figure(reading.value / mega)} after one: it does not fall like that, read both again.`,
      );
    const index = ten && reading.value > 0 ? propagate({ ten, reading }, (x) => x.ten / x.reading) : undefined;
    const low = at40.value - (at40.plusMinus ?? 0);
    const indexLow = index !== undefined && index.value < 2 && at40.value <= 5000 * mega;
    const verdict =
      at40.value < least || given.flag('dewPossible')
        ? 'dry it first'
        : low < least || indexLow
          ? 'ask the maker'
          : 'dry enough';
    const why = given.flag('dewPossible')
      ? 'dew may lie on the winding: warm it above the dew point and measure again'
      : at40.value < least
        ? `${figure(at40.value / mega, 3)} MΩ at 40 °C is below ${figure(least / mega, 3)} MΩ: wet or dirty`
        : low < least
          ? `${figure(at40.value / mega, 3)} MΩ at 40 °C may lie below ${figure(least / mega, 3)} MΩ within its uncertainty`
          : indexLow
            ? `the index ${figure(index.value, 2)} is below 2: damp or dirt on the surface`
            : `${figure(at40.value / mega, 3)} MΩ at 40 °C, at least ${figure(least / mega, 3)} MΩ`;
    return {
      results: {
        verdict: { value: verdict },
        at40,
        least: { value: least },
        ...(index ? { index } : {}),
        testVolts: { value: testVoltsFor(volts) },
        discharge: { value: dischargeShare * (ten ? 10 : 1) },
        why: { value: why },
      },
      warnings: [
        'Locked out, proven dead, drive and sensors disconnected first; discharge the winding to ground afterwards. The maker’s instruction and licensed practice come before these figures.',
        'Two readings at like temperature, some hours apart, say more than one: a falling trend is damp.',
        ...(winding === 'unknown' && volts >= 1000
          ? ['The kind of winding is not known: the higher least value was taken.']
          : []),
        ...(Math.abs(temp.value - 40) > 30
          ? [`${figure(temp.value)} °C is far from 40 °C: the correction is rough, measure nearer to it.`]
          : []),
      ],
      worked: [
        `R40 = ${figure(reading.value / mega)} x 0.5^((40 - ${figure(temp.value)}) / 10) = ${figure(at40.value / mega)} MΩ`,
        `least = ${figure(published / mega)} MΩ${makers === undefined ? '' : `, maker ${figure(makers / mega)} MΩ`}`,
      ],
    };
  },
});
