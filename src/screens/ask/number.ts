/** A number without a unit. */
import { type Asker, emptyInput } from './asker.js';
import { edit, fieldLines } from './edit-line.js';

export const askNumber: Asker = {
  press(input, key) {
    if (key.name === 'enter') return { input, submit: input.text.trim() };
    const edited = edit(input, key, 40);
    return edited && { input: edited };
  },
  blocks: (input, { ascii }) => [{ rank: 0, lines: (width) => fieldLines(input, width, ascii) }],
  line: (input, { ascii }, width) => fieldLines(input, width, ascii)[0] ?? [],
  hints: () => [{ key: 'Enter', does: 'record', rank: 1, told: true }],
  takesLetters: (input) => input.text !== '',
  keep: (input) => input.text || undefined,
  restore: (kept) => ({ ...emptyInput, text: kept, at: [...kept].length }),
};
