/** One of a few words. */
// @ts-nocheck

import type { Asked } from './base.js';
import { kindOfQuestion, type Option } from './kind.js';
import { isPick, noPick, pick } from './reading.js';

export interface Choice extends Asked {
  kind: 'choice';
  options: Option[];
}

export const choice = kindOfQuestion<Choice>({
  schema: ({ z, asked, option }) =>
    z.strictObject({ ...asked, kind: z.literal('choice'), options: z.array(option).min(2) }),
  type: 'string',
  control: 'pick',
  read: (q, text) => pick(text, q.options, q.label),
  unfit: (q, value) => (isPick(value, q.options) ? undefined : noPick),
  words: (q) => q.options.map((o) => o.label).join(' / '),
  options: (q) => q.options,
  all: (q) => q.options.map((o) => o.value),
  tried: true,
});
