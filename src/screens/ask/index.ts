/** Kind of question to what asks it. */
import type { Question } from '../../procedure/schema.js';
import type { Asker } from './asker.js';
import { choice } from './choice.js';
import { choiceFromTable } from './choice-from-table.js';
import { counter } from './counter.js';
import { dimensions } from './dimensions.js';
import { number } from './number.js';
import { quantity } from './quantity.js';
import { series } from './series.js';
import { text } from './text.js';
import { yesNo } from './yes-no.js';

const askers: { readonly [K in Question['kind']]: Asker<Extract<Question, { kind: K }>> } = {
  choice,
  'choice-from-table': choiceFromTable,
  'yes-no': yesNo,
  quantity,
  dimensions,
  number,
  text,
  series,
  counter,
};

export const askerFor = (question: Question): Asker => askers[question.kind] as unknown as Asker;

const fields: ReadonlySet<Question['kind']> = new Set([
  'text',
  'quantity',
  'number',
  'dimensions',
  'choice-from-table',
]);
/** True when it is typed into a field. */
export const isTyped = ({ kind }: Question): boolean => fields.has(kind);
