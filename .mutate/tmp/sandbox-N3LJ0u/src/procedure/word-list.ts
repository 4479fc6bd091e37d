/** The words of the guide as data: what each means, and which words are not used for it. */
// @ts-nocheck

import * as z from 'zod';
import { readDocument } from './document.js';
import type { Problem } from './problem.js';

const words = z.string().min(1);

const wordListSchema = z.strictObject({
  words: z.literal(1),
  list: z.array(
    z.strictObject({
      word: words,
      is: z
        .enum(['do', 'thing', 'hazard', 'sign'])
        .describe('do: may begin an instruction; sign: explained where it stands'),
      means: words,
      not: z.array(words).optional().describe('words and phrases that are not used for it'),
      said: z.array(words).optional().describe('words that explain a sign'),
    }),
  ),
});

export type Word = z.infer<typeof wordListSchema>['list'][number];

export function loadWordList(text: string, file: string): { words: readonly Word[]; problems: readonly Problem[] } {
  const { value, problems } = readDocument(text, file, wordListSchema);
  return { words: value?.list ?? [], problems };
}
