/** Words. Every letter is text here. */
import type { Controls } from '../../procedure/questions/kind.js';
import { type Asker, emptyInput } from './asker.js';
import { edit, fieldLines } from './edit-line.js';

export const askText: Asker<Controls['words']> = {
  press(input, key, { question }) {
    if (key.name === 'enter') return { input, submit: input.text.trim() };
    const edited = edit(input, key, question.longest ?? 500);
    return edited && { input: edited };
  },
  blocks: (input, { ascii }) => [{ rank: 0, lines: (width) => fieldLines(input, width, ascii) }],
  hints: () => [{ key: 'Enter', does: 'record', rank: 1, told: true }],
  takesLetters: () => true,
  keep: (input) => input.text || undefined,
  restore: (kept) => ({ ...emptyInput, text: kept, at: [...kept].length }),
};
