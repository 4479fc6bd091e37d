/** Yes or no: 1 or 2. No letters: `n` asks elsewhere where a number comes from, and must never answer no. */
import { type Asker, emptyInput } from './asker.js';
import { pickBlocks, pickOne } from './choice.js';

export const askYesNo: Asker = {
  press: (input, key, { options }) => pickOne(options, input, key),
  blocks: (input, context) => pickBlocks(input, context),
  hints: (input) => [
    { key: '1', does: 'yes', rank: 1, told: true },
    { key: '2', does: 'no', rank: 1, told: true },
    ...(input.index < 0 ? [] : [{ key: 'Enter', does: 'select', rank: 1, told: true }]),
  ],
  takesLetters: () => false,
  keep: () => undefined,
  restore: () => emptyInput,
};
