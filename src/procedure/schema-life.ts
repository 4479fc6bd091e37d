/** What a procedure file may say about its finished jobs in the life of a rotor. */
import * as z from 'zod';
import { baseOf } from './questions/base.js';

const { key, words, cel } = baseOf(z);

export const lifeSchema = z
  .strictObject({
    rotor: key.describe('text by which the rotor is known, whatever job it comes back with'),
    machine: key.optional(),
    did: words.describe('what such a job is in the life of a rotor, such as Regreased'),
    hours: key.optional().describe('hours of running until the next look'),
    a_day: key.optional().describe('hours that it runs on a usual day; with them the next look has a date'),
    trend: z
      .array(
        z.strictObject({
          key,
          label: words,
          as: key.optional().describe('name of the same figure in other procedures'),
        }),
      )
      .optional()
      .describe('figures that are compared over the years, at each bearing'),
    begins: z.literal(true).optional().describe('what is measured in service is held against what comes after it'),
    found: key.optional().describe('what was decided, at each bearing'),
    keeps: z
      .array(
        z.strictObject({
          keys: z.array(key).min(1),
          from: key.optional().describe('what is taken of the finished job, where that is another key there'),
          when: cel.optional().describe('at the place of the keys; where it does not hold nothing older counts'),
        }),
      )
      .optional()
      .describe('answers that stay true after such a job: offered when a later job of the rotor begins'),
  })
  .describe('what a finished job is in the life of its rotor');
