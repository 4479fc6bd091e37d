/**
 * Relubrication interval of a hot bearing, hours: above 80 degC each 10 K takes about one third off.
 * t = t80 (2/3)^((T - 80) / 10); no gain below 80 degC; refused above 110 degC, beyond the printed example (90 and 100 degC)
 * by one step at most. Source: a relubrication example, its document not noted.
 */
import { defineCalculator } from './define.js';
import { figure, quantity, result, usual } from './spec.js';
import { propagate } from './uncertainty.js';

export const hotInterval = defineCalculator({
  name: 'hot-interval',
  title: 'Relubrication interval of a hot bearing',
  inputs: {
    hours: quantity('Interval up to 80 °C, in hours', 'ratio', 'h', [1, 200_000]),
    temp: quantity('Bearing temperature', 'temperature', 'degC', [-40, 110]),
  },
  results: { hours: result('Interval at this temperature', 'ratio', 'h') },
  formula: 't = t80 (2/3)^((T - 80) / 10) above 80 °C',
  source: usual('relubrication example, 5500 h up to 80 °C, 3667 h at 90 °C, 2444 h at 100 °C; document not noted'),
  run: (given) => {
    const [hours, temp] = [given.number('hours'), given.number('temp')];
    const found = propagate({ hours, temp }, (x) => x.hours * (2 / 3) ** (Math.max(x.temp - 80, 0) / 10));
    return {
      results: { hours: found },
      warnings: temp.value > 100 ? ['The printed example ends at 100 °C: this figure is extrapolated.'] : [],
      worked: [
        `t = ${figure(hours.value)} x (2/3)^(${figure(Math.max(temp.value - 80, 0))} / 10) = ${figure(found.value)} h`,
      ],
    };
  },
});
