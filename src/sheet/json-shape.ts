/** The shape of the JSON sheet, from which its JSON Schema is made; the tests hold every sheet against it. */
import * as z from 'zod';

const instant = z.iso.datetime().describe('ISO 8601, UTC');
const place = z.string().describe('job, a, b, a.front: id of the place in the job');
const where = { place, where: z.string().describe('name of the place in this job; empty for the job as a whole') };
const who = { at: instant, by: z.string().describe('initials') };
const ofStep = { ...where, step: z.string().describe('id of the step in the procedure'), title: z.string() };
const scalar = z.union([z.number(), z.string(), z.boolean()]);
const answer = z.union([scalar, z.array(scalar)]).describe('canonical unit; id of a choice; list');
const halfWidth = z.union([z.number(), z.array(z.number())]).describe('half width in the same unit');
const unit = z.string().describe('canonical unit; empty for words and pure numbers');
const text = z.string().describe('as people read it');
const key = z.string().describe('name of the value in the procedure');

const provenance = z.strictObject({
  by: z.enum(['reading', 'correction', 'log', 'event', 'calculation', 'rule', 'earlier-job', 'assumed']),
  step: z.string().optional(),
  entry: z.int().optional().describe('number of the entry in the journal'),
  at: instant.optional(),
  initials: z.string().optional(),
  typed: z.string().optional().describe('as it was typed'),
  calculation: z.string().optional().describe('calculator, see rotorside calc'),
  result: z.string().optional(),
  from: z.array(z.string()).optional().describe('values that the rule reads'),
});
const figureFields = {
  ...where,
  key,
  label: z.string(),
  known: z.boolean(),
  lacks: z.enum(['not asked yet', 'does not apply', 'unknown']).optional().describe('why it is not known'),
  value: answer.nullable().describe('null while it is not known'),
  unit,
  plusMinus: halfWidth.optional(),
  text,
  provenance: provenance.optional().describe('absent while it is not known'),
  shop: z.literal(true).optional().describe("rests on a row of the shop's own tables"),
};
const figure = z.strictObject(figureFields);
const said = { ...where, text, keys: z.array(z.string()) };
const saidLine = z.strictObject(said);
const dueLook = {
  hours: z.number().describe('hours of running'),
  dates: z.array(z.strictObject({ aDay: z.number().describe('hours of running a day'), at: instant })),
  say: z.string().optional().describe('what is done then'),
};
const saidRow = z.strictObject({ ...said, heading: z.string() });
const source = z.strictObject({ tag: z.enum(['P', 'M', 'CP', 'A', 'shop']), says: z.string() });

const takenFrom = z.strictObject({ job: z.string(), name: z.string(), at: instant });
const answerLine = z.strictObject({
  ...{ key, label: z.string(), value: answer, unit, plusMinus: halfWidth.optional(), text },
  ...{ typed: z.string().optional(), ...who, corrected: z.boolean() },
  from: takenFrom.optional().describe('the finished job that it was taken over from, confirmed in this one'),
});
const signature = z.strictObject({
  ...ofStep,
  ...who,
  role: z.enum(['witnessed', 'self-checked']),
  initials: z.string(),
  says: z.string(),
  insteadOf: z.string().optional().describe('the mentor named, where another one signed'),
  invalid: z.literal(true).optional(),
  stands: z.boolean(),
  hands: z.string().describe('initials of whose session it was typed in'),
  own: z.string().optional().describe("figure or finding of whoever signed, given before the guide's was shown"),
  apart: z
    .string()
    .optional()
    .describe("own figure and the guide's, further apart than allowed, and why it was signed"),
  noOwn: z.literal(true).optional().describe('such a finding was asked for and none was given'),
  after: z.number().optional().describe('seconds after the entry before it'),
});
const overrule = z.strictObject({
  ...{ ...ofStep, ...who, gate: z.string(), says: z.string(), reason: z.string(), initials: z.string() },
  now: z.enum(['in force', 'lapsed', 'not needed']),
  reading: z.string().optional().describe('of a log the figures of the reading at which it was'),
  next: z.string().optional().describe('of a log the figures of the reading that followed'),
});
const stepLine = z.strictObject({
  ...ofStep,
  answers: z.array(answerLine),
  confirmed: z.strictObject(who).optional(),
  mark: z.string().optional(),
  status: z.enum(['done', 'waiting', 'unfinished', 'reopened', 'stopped']),
  rows: z.int().optional(),
});

const block = z
  .looseObject({
    is: z.enum(['table', 'heading', 'list', 'words', 'worked', 'drawing', 'photos', 'strip', 'tag', 'ink']),
  })
  .describe('a table has columns [heading, share of width] and rows { cells }');
const section = z.strictObject({
  ...{ id: z.string(), title: z.string(), part: z.enum(['front', 'work', 'cut', 'record']) },
  ...{ alert: z.literal(true).optional(), blocks: z.array(block) },
});

export const sheetShape = z.strictObject({
  format: z.literal('rotorside-sheet'),
  sheet: z.literal(2).describe('version of this shape'),
  timeZone: z.string().describe('IANA zone of the times in sections'),
  head: z.strictObject({
    number: z.string().optional().describe('job number; absent for a job from a file of readings'),
    issued: instant.optional(),
    job: z.string().describe('name of the job'),
    procedure: z.string(),
    procedureTitle: z.string(),
    version: z.string(),
    hash: z.string(),
    check: z.string().optional().describe('check number over all entries of the record'),
    begunAt: z
      .string()
      .optional()
      .describe('practice that began late: title of the phase, what comes before it was filled in'),
    shop: z.literal(true).optional(),
    versions: z.array(z.strictObject({ ...who, version: z.string(), hash: z.string() })),
    practice: z.string().optional().describe('set when the job is no real one'),
    earlier: z.string().optional().describe('job that this one follows'),
    started: instant.optional(),
    lastEntry: instant.optional(),
    people: z.array(
      z.strictObject({ initials: z.string(), name: z.string().optional(), role: z.string(), entries: z.int() }),
    ),
    customer: z.string().optional(),
    issuer: z.string().optional(),
    unfit: z.string().optional(),
    finished: z.boolean(),
    done: z.int(),
    total: z.int(),
    open: z.array(z.string()),
  }),
  verdict: z.string(),
  notice: z.string().optional(),
  front: z.strictObject({
    barred: z.array(saidLine).describe('why the machine may not be run'),
    known: z.array(figure),
    verdict: z.string().optional(),
    rows: z.array(saidRow),
    unusual: z.array(saidLine),
    due: z
      .strictObject({
        ...dueLook,
        from: instant,
        by: z.string().optional().describe('initials of whoever set the hours'),
        first: z.strictObject(dueLook).optional().describe('a smaller look before it'),
        why: z.array(saidLine),
      })
      .optional(),
    watch: z.array(saidLine),
    instruments: z.array(saidRow),
    tag: z.array(saidRow),
  }),
  stops: z.array(
    z.strictObject({
      ...{ ...ofStep, ...who, gate: z.string(), says: z.string(), seq: z.int() },
      ended: z
        .strictObject({
          ...who,
          how: z.string(),
          result: z.enum([
            'put right',
            'answered after a correction',
            'confirmed',
            'overruled',
            'unforeseen',
            'taken back',
            'asked no more',
            'answer changed',
          ]),
        })
        .optional(),
    }),
  ),
  headline: z.array(figure),
  next: z.array(figure),
  groups: z.array(
    z.strictObject({ title: z.string(), appendix: z.literal(true).optional(), figures: z.array(figure) }),
  ),
  decisions: z.array(
    z.strictObject({
      ...ofStep,
      answers: z.array(answerLine),
      confirmed: z.strictObject(who).optional(),
      restsOn: z.array(figure),
      mark: z.string().optional(),
      reopened: z.boolean(),
      signature: signature.optional(),
      overruled: z.array(overrule),
    }),
  ),
  overruled: z.array(overrule),
  signatures: z.array(signature),
  refusals: z
    .array(z.strictObject({ ...ofStep, ...who, initials: z.string(), reason: z.string() }))
    .describe('signatures that were asked for and not given'),
  remedies: z.array(
    z.strictObject({
      ...{ ...ofStep, text },
      changed: z.array(z.strictObject({ label: z.string(), old: z.string(), now: z.string() })),
      nothing: z.string().optional().describe('why nothing is to be done about it'),
      settled: z.strictObject({ ...who, reason: z.string() }).optional(),
    }),
  ),
  corrections: z.array(
    z.strictObject({
      ...{ ...ofStep, ...who, label: z.string(), old: z.string(), now: z.string() },
      ...{ typed: z.string().optional(), reason: z.string() },
    }),
  ),
  events: z.array(
    z.strictObject({
      ...{ ...where, ...who, title: z.string(), mark: z.string(), text: z.string().optional() },
      ended: z.string().optional().describe('how it ended, or what is still open'),
    }),
  ),
  findings: z.array(
    z.strictObject({
      ...where,
      phases: z.array(z.strictObject({ title: z.string(), steps: z.array(stepLine) })),
    }),
  ),
  derivations: z.array(
    z.strictObject({
      ...{ ...where, id: z.string(), title: z.string(), formula: z.string(), worked: z.array(z.string()) },
      results: z.array(z.strictObject({ ...figureFields, dominant: z.string().optional() })),
      inputs: z.array(
        z.strictObject({
          ...{ label: z.string(), text, depth: z.int(), from: z.string() },
          ...{ derivation: z.string().optional(), sources: z.array(source) },
        }),
      ),
      ...{ sources: z.array(source), warnings: z.array(z.string()) },
    }),
  ),
  strip: z
    .strictObject({
      ...{ title: z.string(), say: z.string() },
      marks: z.array(z.strictObject({ mm: z.number(), name: z.string(), label: z.string() })),
    })
    .optional(),
  logs: z.array(
    z.strictObject({
      ...ofStep,
      columns: z.array(z.strictObject({ key, label: z.string(), unit })),
      rows: z.array(z.strictObject({ ...who, cells: z.array(z.string()), corrected: z.boolean() })),
    }),
  ),
  pictures: z
    .array(z.strictObject({ ...ofStep, picture: z.string(), values: z.record(z.string(), answer) }))
    .describe('drawings made of values'),
  photos: z
    .array(
      z.strictObject({
        ...{ ...ofStep, ...who, file: z.string(), sha256: z.string(), bytes: z.int(), name: z.string() },
        shows: z.string().optional(),
        src: z.string().optional().describe('the picture, small, as a data URI'),
      }),
    )
    .describe('pictures that people took'),
  life: z
    .array(
      z.strictObject({
        ...{ job: z.string(), name: z.string(), did: z.string(), at: instant, machine: z.string() },
        begins: z.literal(true).optional().describe('what is measured in service is held against what comes after it'),
        hours: z.number().optional().describe('hours of running to the next look'),
        due: z.string().optional().describe('day of the next look'),
        found: z.array(z.strictObject({ where: z.string(), text })),
        figures: z.array(
          z.strictObject({
            ...{ ...where, key, label: z.string(), value: z.number(), unit, text },
            plusMinus: z.number().optional(),
            item: z.int().optional().describe('which one, of a figure that is a list'),
          }),
        ),
      }),
    )
    .describe('jobs and looks of this rotor until now, oldest first'),
  cautions: z.array(z.strictObject({ ...ofStep, ...who, cautions: z.array(z.string()) })),
  waits: z.array(
    z.strictObject({
      ...{ ...ofStep, label: z.string(), from: instant, until: instant.optional(), minutes: z.number().optional() },
      ...{ state: z.enum(['over', 'running', 'cut short']), clockBack: z.boolean() },
    }),
  ),
  notes: z.array(z.strictObject({ ...where, ...who, kind: z.enum(['note', 'handover']), text })),
  predictions: z.array(
    z.strictObject({ ...ofStep, ...who, label: z.string(), predicted: z.string(), actual: z.string() }),
  ),
  setAside: z.array(z.strictObject({ ...ofStep, ...who, label: z.string(), text, because: z.string() })),
  clockJumps: z.array(z.strictObject({ before: instant, after: instant })),
  undone: z.int(),
  takenBack: z.array(
    z.strictObject({ ...where, ...who, title: z.string(), what: z.string(), text, back: z.strictObject(who) }),
  ),
  entries: z.int(),
  sections: z.array(section).describe('the whole sheet as people read it, in order'),
});

export const sheetJsonSchema = (): unknown => ({
  ...z.toJSONSchema(sheetShape, { target: 'draft-2020-12' }),
  title: 'A job sheet of rotorside',
  description:
    'Numbers are in canonical units, named beside them. Instants are ISO 8601 in UTC. Fields may be added within a version; none is removed or changes its meaning.',
});
