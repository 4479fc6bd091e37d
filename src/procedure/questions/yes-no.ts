/** Yes or no. */
import type { Asked } from './base.js';
import { kindOfQuestion, type Option } from './kind.js';
import { cutShort, noReading } from './reading.js';

export interface YesNo extends Asked {
  kind: 'yes-no';
  goes_on?: boolean[] | undefined;
}

const options: readonly Option[] = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
];

export const yesNo = kindOfQuestion<YesNo>({
  schema: ({ z, asked }) =>
    z.strictObject({
      ...asked,
      kind: z.literal('yes-no'),
      goes_on: z
        .array(z.boolean())
        .min(1)
        .optional()
        .describe('in a step that makes safe: answers that no gate has to hold; true when left out'),
    }),
  type: 'bool',
  control: 'yesNo',
  read(q, text) {
    const word = text.trim().toLowerCase();
    if (['yes', 'y', 'true'].includes(word)) return { ok: true, value: true };
    if (['no', 'n', 'false'].includes(word)) return { ok: true, value: false };
    return noReading(`${q.label}: “${cutShort(text)}” is neither yes nor no; type yes or no.`);
  },
  unfit: (_q, value) => (typeof value === 'boolean' ? undefined : 'it is neither yes nor no'),
  words: () => 'yes / no',
  options: () => options,
  all: () => [true, false],
  tried: true,
});
