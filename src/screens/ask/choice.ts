/** One of a few: by digit, or arrow and Enter. */
import type { Option } from '../../procedure/questions/kind.js';
import type { Hint, Line } from '../look/line.js';
import { lineWidth } from '../look/wrap.js';
import { type AskContext, type Asker, emptyInput, type Input, type Pressed } from './asker.js';
import { digitKeys, digitOf, itemsOf, notPicked, pickBy } from './pick-list.js';

export function pickOne(options: readonly Option[], input: Input, key: Parameters<Asker['press']>[1]): Pressed {
  const picked = pickBy(input, options, key);
  if (!picked) return undefined;
  if ('index' in picked) return { input: { ...input, index: picked.index } };
  if ('value' in picked) return { input, submit: picked.value };
  return { input, say: notPicked(key, options.length) };
}

export function pickBlocks(input: Input, { question, options }: AskContext) {
  const line = [{ text: '  ' }, ...optionsLine(options, input.index)];
  // What stands behind an option would be lost.
  const beside = (width: number): Line[] =>
    options.length <= 9 && !options.some((o) => o.note) && lineWidth(line) <= width ? [line] : [];
  return [{ rank: 1, choices: { id: question.key, items: itemsOf(options), index: input.index }, beside }];
}

/** Options beside one another, each behind its key. */
export const optionsLine = (options: readonly Option[], index: number): Line =>
  options.flatMap((o, i) => [
    { text: i ? '   ' : '' },
    { text: `${digitOf(i) ?? ' '} `, tone: 'quiet' as const },
    { text: o.label, tone: i === index ? ('invert' as const) : undefined },
  ]);

/** Enter is named only once it would take something. */
export const pickHints = (count: number, index: number): Hint[] => [
  { key: digitKeys(count), does: 'pick', rank: 1, told: true },
  ...(index < 0 ? [] : [{ key: 'Enter', does: 'select', rank: 1, told: true }]),
];

export const askChoice: Asker = {
  press: (input, key, { options }) => pickOne(options, input, key),
  blocks: (input, context) => pickBlocks(input, context),
  line: ({ index }, { options }) => optionsLine(options, index),
  hints: (input, { options }) => pickHints(options.length, input.index),
  takesLetters: () => false,
  keep: () => undefined,
  restore: () => emptyInput,
};
