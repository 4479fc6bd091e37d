/** What a procedure file may say about its job sheet. */
import * as z from 'zod';
import { baseOf } from './questions/base.js';

const { id, key, words, cel } = baseOf(z);

/** A line of the sheet: said at each place of a kind where its conditions hold and a value of it is known. */
const sheetLine = {
  at: z.string().optional().describe('job, or a kind of place'),
  when: cel.optional(),
  once: id.optional().describe('step that has to be done, with nothing before it open again'),
  until: id.optional().describe('step that is called for and not done yet, or before which something is open again'),
  say: words,
};
const sheetLines = z.array(z.strictObject(sheetLine));
const sheetRows = z.array(z.strictObject({ heading: words, ...sheetLine }));

const told = 'condition at the place of a figure; where it does not hold the figure is left out';

export const sheetSchema = z.strictObject({
  figures: z.array(z.strictObject({ key, heading: words.optional(), when: cel.optional().describe(told) })),
  decisions: z.array(id).optional(),
  headline: z.array(key).optional().describe('what the rotor and the job are known by'),
  groups: z
    .array(
      z.strictObject({
        title: words,
        when: cel.optional().describe(`${told}; not asked of those of the whole job`),
        keys: z.array(key).min(1),
        appendix: z.boolean().optional().describe('told with the record, not on the first pages'),
      }),
    )
    .optional()
    .describe('further values under a heading of their own, such as materials'),
  front: z
    .strictObject({
      known_by: z.array(key).optional().describe('what, which and for whom'),
      barred: sheetLines
        .optional()
        .describe('why it may not be run: told first on sheet and tag, which then name no next look'),
      verdict: sheetLines.optional().describe('what became of it; the first that holds is said'),
      rows: sheetRows.optional().describe('what the next owner asks first'),
      unusual: sheetLines.optional().describe('what departs from a usual job'),
      ended: z
        .array(
          z.strictObject({
            event: id.describe('branch'),
            when: cel.optional(),
            once: id.optional(),
            meanwhile: z.literal(true).optional().describe('told also while the event is not settled'),
            say: words,
          }),
        )
        .optional()
        .describe(
          'how an unforeseen event ended, told beside it; the first that holds. Without one the marks of its steps are told',
        ),
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
