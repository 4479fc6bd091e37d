/** A question of each kind with an answer as it is typed; the compiler asks for one of a new kind. */
import type { Tables } from '../../src/calc/types.js';
import type { Question } from '../../src/procedure/schema.js';

export const exampleTables: Tables = {
  plugs: { table: 'plugs', title: 'Plugs', columns: {}, rows: [{ id: 'g1', tag: 'A', source: 'invented' }] },
} as unknown as Tables;

const options = [
  { value: 'clean', label: 'Clean' },
  { value: 'dark', label: 'Dark' },
];
const asked = { key: 'x', label: 'X' };

type Examples = { readonly [K in Question['kind']]: { question: Extract<Question, { kind: K }>; typed: string } };
export const examples: Examples = {
  choice: { question: { ...asked, kind: 'choice', options }, typed: 'dark' },
  'choice-from-table': { question: { ...asked, kind: 'choice-from-table', table: 'plugs' }, typed: 'g1' },
  'yes-no': { question: { ...asked, kind: 'yes-no' }, typed: 'yes' },
  quantity: {
    question: { ...asked, kind: 'quantity', quantity: 'length', unit: 'mm', limits: [0, 10] },
    typed: '2.5 mm',
  },
  dimensions: {
    question: { ...asked, kind: 'dimensions', parts: ['a', 'b'], unit: 'mm', limits: [0, 10] },
    typed: '2 x 3 mm',
  },
  number: { question: { ...asked, kind: 'number', limits: [0, 10] }, typed: '2.5' },
  text: { question: { ...asked, kind: 'text' }, typed: 'words' },
  series: { question: { ...asked, kind: 'series', options, least: 1, most: 3 }, typed: 'dark, clean' },
  counter: { question: { ...asked, kind: 'counter', to: '10.0', unit: 'turns' }, typed: '10' },
};
