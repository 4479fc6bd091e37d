/** A kind of question holds what it says of itself: the compiler by its types, a table by what it reads. */
import { expect, it } from 'vitest';
import { kindOf, questionKinds, readAnswer } from '../../src/procedure/questions/index.js';
import { kindOfQuestion } from '../../src/procedure/questions/kind.js';
import type { Question } from '../../src/procedure/schema.js';
import { examples, exampleTables } from './examples.js';

const isOf = {
  double: (v: unknown) => typeof v === 'number',
  string: (v: unknown) => typeof v === 'string',
  bool: (v: unknown) => typeof v === 'boolean',
  'list<double>': (v: unknown) => Array.isArray(v) && v.every((x) => typeof x === 'number'),
  'list<string>': (v: unknown) => Array.isArray(v) && v.every((x) => typeof x === 'string'),
  'list<bool>': (v: unknown) => Array.isArray(v) && v.every((x) => typeof x === 'boolean'),
};

it.each(Object.keys(questionKinds) as Question['kind'][])('%s reads a value of the type that it says', (name) => {
  const { question, typed } = examples[name];
  const kind = kindOf(question);
  const read = readAnswer(question, typed, exampleTables);
  if (!read.ok) throw new Error(read.message);
  expect(kind.unfit(question, read.value, exampleTables)).toBeUndefined();
  expect(isOf[kind.type](read.value), `${typed} was read as ${JSON.stringify(read.value)}`).toBe(true);
  for (const v of kind.all?.(question, exampleTables) ?? []) expect(isOf[kind.type](v)).toBe(true);
});

type Damp = { kind: string; key: string; label: string; quantity: 'share'; unit: string };
const rest = {
  schema: () => {
    throw new Error('not asked');
  },
  unfit: () => undefined,
  words: () => 'damp',
};

it('is refused by the compiler where what it reads is not of its type, or a measure has no quantity', () => {
  const number = { ok: true as const, value: 45 };
  const kinds = [
    // @ts-expect-error: a number is read, and words are said.
    kindOfQuestion<Damp>({ ...rest, type: 'string', control: 'figures', read: () => number }),
    // @ts-expect-error: words are read, and a number is said.
    kindOfQuestion<Damp>({ ...rest, type: 'double', control: 'figures', read: () => ({ ok: true, value: 'damp' }) }),
    // @ts-expect-error: figures with a unit are of some quantity.
    kindOfQuestion<Damp>({ ...rest, type: 'double', control: 'measure', read: () => number }),
    kindOfQuestion<Damp>({
      ...rest,
      type: 'double',
      control: 'measure',
      read: () => number,
      quantity: () => 'share',
    }),
  ];
  expect(kinds).toHaveLength(4);
});
