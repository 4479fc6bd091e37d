/** Counts as the hands work: Enter, blank or + adds one, - takes one off, 0 records. A count may be typed as well. */
import type { Controls } from '../../procedure/questions/kind.js';
import { bigFigures } from '../look/big-figures.js';
import { type Asker, emptyInput, type Input } from './asker.js';

const set = (input: Input): Input => ({ ...input, count: Number(input.text), text: '' });

export const askCounter: Asker<Controls['count']> = {
  press(input, key, { question, target }) {
    const to = (count: number) => ({ input: { ...input, count } });
    const char = key.name === 'char' ? key.char : '';
    const most = target ?? 999;
    if (input.text !== '') {
      if (/^\d$/.test(char) && Number(input.text + char) <= most)
        return { input: { ...input, text: input.text + char } };
      if (char === '0') return { input: set(input), submit: input.text };
      if (key.name === 'enter') return { input: set(input) };
      if (key.name === 'backspace') return { input: { ...input, text: input.text.slice(0, -1) } };
    }
    if (/^[1-9]$/.test(char)) {
      if (input.text !== '' || Number(char) > most)
        return { input, say: `That is all ${target} ${question.unit}; type ${target} or count on with Enter.` };
      return { input: { ...input, text: char } };
    }
    if (key.name === 'enter' || char === ' ' || char === '+') {
      if (target !== undefined && input.count >= target)
        return { input, say: `That is all ${target} ${question.unit}; press 0 to record them.` };
      return to(input.count + 1);
    }
    if (key.name === 'backspace' || char === '-') return to(Math.max(0, input.count - 1));
    if (char === '0') return { input, submit: String(input.count) };
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
          ...(input.text ? [[{ text: `${input.text} typed: 0 records it, Enter counts on from it` }]] : []),
        ],
      },
    ];
  },
  hints: () => [
    { key: 'Enter', does: 'one more', rank: 1 },
    { key: '-', does: 'one less', rank: 1 },
    { key: '1-9', does: 'type the count', rank: 2 },
    { key: '0', does: 'record', rank: 1 },
  ],
  takesLetters: () => false,
  keep: (input) => (input.count ? String(input.count) : undefined),
  restore: (kept) => ({ ...emptyInput, count: Math.max(0, Number.parseInt(kept, 10) || 0) }),
};
