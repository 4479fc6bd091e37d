/** A kind of question holds what it says of itself: the compiler by its types, a table by what it reads. */
import { expect, it } from 'vitest';
import { kindOf, questionKinds, rangeOf, readAnswer } from '../../src/procedure/questions/index.js';
import { kindOfQuestion } from '../../src/procedure/questions/kind.js';
import type { Question } from '../../src/procedure/schema.js';
import { questionDetails } from '../../src/review/question-words.js';
import { asAsked } from '../../src/screens/ask/index.js';
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

/** Its unit and its limits are fixed: no procedure writes them. */
type Damp = { kind: string; key: string; label: string };
const rest = {
  schema: () => {
    throw new Error('not asked');
  },
  unfit: () => undefined,
  words: () => 'damp',
};
const number = { ok: true as const, value: 45 };
const range = (): readonly [number, number] => [0, 100];
const figures = { ...rest, type: 'double' as const, read: () => number };
const quantity = () => 'share' as const;
const damp = kindOfQuestion<Damp>({ ...figures, control: 'measure', range, quantity, unit: () => '%' });

it('is refused by the compiler where what it reads is not of its type, a measure has no quantity or unit, or figures no limits', () => {
  const kinds = [
    // @ts-expect-error: a number is read, and words are said.
    kindOfQuestion<Damp>({ ...rest, type: 'string', control: 'figures', read: () => number }),
    // @ts-expect-error: words are read, and a number is said.
    kindOfQuestion<Damp>({
      ...rest,
      type: 'double',
      control: 'figures',
      range,
      read: () => ({ ok: true, value: 'w' }),
    }),
    // @ts-expect-error: figures with a unit are of some quantity.
    kindOfQuestion<Damp>({ ...figures, control: 'measure', range, unit: () => '%' }),
    // @ts-expect-error: figures of a quantity have a unit.
    kindOfQuestion<Damp>({ ...figures, control: 'measure', range, quantity }),
    // @ts-expect-error: nothing says within which limits.
    kindOfQuestion<Damp>({ ...figures, control: 'figures' }),
    damp,
  ];
  expect(kinds).toHaveLength(6);
});

it('is asked with its own unit and told within its own limits where the question names neither', () => {
  Object.assign(questionKinds, { damp });
  try {
    const question = { kind: 'damp', key: 'damp', label: 'Damp' } as unknown as Question;
    expect(asAsked(question)).toEqual({ ...question, quantity: 'share', unit: '%' });
    expect(rangeOf(question)).toEqual([0, 100]);
    expect(questionDetails(question, new Map())).toEqual(['damp', '0 % to 100 % allowed']);
  } finally {
    Reflect.deleteProperty(questionKinds, 'damp');
  }
});
