/** Counts as the hands work: Enter, blank or + adds one, - takes one off, 0 records. */
import type { Question } from '../../procedure/schema.js';
import { bigFigures } from '../look/big-figures.js';
import { type Asker, emptyInput } from './asker.js';

export const counter: Asker<Extract<Question, { kind: 'counter' }>> = {
  press(input, key, { question, target }) {
    const to = (count: number) => ({ input: { ...input, count } });
    if (key.name === 'enter' || (key.name === 'char' && (key.char === ' ' || key.char === '+'))) {
      if (target !== undefined && input.count >= target)
        return { input, say: `${target} ${question.unit} are all; press 0 to record them.` };
      return to(input.count + 1);
    }
    if (key.name === 'backspace' || (key.name === 'char' && key.char === '-')) return to(Math.max(0, input.count - 1));
    if (key.name === 'char' && key.char === '0') return { input, submit: String(input.count) };
    return undefined;
  },
  blocks(input, { question, target, ascii }) {
    const whole = target === undefined ? String(input.count) : `${input.count} / ${target}`;
    return [
      { rank: 3, gap: true, eyeOnly: true, lines: (width) => bigFigures(whole, ascii, width) },
      {
        rank: 1,
        lines: () => [
          [
            { text: target === undefined ? `${input.count} ` : `${input.count} of ${target} `, tone: 'strong' },
            { text: question.unit },
          ],
        ],
      },
    ];
  },
  hints: () => [
    { key: 'Enter', does: 'one more', rank: 1 },
    { key: '-', does: 'one less', rank: 1 },
    { key: '0', does: 'record', rank: 1 },
  ],
  takesLetters: () => false,
  keep: (input) => (input.count ? String(input.count) : undefined),
  restore: (kept) => ({ ...emptyInput, count: Math.max(0, Number.parseInt(kept, 10) || 0) }),
};
