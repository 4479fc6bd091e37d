/** Several picks in a row, such as ball by ball: each digit adds one, Backspace takes the last one off. */
import type { Controls } from '../../procedure/questions/kind.js';
import { wrap } from '../look/wrap.js';
import { type Asker, emptyInput } from './asker.js';
import { digitKeys, itemsOf, pickBy } from './pick-list.js';

export const askSeries: Asker<Controls['series']> = {
  press(input, key, { question, options }) {
    if (key.name === 'backspace')
      return input.items.length ? { input: { ...input, items: input.items.slice(0, -1) } } : undefined;
    // What stands alone is complete.
    const alone = (value: string) =>
      input.items.length === 0 && question.options.some((o) => o.value === value && o.alone);
    const add = (value: string) =>
      input.items.length >= question.most
        ? { input, say: `${question.most} is the most here; press 0 to record them.` }
        : alone(value)
          ? { input: { ...input, items: [value] }, submit: value }
          : { input: { ...input, items: [...input.items, value] } };
    if (key.name === 'char' && key.char === '0') {
      if (input.items.length < question.least)
        return {
          input,
          say: `At least ${question.least} ${question.least === 1 ? 'is' : 'are'} needed; ${input.items.length} so far.`,
        };
      return { input, submit: input.items.join(',') };
    }
    const picked = pickBy(input, options, key);
    if (!picked) return undefined;
    if ('index' in picked) return { input: { ...input, index: picked.index } };
    if ('value' in picked) return add(picked.value);
    return { input, say: 'Add each with its digit; press 0 when all are in.' };
  },
  blocks(input, { question, options, brief }) {
    const words = input.items.map((v, i) => {
      const label = options.find((o) => o.value === v)?.label ?? v;
      return question.each ? `${question.each} ${i + 1}: ${label}` : label;
    });
    return [
      { rank: 1, choices: { id: question.key, items: itemsOf(options), index: input.index } },
      {
        rank: 1,
        label: 'So far',
        lines: (width) =>
          words.length
            ? wrap(
                [
                  { text: 'So far: ', tone: 'quiet' },
                  { text: words.join(' · '), tone: 'strong' },
                ],
                width,
                8,
              ).slice(-4)
            : brief && question.least === 1
              ? []
              : [[{ text: `None yet; ${question.least} or more.`, tone: 'quiet' }]],
      },
    ];
  },
  hints: (input, { options }) => [
    { key: digitKeys(options.length), does: 'add', rank: 1, told: true },
    ...(input.index < 0 ? [] : [{ key: 'Enter', does: 'add it', rank: 1 }]),
    ...(input.items.length ? [{ key: 'Backspace', does: 'last one off', rank: 2 }] : []),
    { key: '0', does: 'finished', rank: 1 },
  ],
  takesLetters: () => false,
  keep: (input) => (input.items.length ? input.items.join(',') : undefined),
  restore: (kept) => ({ ...emptyInput, items: kept.split(',').filter(Boolean) }),
};
