/**
 * How long degreased bearing steel has lain, and what that asks for before grease goes in.
 * Hours from the white cloth: bare and covered 4, uncovered or after coolant 1, under a film of oil 72, film and bag 336; half of it
 * in air above 60 %. Within: pack. Beyond: look, smell and white cloth again; bare for a day: wash again as well.
 * Dew: a ring that a solvent has chilled below the dew point + 3 K draws water and is warmed first. Dew point by Magnus:
 * g = ln(rh / 100) + 17.62 T / (243.12 + T), dew = 243.12 g / (17.62 - g); -45 to 60 degC (WMO No. 8, from memory).
 * The hours are this guide's own caution (table bare-steel-rules).
 */
import { defineCalculator } from './define.js';
import { choiceInput, commonPractice, figure, oneOf, quantityInput, result, usual, word, yesNoResult } from './spec.js';
import { constant } from './table.js';
import { propagate } from './uncertainty.js';

const dewOf = (air: number, humidity: number): number => {
  const g = Math.log(humidity / 100) + (17.62 * air) / (243.12 + air);
  return (243.12 * g) / (17.62 - g);
};

export const bareSteel = defineCalculator({
  name: 'bare-steel',
  title: 'Clock of bare steel, and dew',
  inputs: {
    hours: quantityInput('Hours since the white cloth', 'ratio', 'h', [0, 100_000]),
    kept: choiceInput('How it lay', ['uncovered', 'covered', 'film', 'film-and-bag', 'unknown'], true),
    coolant: { type: 'flag', label: 'Coolant or water was inside', optional: true },
    air: quantityInput('Air in the shop', 'temperature', 'degC', [-40, 60], true),
    humidity: quantityInput('Relative humidity', 'share', '%', [1, 100], true),
    ring: quantityInput('Temperature of the ring', 'temperature', 'degC', [-40, 100], true),
  },
  results: {
    verdict: oneOf('Before grease goes in', ['pack now', 'look again', 'wash again']),
    steps: word('What to do', true),
    allowed: result('Hours that it may lie so', 'ratio', 'h'),
    left: result('Hours left', 'ratio', 'h'),
    dewPoint: result('Dew point', 'temperature', 'degC'),
    dew: oneOf('Dew on the ring', ['yes', 'no', 'not known']),
    damp: yesNoResult('Air is damp'),
  },
  formula: 'hours against those of its state; ring against dew point + 3 K',
  source: commonPractice('hours that bare bearing steel may lie'),
  constants: { magnus: usual('Magnus formula, WMO No. 8, from memory') },
  aliases: { bag: 'film-and-bag', oil: 'film', open: 'uncovered', preserved: 'film' },
  run: (given, tables) => {
    const rule = (id: string): number => constant(tables, 'bare-steel-rules', id).value;
    const kept = given.maybeWord('kept') ?? 'unknown';
    const oiled = kept === 'film' || kept === 'film-and-bag';
    const [air, humidity, ring] = [given.maybe('air'), given.maybe('humidity'), given.maybe('ring')];
    const damp = (humidity?.value ?? 0) > rule('damp-air');
    const plain =
      kept === 'film'
        ? rule('film-hours')
        : kept === 'film-and-bag'
          ? rule('bag-hours')
          : kept === 'covered' && !given.flag('coolant')
            ? rule('fresh-hours')
            : rule('open-hours');
    const allowed = plain * (damp ? 0.5 : 1);
    const hours = given.number('hours').value;
    const over = hours > allowed;
    const dewPoint =
      air && humidity ? propagate({ air, humidity }, (x) => dewOf(x.air, Math.min(x.humidity, 100))) : undefined;
    const dew = dewPoint && ring ? (ring.value < dewPoint.value + rule('dew-margin') ? 'yes' : 'no') : 'not known';
    const verdict = over && !oiled && hours > rule('wash-hours') ? 'wash again' : over ? 'look again' : 'pack now';
    const steps = [
      ...(dew === 'yes' ? ['Warm the ring to the room, above the dew point, then wipe it dry'] : []),
      ...(oiled && !over ? ['Wipe the film off the raceways as far as the new grease wants it'] : []),
      ...(verdict === 'pack now'
        ? ['Pack it now']
        : ['Look at the raceways under the lamp for rust and prints', 'Smell for solvent', 'Do the white cloth again']),
      ...(verdict === 'wash again' ? ['Wash and dry it before that'] : []),
    ];
    return {
      results: {
        verdict: { value: verdict },
        steps: { value: steps },
        allowed: { value: allowed },
        left: { value: Math.max(0, allowed - hours) },
        ...(dewPoint ? { dewPoint } : {}),
        dew: { value: dew },
        damp: { value: damp },
      },
      warnings: [
        ...(over
          ? [
              `It lay ${figure(hours, 3)} h, and ${figure(allowed, 2)} h is what such a bearing may lie so: nothing that was proven then is proven now.`,
            ]
          : []),
        ...(kept === 'unknown' ? ['How it lay is not known: the shortest time was taken.'] : []),
        ...(dew === 'yes' ? ['A ring that the solvent chilled draws water: do not close it cold.'] : []),
        'Cannot pack in time? A thin film of the base oil of the new grease, covered, better in a bag.',
      ],
      worked: [
        `${kept}${given.flag('coolant') ? ', coolant was inside' : ''}: ${figure(plain)} h${damp ? ', halved in damp air' : ''}; it lay ${figure(hours)} h`,
        ...(dewPoint
          ? [
              `dew point of ${figure(air?.value ?? 0)} °C at ${figure(humidity?.value ?? 0)} % = ${figure(dewPoint.value, 3)} °C`,
            ]
          : []),
      ],
      constants: dewPoint ? ['magnus'] : [],
    };
  },
});
