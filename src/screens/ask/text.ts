/** Words. Every letter is text here; an arrow puts what is usually said into the field, where it can be changed. */
import type { Controls } from '../../procedure/questions/kind.js';
import { type Asker, emptyInput } from './asker.js';
import { edit, fieldLines } from './edit-line.js';
import { move } from './pick-list.js';

export const askText: Asker<Controls['words']> = {
  press(input, key, { question }) {
    if (key.name === 'enter') return { input, submit: input.text.trim() };
    const offers = question.offers ?? [];
    const to = key.name === 'up' || key.name === 'down' ? move(input.index, offers.length, key) : undefined;
    const text = to === undefined ? undefined : offers[to];
    if (to !== undefined && text !== undefined) return { input: { ...input, text, at: [...text].length, index: to } };
    const edited = edit(input, key, question.longest ?? 500);
    return edited && { input: edited };
  },
  blocks: (input, { question, ascii }) => [
    { rank: 0, lines: (width) => fieldLines(input, width, ascii) },
    ...(question.offers
      ? [
          {
            rank: 2,
            choices: {
              id: question.key,
              items: question.offers.map((o) => ({ value: o, label: o })),
              index: input.index,
            },
          },
        ]
      : []),
  ],
  hints: (_input, { question }) => [
    { key: 'Enter', does: 'record', rank: 1, told: true },
    ...(question.offers ? [{ key: '↑↓', does: 'usual ways to say it', rank: 1 }] : []),
  ],
  takesLetters: () => true,
  keep: (input) => input.text || undefined,
  restore: (kept) => ({ ...emptyInput, text: kept, at: [...kept].length }),
};
