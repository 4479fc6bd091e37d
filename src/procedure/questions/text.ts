/** Words that somebody writes. */
import type { Asked } from './base.js';
import { kindOfQuestion } from './kind.js';
import { noReading } from './reading.js';

export interface Text extends Asked {
  kind: 'text';
  longest?: number | undefined;
  offers?: string[] | undefined;
}

/** Longest text where a question names no other, in UTF-16 units. */
const MOST = 500;

export const text = kindOfQuestion<Text>({
  schema: ({ z, asked }) =>
    z.strictObject({
      ...asked,
      kind: z.literal('text'),
      longest: z.number().int().positive().max(2000).optional(),
      offers: z
        .array(z.string().min(1).max(120))
        .min(2)
        .max(6)
        .optional()
        .describe('usual ways to say it: an arrow puts one into the field, where it can be changed'),
    }),
  type: 'string',
  control: 'words',
  empty: true,
  read(q, typed) {
    const most = q.longest ?? MOST;
    if (typed.length > most)
      return noReading(`${q.label}: ${typed.length} characters are too many; shorten it to ${most}.`);
    if (typed.trim() === '') return noReading(`${q.label}: nothing was typed; write a word or two.`);
    return { ok: true, value: typed.trim() };
  },
  unfit(q, value) {
    if (typeof value !== 'string' || value.trim() === '') return 'it is no text';
    return value.length > (q.longest ?? MOST) ? 'it is too long' : undefined;
  },
  words: () => 'text',
});
