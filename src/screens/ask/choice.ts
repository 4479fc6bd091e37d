/** One of a few: by digit, or arrow and Enter. */
import { type Option, optionsOf } from '../../engine/read-answer.js';
import type { Question } from '../../procedure/schema.js';
import type { Hint } from '../look/line.js';
import { type AskContext, type Asker, emptyInput, type Input, type Pressed } from './asker.js';
import { digitKeys, itemsOf, pickBy, pickFirst } from './pick-list.js';

export { pickFirst };

export function pickOne(options: readonly Option[], input: Input, key: Parameters<Asker['press']>[1]): Pressed {
  const picked = pickBy(input, options, key);
  if (!picked) return undefined;
  if ('index' in picked) return { input: { ...input, index: picked.index } };
  if ('value' in picked) return { input, submit: picked.value };
  return { input, say: key.name === 'enter' ? pickFirst : `Press a digit from 1 to ${Math.min(9, options.length)}.` };
}

export function pickBlocks(options: readonly Option[], input: Input, context: AskContext) {
  return [{ rank: 1, choices: { id: context.question.key, items: itemsOf(options), index: input.index } }];
}

/** Enter is named only once it would take something. */
export const pickHints = (count: number, index: number): Hint[] => [
  { key: digitKeys(count), does: 'pick', rank: 1 },
  ...(index < 0 ? [] : [{ key: 'Enter', does: 'select', rank: 1 }]),
];

export const choice: Asker<Extract<Question, { kind: 'choice' }>> = {
  press: (input, key, { question, tables }) => pickOne(optionsOf(question, tables), input, key),
  blocks: (input, context) => pickBlocks(optionsOf(context.question, context.tables), input, context),
  hints: (input, { question }) => pickHints(question.options.length, input.index),
  takesLetters: () => false,
  keep: () => undefined,
  restore: () => emptyInput,
};
