/** A count that has to come out, counted as the hands work. */
import { parseQuantity } from '../../units/parse.js';
import type { Asked } from './base.js';
import { kindOfQuestion } from './kind.js';
import { noReading } from './reading.js';

export interface Counter extends Asked {
  kind: 'counter';
  to: string;
  unit: string;
}

export const counter = kindOfQuestion<Counter>({
  schema: ({ z, asked, cel, words }) =>
    z.strictObject({ ...asked, kind: z.literal('counter'), to: cel, unit: words.describe('what is counted') }),
  type: 'double',
  control: 'count',
  read(q, text, _tables, { counted }) {
    const read = parseQuantity(text, 'count');
    if (!read.ok) return noReading(`${q.label}: ${read.message}`);
    if (counted !== undefined && read.value !== counted)
      return noReading(
        `${q.label}: ${read.value} counted, but ${counted} ${q.unit} are to be done; count again and type ${counted}.`,
      );
    return { ok: true, value: read.value, typed: text };
  },
  unfit: (_q, value) => (Number.isSafeInteger(value) && Number(value) >= 0 ? undefined : 'it is no count'),
  words: (q, inWords) => `count ${q.unit} up to ${inWords(q.to)}`,
  range: () => undefined,
  bounds: (q) => ({ counted: q.to }),
  unsuggested: true,
  check: (q, { expression, path }) => expression(q.to, 'double', [...path, 'to']),
});
