/** What a procedure file may say about its job sheet. */
import * as z from 'zod';
import { baseOf } from './questions/base.js';

const { id, key, words, cel } = baseOf(z);

/** A line of the sheet: said at each place of a kind where its condition holds and a value of it is known. */
const sheetLine = { at: z.string().optional().describe('job, or a kind of place'), when: cel.optional(), say: words };
const sheetLines = z.array(z.strictObject(sheetLine));
const sheetRows = z.array(z.strictObject({ heading: words, ...sheetLine }));

export const sheetSchema = z.strictObject({
  figures: z.array(z.strictObject({ key, heading: words.optional() })),
  decisions: z.array(id).optional(),
  headline: z.array(key).optional().describe('what the rotor and the job are known by'),
  groups: z
    .array(
      z.strictObject({
        title: words,
        keys: z.array(key).min(1),
        appendix: z.boolean().optional().describe('told with the record, not on the first pages'),
      }),
    )
    .optional()
    .describe('further values under a heading of their own, such as materials'),
  front: z
    .strictObject({
      known_by: z.array(key).optional().describe('what, which and for whom'),
      verdict: sheetLines.optional().describe('what became of it; the first that holds is said'),
      rows: sheetRows.optional().describe('what the next owner asks first'),
      unusual: sheetLines.optional().describe('what departs from a usual job'),
      due: z
        .strictObject({
          hours: key,
          a_day: key.optional(),
          say: words.optional().describe('what is done then'),
          first: z.strictObject({ hours: key, say: words }).optional().describe('an earlier, smaller look'),
          why: sheetLines.optional(),
        })
        .optional()
        .describe('hours of running to the next look, hours of running a day, what is done, and the reasons'),
      watch: sheetLines.optional().describe('what to watch and listen for'),
      instruments: sheetRows.optional(),
      tag: sheetRows.optional().describe('what hangs on the machine'),
    })
    .optional()
    .describe('the first page'),
  next: z.array(key).optional().describe('what the next owner has to do, such as the next look'),
  strip: z
    .strictObject({
      title: words,
      marks: key.describe('list of distances in mm from one line; printed at 1:1 to be cut out'),
      each: z.string().optional().describe('kind of place whose names stand at the marks, in order'),
      when: cel.optional().describe('condition at such a place; the others have no mark'),
      say: words.describe('how the strip is laid on'),
    })
    .optional(),
});
