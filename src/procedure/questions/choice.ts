/** One of a few words. */
import type { Asked } from './base.js';
import { kindOfQuestion, type Option } from './kind.js';
import { isPick, noPick, pick } from './reading.js';

export interface Choice extends Asked {
  kind: 'choice';
  options: Option[];
  goes_on?: string[] | undefined;
}

export const choice = kindOfQuestion<Choice>({
  schema: ({ z, asked, option }) =>
    z.strictObject({
      ...asked,
      kind: z.literal('choice'),
      options: z.array(option).min(2),
      goes_on: z
        .array(z.string())
        .min(1)
        .optional()
        .describe('in a step that makes safe: answers that no gate has to hold'),
    }),
  type: 'string',
  control: 'pick',
  read: (q, text) => pick(text, q.options, q.label),
  unfit: (q, value) => (isPick(value, q.options) ? undefined : noPick),
  words: (q) => q.options.map((o) => o.label).join(' / '),
  options: (q) => q.options,
  all: (q) => q.options.map((o) => o.value),
  tried: true,
});
