/**
 * What hybrid balls and contact seals do to a limiting speed, rpm, as a range.
 * Hybrid: 1.2 to 1.4 times, sources disagree; contact seal: 0.70 to 0.72 of the open bearing. The cautious end comes first.
 * The catalogue's own figure of the sealed bearing, where given, takes the place of open limit and seal factor.
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
    sealed: speed('Limiting speed of the sealed all-steel bearing, by its catalogue', [1, 200_000], true),
  },
  results: {
    low: result('Limiting speed, cautious', 'speed', 'rpm'),
    high: result('Limiting speed, optimistic', 'speed', 'rpm'),
  },
  formula: 'open limit x hybrid factor x seal factor, or sealed limit x hybrid factor',
  source: practice('hybrid bearings run 20 to 40 % faster, sources disagree'),
  aliases: { hybrid: 'ceramic', 'silicon-nitride': 'ceramic' },
  run: (given, tables) => {
    const sealed = given.maybe('sealed');
    const base = sealed ?? given.number('open');
    const pick = (id: string): number => constant(tables, 'bearing-constants', id).value;
    const hybrid = given.word('balls') === 'ceramic';
    const contact = given.word('seal') === 'contact' && !sealed;
    const factors = (['low', 'high'] as const).map(
      (end) => (hybrid ? pick(`hybrid-faster-${end}`) : 1) * (contact ? pick(`contact-seal-${end}`) : 1),
    ) as [number, number];
    const key = sealed ? 'sealed' : 'open';
    const row = findRow(tables, 'bearing-constants', 'contact-seal-low');
    return {
      results: {
        low: propagate({ [key]: base }, (x) => (x[key] ?? 0) * factors[0]),
        high: propagate({ [key]: base }, (x) => (x[key] ?? 0) * factors[1]),
      },
      warnings: [
        'The grease has a limit of its own, printed on its data sheet: the lower of the two counts.',
        ...(contact
          ? [
              'Contact seals: the open limit was taken times 0.70 to 0.72. Catalogues differ, some give a sealed bearing far less: take the figure of your own sealed bearing where you have it.',
            ]
          : []),
        ...(given.word('balls') === 'not-proven' ? ['Balls not proven count as steel.'] : []),
      ],
      worked: factors.map((factor) => `${figure(base.value)} x ${figure(factor)} = ${figure(base.value * factor)} rpm`),
      sources: contact && row ? [sourceOf(row)] : [],
    };
  },
});
