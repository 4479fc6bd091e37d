/**
 * What a practice rotor's file may say: an invented rotor, what it shows to whoever measures it in which way,
 * and the traps that are set in it. Expressions are CEL as in procedures, see rotor-words.ts for what they can name.
 */
import * as z from 'zod';

const id = z.string().regex(/^[a-z][a-z0-9-]*$/, 'small letters, digits and hyphens, beginning with a letter');
const key = z.string().regex(/^[a-z][a-z0-9_]*$/, 'small letters, digits and underscores, beginning with a letter');
const words = z.string().min(1);
/** Several: one of them is drawn for each rotor, so that two rotors do not sound alike. */
const said = z.union([z.string(), z.array(z.string()).min(1)]);
const cel = z.string().min(1).describe('CEL expression');
const place = z.string().min(1).describe('job, or a place such as a or a.front');
const typed = z
  .union([z.string(), z.number(), z.boolean(), z.array(z.string()).min(1)])
  .describe('as a person would type it');

const way = z.strictObject({
  way: id,
  label: words.describe('what the apprentice picks'),
  shows: typed.optional().describe('what is read off when it is measured in this way; left out: nothing is seen'),
  says: said.optional().describe('what is seen and heard besides'),
  sees: said.optional().describe('what an eye, ear or finger has instead of the option’s own words'),
  careless: id
    .optional()
    .describe('trap that stands behind this way on some rotor: where it does not stand here the debrief tells of it'),
  unless: cel.optional().describe('what makes up for going about it so'),
  harmless: z
    .strictObject({ says: said.optional(), sees: said.optional() })
    .optional()
    .describe(
      'what is seen and heard in this way on a rotor where its trap is not set; without `sees` as the answer looks',
    ),
});

const reading = z.strictObject({
  step: id,
  at: place.default('job'),
  when: cel.optional().describe('the first reading whose condition holds is shown'),
  says: said.optional(),
  shows: z.record(key, typed).optional().describe('key to what the rotor shows'),
  also: z
    .record(key, z.array(z.string()).min(1))
    .optional()
    .describe('key to other answers that are as true, such as another way of measuring that is there too'),
  works_out: z
    .record(key, cel)
    .optional()
    .describe('key to an expression, in the canonical unit: a reading that follows from what was done'),
  sees: z
    .record(key, said)
    .optional()
    .describe(
      'key to what an eye, ear or finger has, in place of the words of the answer: naming it is left to the reader',
    ),
  key: key.optional().describe('the key that `ways` are for'),
  ways: z.array(way).min(2).optional(),
});

const log = z.strictObject({
  step: id,
  at: place.default('job'),
  when: cel.optional(),
  by: key.describe('key of the row that picks the rows below, such as the stage'),
  columns: z.array(key).min(1),
  rows: z
    .array(z.array(z.union([z.string(), z.number()])).min(2))
    .min(1)
    .describe('value of `by`, then a value for each column; readings at one value follow one another, the last stays'),
});

const runIn = z.strictObject({
  log: z
    .strictObject({
      step: id.describe('the step that repeats'),
      stage: key.describe('column with the stage, 1 up to the last'),
      stages: z.number().int().min(2).max(20),
      rings: z.record(key, place).describe('column with a temperature, and the bearing whose ring it is; one or two'),
      sound: key.optional().describe('column with the sound: smooth, hiss, rough'),
      room: cel.describe('room temperature, degC'),
      top: cel.describe('speed of the last stage, rpm'),
      due: cel.describe('dose that is due, seen from the bearing'),
      put_in: cel.describe('dose that went in, seen from the bearing'),
      stood: z.array(id).optional().describe('branches after which it has stood until it was cool'),
    })
    .optional()
    .describe('where the procedure logs it'),
  rise: z.number().min(3).max(60).default(17).describe('K over the room that a sound bearing has at top speed'),
  minutes: z.number().min(2).max(150).default(6).describe('slow time constant of the housing'),
  lump_at: z.number().int().min(1).max(20).optional().describe('stage at which a lump of grease is drawn in'),
  lump: z.number().min(0).max(20).default(0).describe('how much it adds to the churning, as a multiple'),
  worse: z
    .array(z.strictObject({ when: cel, at: place.default('job'), stuck: z.number().min(0).max(20) }))
    .optional()
    .describe('what was done before that keeps grease in the track'),
});

const texts = z.array(words).min(1);
const range = z.strictObject({ from: z.number(), to: z.number(), step: z.number().positive() });
const draw = z.strictObject({
  stories: texts.describe('one of them is told'),
  words: z.record(key, texts).optional().describe('name to texts, one of which is drawn'),
  numbers: z.record(key, range).optional().describe('name to a range, one number of which is drawn'),
  one_of: z
    .array(z.array(z.array(reading).min(1)).min(1))
    .optional()
    .describe('lists of sets of readings that go together; of each list one set is drawn'),
  bodies: z
    .array(z.record(key, z.union([z.string(), z.number(), range])))
    .min(1)
    .describe('name to what goes with one size; `size` is held against only_size'),
  own: z.array(id).optional().describe('steps that no trap lends anything to'),
  readings: z
    .array(reading)
    .min(1)
    .describe('{name} stands for what was drawn, {number} for the number of the rotor; what a trap asks is the trap’s'),
});

const plan = z.strictObject({
  ways: z.record(key, z.array(id).min(1)).optional().describe('key to the ways taken, one after the other'),
  answers: z
    .record(z.string(), cel)
    .optional()
    .describe('key, or key@place, to an expression; the rotor’s reading or what is suggested where there is none'),
  gates: z
    .record(id, z.union([z.strictObject({ raise: id }), z.strictObject({ overrule: words }), z.literal('end')]))
    .optional()
    .describe('gate to what is done when it stops'),
  raise: z
    .array(z.strictObject({ when: cel, branch: id, at: place.default('job') }))
    .optional()
    .describe('raised as soon as the condition holds'),
  ends: cel.optional().describe('goes no further once this holds for the job'),
});

const trap = z.strictObject({
  id,
  title: words,
  at: place.default('job'),
  caught: cel.describe('holds once it was seen through'),
  fell: cel.describe('holds while it is fallen into'),
  too_late: id.optional().describe('step after which a correction no longer helps'),
  would_have: words.describe('what it would have done to the motor'),
  lesson: words,
  truth: z
    .record(key, typed)
    .optional()
    .describe(
      'readings that are false for whoever fell into it, as a true one would be typed; predictions are held against these',
    ),
  seen: words.optional().describe('for the debrief: what there was to be seen'),
  taken_for: words.optional().describe('what it was taken for'),
  was: words.optional().describe('what it was'),
  skill: id.optional().describe('what it practises; traps of one skill are the same trap in other clothes'),
});

export const rotorSchema = z.strictObject({
  rotor: id,
  title: words,
  invented: z.literal(true).describe('says that no number here was measured'),
  teaches: words.describe('in one line, without giving the trap away'),
  story: words,
  procedure: id,
  like: id.optional().describe('rotor whose readings and logs stand in where this one has none'),
  readings: z.array(reading).min(1),
  logs: z.array(log).optional(),
  looks: z
    .record(key, z.record(z.string(), said))
    .optional()
    .describe('key to answers and what an eye, ear or finger has of each, where a reading does not say it'),
  traps: z.array(trap).min(1),
  elsewhere: z
    .array(trap)
    .optional()
    .describe('traps that do not stand here, of which careless ways are told all the same'),
  next: id.optional().describe('rotor to try next'),
  offered: z.boolean().optional().describe('no: it only lends its traps to rotors that are drawn by chance'),
  ends_job: z.boolean().optional().describe('whoever sees its trap goes no further, so it is drawn alone'),
  only_size: z.string().optional().describe('size that its readings hold for'),
  run_in: runIn.optional().describe('temperatures of the run-in by simulation, where no log has them'),
  draw: draw
    .optional()
    .describe('from this rotor others are drawn by chance; traps are lent by those that are like it'),
  careful: plan.optional().describe('how somebody goes about it who sees its traps'),
  careless: plan.optional().describe('what somebody does otherwise who wants to be done'),
});

export type Rotor = z.infer<typeof rotorSchema>;
export type RotorReading = Rotor['readings'][number];
/** Words, or several of which one is drawn. */
export type Phrasing = z.infer<typeof said>;
export type Way = NonNullable<RotorReading['ways']>[number];
export type RunIn = NonNullable<Rotor['run_in']>;
export type Draw = NonNullable<Rotor['draw']>;
export type PracticePlan = NonNullable<Rotor['careful']>;
export type RotorLog = NonNullable<Rotor['logs']>[number];
export type Trap = Rotor['traps'][number];
/** A reading as it would be typed. */
export type Typed = z.infer<typeof typed>;
