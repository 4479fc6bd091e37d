/**
 * What hybrid balls and contact seals do to a limiting speed, rpm, as a range.
 * Hybrid: 1.2 to 1.4 times, sources disagree; contact seal: 0.70 to 0.72 of the open bearing. The safer end comes first.
 * Source: the table bearing-constants.
 */
import { defineCalculator } from './define.js';
import { choice, figure, practice, result, speed } from './spec.js';
import { constant, findRow, sourceOf } from './table.js';
import { propagate } from './uncertainty.js';

export const speedLimit = defineCalculator({
  name: 'speed-limit',
  title: 'Limiting speed with hybrid balls and seals',
  inputs: {
    open: speed('Limiting speed of the open all-steel bearing'),
    balls: choice('Balls', ['steel', 'ceramic', 'not-proven']),
    seal: choice('Seals', ['none', 'shield', 'gap', 'contact']),
  },
  results: {
    low: result('Limiting speed, safer end', 'speed', 'rpm'),
    high: result('Limiting speed, other end', 'speed', 'rpm'),
  },
  formula: 'open limit x hybrid factor x seal factor',
  source: practice('hybrid bearings run 20 to 40 % faster, sources disagree'),
  aliases: { hybrid: 'ceramic', 'silicon-nitride': 'ceramic' },
  run: (given, tables) => {
    const open = given.number('open');
    const pick = (id: string): number => constant(tables, 'bearing-constants', id).value;
    const hybrid = given.word('balls') === 'ceramic';
    const contact = given.word('seal') === 'contact';
    const factors = (['low', 'high'] as const).map(
      (end) => (hybrid ? pick(`hybrid-faster-${end}`) : 1) * (contact ? pick(`contact-seal-${end}`) : 1),
    ) as [number, number];
    const row = findRow(tables, 'bearing-constants', 'contact-seal-low');
    return {
      results: {
        low: propagate({ open }, (x) => x.open * factors[0]),
        high: propagate({ open }, (x) => x.open * factors[1]),
      },
      warnings: [
        'The grease has a limit of its own, printed on its data sheet: the lower of the two counts.',
        ...(given.word('balls') === 'not-proven' ? ['Balls not proven count as steel.'] : []),
      ],
      worked: factors.map((factor) => `${figure(open.value)} x ${figure(factor)} = ${figure(open.value * factor)} rpm`),
      sources: contact && row ? [sourceOf(row)] : [],
    };
  },
});
