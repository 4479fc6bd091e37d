/**
 * What a procedure file may say. The one source of truth: the program checks files with it, the types come from it, and
 * the JSON Schema for editors is generated from it. Expressions are CEL (an open standard). Numbers in them are in
 * canonical units (src/units/kinds.ts) and always written with a point: `kappa > 1.0`.
 */
import * as z from 'zod';
import { baseOf } from './questions/base.js';
import { type Question, questionKinds } from './questions/index.js';
import { lifeSchema } from './schema-life.js';
import { sheetSchema } from './schema-sheet.js';

const base = baseOf(z);
const { id, key, words, cel, quantity } = base;
const celType = z.enum(['double', 'string', 'bool', 'list<double>', 'list<string>', 'list<bool>']);
const tag = z.enum(['P', 'M', 'CP', 'A', 'shop']);

const questionSchema = z.discriminatedUnion(
  'kind',
  Object.values(questionKinds).map((kind) => kind.schema(base)) as unknown as [
    z.ZodObject<{ kind: z.ZodLiteral<string> }>,
  ],
) as unknown as z.ZodType<Question>;

const gate = z.strictObject({
  id,
  at: z
    .enum(['enter', 'leave'])
    .default('leave')
    .describe('enter: held before it begins; leave: held before it counts as done'),
  when: cel.optional(),
  must: cel,
  say: words.describe('why it stops and what to do'),
  raise: z
    .union([id, z.array(id).min(1)])
    .optional()
    .describe('branches that are offered here to be raised'),
  correct: z
    .array(key)
    .min(1)
    .optional()
    .describe('what alone is offered by one key to be corrected: readings, figures'),
  answer_stands: z
    .literal(true)
    .optional()
    .describe('the answer that stops is held to be right: it is offered again only behind raise and correct'),
  at_once: z
    .literal(true)
    .optional()
    .describe('told before the rest of its row is asked; what is never overruled is too'),
  overrule: z
    .enum(['never', 'with-reason', 'second-person'])
    .describe('second-person: with a reason, by another person than who works'),
});

const drawing = z.strictObject({
  picture: z.enum(['syringe', 'bearing-section', 'cage-side', 'probes', 'run-in-curve']),
  with: z.record(key, cel).optional(),
});

const caution = z.union([
  words,
  z.strictObject({
    kind: id.optional().describe('cautions of one kind are the same danger; by their words when left out'),
    say: words,
    when: cel.optional().describe('not shown where this is known to be false'),
  }),
]);

const stepSchema = z.strictObject({
  id,
  phase: id,
  at: z.string().describe('job, or a kind of place'),
  branch: id.optional().describe('belongs to an unforeseen branch; asked only once that was raised'),
  title: words,
  do: words.describe('what to do now; {key} shows a known figure'),
  why: words,
  otherwise: words.optional().describe('what goes wrong if skipped'),
  tell: words.optional().describe('how to tell that it is right'),
  when: cel.optional(),
  hazard: z.boolean().optional(),
  stays_at: z
    .enum(['papers', 'outside-guard'])
    .optional()
    .describe('how near a person comes; left out: hands, tools and eyes are at the rotor'),
  makes_safe: z.literal(true).optional().describe('makes it safe for hands; steps before the last say “stays_at”'),
  lays_out: z
    .array(z.strictObject({ for: words, things: z.array(words).min(1) }))
    .min(1)
    .optional()
    .describe('what is laid out here, in groups; shown whole in each pace'),
  uses: z.array(words).min(1).optional().describe('things that it takes, as an earlier “lays_out” names them'),
  caution: z.array(caution).optional(),
  ask: z.array(questionSchema).optional(),
  alike: z.boolean().optional().describe('in the brisk pace one key takes the answers of the same step elsewhere'),
  /** Repeat the questions as rows of a log until this holds; `pause`: minutes from a row to the next, told meanwhile. */
  repeat: z.strictObject({ until: cel, most: z.number().int().positive().max(2000), pause: cel.optional() }).optional(),
  show: z.array(key).optional().describe('figures shown large'),
  draw: drawing.optional(),
  gates: z.array(gate).optional(),
  physical: z.boolean().optional().describe('something was done to the rotor that a later correction can make wrong'),
  decision: z.boolean().optional().describe('reopened when the figures that it rests on change'),
  rests_on: z.array(key).optional(),
  remedy: words.optional().describe('what to do when a figure changed after the work; {key}, {key.old}, {key.change}'),
  no_remedy: z
    .strictObject({ when: cel, say: words.describe('why nothing is to be done, for the sheet') })
    .optional()
    .describe('where the change needs no work: nobody is asked'),
  wait: z
    .strictObject({ minutes: cel, label: words, meanwhile: words.optional().describe('what to do until it is over') })
    .optional(),
  fresh: z
    .strictObject({
      after: id.describe('step at the same place from which the time counts'),
      minutes: cel,
      say: words.describe('why it stops and what to do'),
      raise: id.optional().describe('branch that is offered first'),
    })
    .optional()
    .describe('stops this step, while it is not begun, once more time has passed since another one'),
  anew: z
    .strictObject({
      each: z.enum(['person', 'sitting']),
      after: z.array(id).min(1).describe('steps that prove the same: who did one of them is not asked'),
      lost_with: z
        .array(id)
        .optional()
        .describe('steps that undo it: once an event takes one of them back it is asked again'),
    })
    .optional()
    .describe('asked again of each person who takes over, or in each sitting, once one of the steps in after was done'),
  hold: z
    .strictObject({
      say: words,
      self_check: words,
      own: words.optional().describe("what a mentor finds; the guide's figures stand back until then"),
      near: z.strictObject({ key, percent: z.number().positive() }).optional().describe('how far own may be from it'),
    })
    .optional(),
  predict: z.array(key).optional().describe('figures an apprentice enters before the guide shows its own'),
  says_done: z.boolean().optional().describe('in the brisk pace the last answer says it; not where work follows'),
  brief: z.string().max(120).optional().describe('do, in the brisk pace; empty: title and questions say it'),
  page: id.optional().describe('in the brisk pace the steps of one page at one bearing stand on one screen'),
  together: id.optional().describe('steps of one group are not interleaved with others'),
  not_after: z.array(id).optional().describe('steps before this one that it does not wait for'),
  reopens: z.array(id).optional().describe('steps that must be done again too once an event has this one done again'),
  mark: words.optional().describe('line for the sheet once done; {key} allowed'),
  picture: words.optional().describe('what a photograph taken here is to show; it is asked for and never insisted on'),
});

const fact = z.union([
  z.strictObject({
    key,
    at: z.string(),
    label: words,
    is: cel,
    type: celType.optional().describe('type of the value; a fact with a quantity is double, another is string'),
    quantity: quantity.optional(),
    unit: z.string().optional(),
    when: cel.optional(),
    figures: z
      .int()
      .min(2)
      .max(6)
      .optional()
      .describe('significant figures shown at least: others are reckoned with it'),
    held_by: id.optional().describe('physical step: once it is done, the value stays as it was then'),
    source: z.strictObject({ tag, text: words }).optional(),
  }),
  z.strictObject({
    key,
    at: z.string(),
    label: words,
    over: z.string().describe('kind of place below this one'),
    /** Fold the values of all places below that apply. */
    all: cel.optional(),
    any: cel.optional(),
    count: cel.optional(),
    list: cel.optional(),
    type: celType.optional(),
    quantity: quantity.optional(),
  }),
]);

const calcUse = z.strictObject({
  calc: id,
  at: z.string(),
  when: cel.optional(),
  with: z.record(z.string(), cel).describe('calculator key to expression'),
  gives: z.record(z.string(), key).describe('calculator result to key'),
  names: z
    .record(z.string(), key)
    .optional()
    .describe('calculator result that is a list, to a list of words that names its items in order'),
  warn_at: id.optional().describe('step on which its warnings are shown'),
});

const branch = z.strictObject({
  id,
  at: z.string(),
  title: words,
  words: z.array(z.string().regex(/^\p{Ll}[\p{Ll} -]*$/u, 'a word in small letters')).optional(),
  first: words.optional().describe('what is done before it is reported, said while it is'),
  when: cel.optional(),
  mark: words.describe('its line on the job sheet'),
  reopens: z.array(id).optional().describe('steps that must be done again once it was raised'),
  behind: id.optional().describe('step up to which all is settled before its own steps; they come first when left out'),
});

const placeKind = z.strictObject({
  id,
  name: words,
  within: id.optional(),
  left: z
    .strictObject({ when: cel, say: words })
    .optional()
    .describe('what to do before one goes on at another place, where nothing more is to do here now'),
  instances: z
    .array(
      z.strictObject({
        id,
        label: words,
        /** Key of a job-level text answer that replaces the label. */
        label_from: key.optional(),
        when: cel.optional(),
      }),
    )
    .min(1),
});

export const procedureSchema = z.strictObject({
  procedure: id,
  version: z.string().regex(/^\d+\.\d+\.\d+$/, 'three numbers such as 1.0.0'),
  title: words,
  summary: words,
  notice: words.optional().describe('said before the first step'),
  follows: z
    .strictObject({
      procedure: id,
      again: z.boolean().optional().describe('a job of this procedure can follow one of its own too'),
      reads: z.record(
        key,
        z.strictObject({
          key: key.optional().describe('left out for what only a job of this procedure itself knows'),
          otherwise: z
            .union([z.string(), z.number(), z.boolean()])
            .optional()
            .describe('where the earlier job does not know it'),
          again: key.optional().describe('key in a job of this procedure itself; its own key when left out'),
          at: z.string(),
          type: celType,
          label: words,
          quantity: quantity.optional(),
        }),
      ),
    })
    .optional()
    .describe('reads values of a finished job: own key to the earlier key'),
  followed_by: id.optional().describe('procedure of the job that is due later, once this one is finished'),
  places: z.array(placeKind),
  phases: z.array(z.strictObject({ id, title: words })).min(1),
  steps: z.array(stepSchema).min(1),
  facts: z.array(fact).optional(),
  calcs: z.array(calcUse).optional(),
  branches: z.array(branch).optional(),
  life: lifeSchema.optional(),
  sheet: sheetSchema.optional(),
});

const partLine = z
  .strictObject({ part: id })
  .describe('a part of procedures/parts, whole: its steps stand here, or its facts, calcs or branches');

/** What a procedure file may hold: as the procedure, with lines that stand for parts. For editors. */
export const procedureFileSchema = procedureSchema.extend({
  steps: z.array(z.union([stepSchema, partLine])).min(1),
  facts: z.array(z.union([...fact.options, partLine])).optional(),
  calcs: z.array(z.union([calcUse, partLine])).optional(),
  branches: z.array(z.union([branch, partLine])).optional(),
});

const need = z.union([
  z
    .strictObject({
      key,
      at: z.string(),
      type: celType.optional(),
      quantity: quantity.optional(),
      otherwise: z
        .union([z.string(), z.number(), z.boolean()])
        .optional()
        .describe('what it is where the procedure has no such value; without it the procedure has to give one'),
    })
    .describe('a value; with a quantity it is double, otherwise string unless a type is said'),
  z
    .strictObject({ place: id, within: id.optional(), instances: z.array(id).min(1).optional() })
    .describe('a kind of place; instances only where conditions name them'),
  z.strictObject({ phase: id }),
  z
    .strictObject({ step: id, at: z.string().optional(), optional: z.literal(true).optional() })
    .describe(
      'a step that not_after, fresh, reopens or warn_at name; at where its place matters; optional where nothing is lost without it',
    ),
  z
    .strictObject({ branch: id, at: z.string(), optional: z.literal(true).optional() })
    .describe('optional where it is only offered, or asked whether it happened'),
]);

/** A piece of a procedure that several can name: it holds no other part and takes no parameters. */
export const partSchema = z.strictObject({
  part: id,
  version: z.string().regex(/^\d+\.\d+\.\d+$/, 'three numbers such as 1.0.0'),
  title: words,
  needs: z.array(need).optional().describe('what the procedure has to have'),
  steps: z.array(stepSchema).min(1).optional(),
  facts: z.array(fact).min(1).optional(),
  calcs: z.array(calcUse).min(1).optional(),
  branches: z.array(branch).min(1).optional(),
});

export const tableSchema = z.strictObject({
  table: id,
  title: words,
  columns: z.record(
    key,
    z.strictObject({ type: z.enum(['number', 'text']), unit: z.string().optional(), label: words }),
  ),
  rows: z.array(z.looseObject({ id: z.string().min(1), tag, source: z.string().min(1) })),
});

export type Procedure = z.infer<typeof procedureSchema>;
export type Step = z.infer<typeof stepSchema>;
export type { Question };
export type Gate = z.infer<typeof gate>;
export type Caution = z.infer<typeof caution>;
export type Fact = z.infer<typeof fact>;
export type CalcUse = z.infer<typeof calcUse>;
export type Branch = z.infer<typeof branch>;
export type Need = z.infer<typeof need>;
export type Part = z.infer<typeof partSchema>;
export type TableFile = z.infer<typeof tableSchema>;
