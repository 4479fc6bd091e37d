/** The form of a replay file: a whole job as readings by step, typed as a person types them. */
import * as z from 'zod';

const typed = z.union([z.string(), z.number(), z.boolean(), z.array(z.union([z.string(), z.number(), z.boolean()]))]);
const duration = z.union([z.string(), z.number()]).describe('time that passes before this, such as 20 min');
const overrule = z.strictObject({ gate: z.string(), reason: z.string(), initials: z.string() });
const answers = z.record(z.string(), typed);

const stepItem = z.strictObject({
  step: z.string(),
  at: z.string().optional().describe('place: job, a, a.front …; job when left out'),
  after: duration.optional(),
  by: z.string().optional().describe('initials, when another person goes on'),
  answers: answers.optional(),
  rows: z.array(z.looseObject({ after: duration.optional() })).optional(),
  as: z.string().optional().describe('place of the same kind whose answers are taken over first'),
  predict: answers.optional(),
  ways: z.record(z.string(), z.string()).optional().describe('in practice: key to the way it was measured'),
  held: z.string().optional().describe('gate that stops the step here; what follows in the file deals with it'),
  overrule: z.union([overrule, z.array(overrule)]).optional(),
  refuse: z
    .strictObject({ reason: z.string(), initials: z.string() })
    .optional()
    .describe('the signature is asked for and refused; the step stays open'),
  sign: z.string().optional(),
  own: z.string().optional().describe('what who signs found before'),
  sign_after: duration.optional().describe('time that it takes who signs to look'),
});
const raiseItem = z.strictObject({
  raise: z.string(),
  at: z.string(),
  after: duration.optional(),
  text: z.string().optional(),
});
const correctItem = z.strictObject({
  correct: z.strictObject({
    step: z.string(),
    at: z.string().optional(),
    key: z.string(),
    value: typed,
    way: z.string().optional(),
    reason: z.string(),
  }),
  after: duration.optional(),
});
const settleItem = z.strictObject({
  settle: z.strictObject({ step: z.string(), at: z.string().optional(), reason: z.string() }),
  after: duration.optional(),
});
const noteItem = z.strictObject({ note: z.string(), at: z.string().optional() });
const handoverItem = z.strictObject({ handover: z.string() });

export const replaySchema = z.strictObject({
  replay: z.literal(1).describe('format of the file'),
  invented: z.boolean().optional().describe('true when the readings are made up'),
  name: z.string().min(1),
  procedure: z.string().min(1),
  by: z.string().min(1),
  apprentice: z.string().optional(),
  mentor: z.string().optional(),
  pace: z.enum(['learning', 'brisk']).optional(),
  practice: z.string().optional(),
  earlier: z
    .string()
    .min(1)
    .optional()
    .describe('replay file of the finished job that this one follows, beside this file'),
  start: z.string().optional().describe('instant of the first entry, such as 2026-03-02T08:00:00Z'),
  steps: z.array(z.union([stepItem, raiseItem, correctItem, settleItem, noteItem, handoverItem])).min(1),
});

export type ReplayFile = z.infer<typeof replaySchema>;
export type ReplayItem = ReplayFile['steps'][number];
export type StepItem = z.infer<typeof stepItem>;
