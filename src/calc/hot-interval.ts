/**
 * Relubrication interval of a hot bearing, hours, by two published rules, and the shorter of them to plan with.
 * Handbook: halved for every 14 K above 65 degC (25 degF above 150 degF), 48 months of running at most.
 * Trade example: two thirds for each 10 K above 80 degC. No gain from a cooler bearing; refused above 110 degC, beyond the
 * printed example (90 and 100 degC) by one step at most. Sources: MIL-HDBK-1164, 11.6.4 d; relubrication example of a trade
 * catalogue, from memory.
 */
import { defineCalculator } from './define.js';
import { figure, quantityInput, result, usual } from './spec.js';
import { propagate } from './uncertainty.js';

/** 48 months of 730.5 h. */
const longest = 48 * 730.5;
const byHandbook = (hours: number, temp: number): number =>
  Math.min(hours * 0.5 ** (Math.max(temp - 65, 0) / 14), longest);
const byExample = (hours: number, temp: number): number => hours * (2 / 3) ** (Math.max(temp - 80, 0) / 10);

export const hotInterval = defineCalculator({
  name: 'hot-interval',
  title: 'Relubrication interval of a hot bearing',
  inputs: {
    hours: quantityInput('Interval of the cool bearing, in hours', 'ratio', 'h', [1, 200_000]),
    temp: quantityInput('Bearing temperature', 'temperature', 'degC', [-40, 110]),
  },
  results: {
    plan: result('Interval to plan with, the shorter one', 'ratio', 'h'),
    handbook: result('By the handbook, halved each 14 K above 65 °C', 'ratio', 'h'),
    hours: result('By the trade example, a third off each 10 K above 80 °C', 'ratio', 'h'),
  },
  formula:
    'handbook t0 / 2^((T - 65) / 14) above 65 °C, at most 48 months; example t0 (2/3)^((T - 80) / 10) above 80 °C',
  source: {
    tag: 'P',
    text: 'MIL-HDBK-1164, paragraph 11.6.4 d: divided by 2 for every 25 F (14 C) above 150 F (65 C), not beyond 48 months',
  },
  constants: {
    example: usual(
      'relubrication example of a trade catalogue: 5500 h up to 80 °C, 3667 h at 90 °C, 2444 h at 100 °C; document not noted',
    ),
  },
  run: (given) => {
    const inputs = { hours: given.number('hours'), temp: given.number('temp') };
    const handbook = propagate(inputs, (x) => byHandbook(x.hours, x.temp));
    const example = propagate(inputs, (x) => byExample(x.hours, x.temp));
    const plan = propagate(inputs, (x) => Math.min(byHandbook(x.hours, x.temp), byExample(x.hours, x.temp)));
    const { hours, temp } = inputs;
    return {
      results: { plan, handbook, hours: example },
      warnings: [
        ...(temp.value > 100 ? ['The trade example ends at 100 °C: its figure is extrapolated.'] : []),
        ...(handbook.value >= longest ? ['The handbook allows 48 months at most, whatever the interval.'] : []),
        'The two rules disagree by as much as two and a half times: plan with the shorter.',
      ],
      worked: [
        `handbook: ${figure(hours.value)} / 2^(${figure(Math.max(temp.value - 65, 0))} / 14) = ${figure(handbook.value)} h`,
        `example: ${figure(hours.value)} x (2/3)^(${figure(Math.max(temp.value - 80, 0))} / 10) = ${figure(example.value)} h`,
      ],
      constants: ['example'],
    };
  },
});
