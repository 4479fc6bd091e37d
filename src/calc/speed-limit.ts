/**
 * What hybrid balls and contact seals do to a limiting speed, rpm, as a range.
 * Hybrid: 1.2 to 1.4 times, sources disagree; contact seal: 0.70 to 0.72 of the open bearing. The cautious end comes first.
 * The rubbing lip, not the balls, limits a bearing with contact seals: there ceramic balls raise nothing at the cautious end and
 * at most 1.2 times at the other.
 * The catalogue's own figure of the sealed bearing, where given, takes the place of open limit and seal factor; refused where
 * it is above that of the open bearing. Source: the table bearing-constants.
 */
import { defineCalculator } from './define.js';
import { choiceInput, commonPractice, figure, result, speed } from './spec.js';
import { constant, findRow, sourceOf } from './table.js';
import { CalcRefusal } from './types.js';
import { propagate } from './uncertainty.js';

export const speedLimit = defineCalculator({
  name: 'speed-limit',
  title: 'Limiting speed with hybrid balls and seals',
  inputs: {
    open: speed('Limiting speed of the open all-steel bearing'),
    balls: choiceInput('Balls', ['steel', 'ceramic', 'not-proven']),
    seal: choiceInput('Seals', ['none', 'shield', 'gap', 'contact']),
    sealed: speed('Limiting speed of the sealed all-steel bearing, by its catalogue', [1, 200_000], true),
  },
  results: {
    low: result('Limiting speed, cautious', 'speed', 'rpm'),
    high: result('Limiting speed, optimistic', 'speed', 'rpm'),
  },
  formula:
    'open limit x hybrid factor x seal factor, or sealed limit x hybrid factor; with a contact seal no hybrid factor at the cautious end',
  source: commonPractice('hybrid bearings run 20 to 40 % faster, sources disagree'),
  aliases: { hybrid: 'ceramic', 'silicon-nitride': 'ceramic' },
  run: (given, tables) => {
    const sealed = given.maybe('sealed');
    const base = sealed ?? given.number('open');
    const pick = (id: string): number => constant(tables, 'bearing-constants', id).value;
    const open = given.number('open');
    // One hundredth for figures that were rounded in a list.
    if (sealed && sealed.value > open.value * 1.01)
      throw new CalcRefusal(
        'sealed',
        `A seal never makes a bearing faster: ${figure(sealed.value)} rpm for the sealed one is above ${figure(open.value)} rpm for the open one; check both figures.`,
      );
    const hybrid = given.word('balls') === 'ceramic';
    const lip = given.word('seal') === 'contact';
    const contact = lip && !sealed;
    const faster = hybrid
      ? lip
        ? [1, pick('hybrid-faster-low')]
        : [pick('hybrid-faster-low'), pick('hybrid-faster-high')]
      : [1, 1];
    const seal = contact ? [pick('contact-seal-low'), pick('contact-seal-high')] : [1, 1];
    const [least, most] = [0, 1].map((end) => (faster[end] ?? 1) * (seal[end] ?? 1));
    const factors = [least ?? 1, most ?? 1] as const;
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
        ...(hybrid && lip
          ? [
              'The rubbing lip sets this limit, not the balls: ceramic balls were given nothing for it at the cautious end.',
            ]
          : []),
        ...(given.word('balls') === 'not-proven' ? ['Balls not proven count as steel.'] : []),
      ],
      worked: factors.map((factor) => `${figure(base.value)} x ${figure(factor)} = ${figure(base.value * factor)} rpm`),
      sources: contact && row ? [sourceOf(row)] : [],
    };
  },
});
