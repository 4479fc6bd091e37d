/**
 * First inspection of a bearing regreased by hand: hours of running, and days at given hours a day.
 * A quarter of the grease life of a healthy factory-filled bearing, halved for each doubt left open, 4000 h at most.
 * The factors are this guide's caution (table inspection-rules), no published figure. Uncertainty: first order.
 */
import { defineCalculator } from './define.js';
import { lifeAliases, lifeInputs, lifeOf } from './grease-life.js';
import { figure, practice, quantity, result } from './spec.js';
import { constant } from './table.js';
import { propagate } from './uncertainty.js';

/** Two figures, downwards; never up. */
function roundDown(value: number): number {
  const step = 10 ** Math.max(Math.floor(Math.log10(value)) - 1, 0);
  return value < 1 ? value : Math.floor(value / step) * step;
}

export const inspection = defineCalculator({
  name: 'inspection',
  title: 'First inspection after regreasing by hand',
  inputs: {
    ...lifeInputs,
    hoursPerDay: quantity('Hours of running a day', 'ratio', 'h', [0.1, 24], true),
    doubts: {
      type: 'choices',
      label: 'Doubts left open',
      choices: [
        'none',
        'seal-left-in',
        'seal-repaired',
        'balls-not-proven',
        'dose-uncertain',
        'rubber-untested',
        'thickener-unknown',
        'raceway-marks',
      ],
      optional: true,
    },
  },
  results: {
    hours: result('Inspect after', 'ratio', 'h'),
    days: result('That is', 'ratio', 'days'),
    life: result('Grease life of a factory-filled bearing', 'ratio', 'h'),
  },
  formula: 'hours = life x 0.25 x 0.5 for each doubt, at most 4000',
  source: practice("this guide's own caution; the life itself is a usual estimate, verify"),
  aliases: lifeAliases,
  run: (given, tables) => {
    const { life, worked, warnings } = lifeOf(given);
    const rule = (id: string): number => constant(tables, 'inspection-rules', id).value;
    const doubts = [...new Set(given.words('doubts'))].filter((doubt) => doubt !== 'none');
    const factor = rule('hand-share') * rule('doubt-share') ** doubts.length;
    const most = rule('longest');
    const bounded = (life: number): number => Math.min(life * factor, most);
    const exact = propagate({ life: { ...life } }, (x) => bounded(x.life));
    const perDay = given.maybe('hoursPerDay') ?? { value: 24 };
    const exactDays = propagate({ life: { ...life }, hoursPerDay: perDay }, (x) => bounded(x.life) / x.hoursPerDay);
    // An estimate deserves two figures, and is rounded towards the earlier day.
    const hours = { ...exact, value: roundDown(exact.value) };
    const days = { ...exactDays, value: roundDown(hours.value / perDay.value) };
    return {
      results: { hours, days, life },
      warnings: [
        ...warnings,
        ...(given.has('hoursPerDay') ? [] : ['24 hours of running a day were taken.']),
        'Look sooner at any new noise, heat or grease at the seal.',
      ],
      worked: [
        worked,
        `${figure(life.value)} h x ${factor}${doubts.length > 0 ? ` (${doubts.join(', ')})` : ''} = ${figure(life.value * factor)} h${life.value * factor > most ? `, cut to ${most} h` : ''}, rounded down to ${figure(hours.value)} h`,
        `${figure(hours.value)} h / ${figure(perDay.value)} h a day = ${figure(days.value)} days`,
      ],
    };
  },
});
