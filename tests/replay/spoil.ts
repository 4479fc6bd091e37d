/** Ways to spoil a file of readings. */
import fc from 'fast-check';
import { parse } from 'yaml';
import { anyCharacter } from '../setup/any-character.js';
import { model } from '../shipped/good-job.js';
import { goodText } from './program.js';

const nasty = [
  '',
  ' ',
  '0',
  '-1',
  '1e999',
  'NaN',
  '1,5',
  '½',
  '12 mm mm',
  '12x9x4x3 mm',
  '12.4 ± 0.1 mm',
  '5±-1',
  'yes',
  'null',
  '~',
  '[]',
  '{}',
  '1.2.3',
  '0x10',
  'é中👍',
  '\u0000',
  '\u001b[31m',
  'a'.repeat(3000),
  '__proto__',
  'constructor',
  'open,open,beep',
  '99999999999999999999',
  '-0',
  '1 000',
  "1'000",
];
const value = fc.oneof(
  fc.constantFrom<unknown>(...nasty),
  fc.double(),
  fc.integer(),
  fc.boolean(),
  fc.constantFrom<unknown>(null, [], {}, [[]], { a: 1 }, [1, 'a', true]),
  fc.string({ unit: anyCharacter, maxLength: 30 }),
  fc.array(fc.constantFrom('open', 'beep', 'none', 'x', ''), { maxLength: 30 }),
);
export const good = parse(goodText) as { steps: Record<string, unknown>[] };
const at = fc.nat(good.steps.length - 1);
export type File = Record<string, unknown> & { steps: Record<string, unknown>[] };

/** One thing done to the file as data. */
export const change = fc.oneof(
  // An answer becomes something else.
  fc.record({ kind: fc.constant('answer' as const), at, which: fc.nat(20), value }),
  fc.record({
    kind: fc.constant('field' as const),
    at,
    name: fc.constantFrom(
      'step',
      'at',
      'after',
      'by',
      'sign',
      'rows',
      'predict',
      'overrule',
      'answers',
      'raise',
      'correct',
      'note',
      'handover',
      'settle',
      'zz',
    ),
    value,
  }),
  fc.record({
    kind: fc.constant('head' as const),
    name: fc.constantFrom(
      'replay',
      'name',
      'procedure',
      'by',
      'mentor',
      'apprentice',
      'start',
      'steps',
      'practice',
      'zz',
    ),
    value,
  }),
  fc.record({ kind: fc.constant('drop' as const), at }),
  fc.record({ kind: fc.constant('swap' as const), at, to: at }),
  fc.record({ kind: fc.constant('twice' as const), at, to: at }),
  fc.record({
    kind: fc.constant('raise' as const),
    at,
    branch: fc.constantFrom(...(model.procedure.branches ?? []).map((b) => b.id), 'zz'),
    place: fc.constantFrom('job', 'a', 'b', 'a.front', 'c', ''),
  }),
  fc.record({ kind: fc.constant('correct' as const), at, from: at, which: fc.nat(5), value }),
);
type Change = typeof change extends fc.Arbitrary<infer C> ? C : never;

const keysOf = (item: Record<string, unknown> | undefined): string[] => Object.keys((item?.answers as object) ?? {});

export function apply(file: File, c: Change): void {
  const { steps } = file;
  if (!Array.isArray(steps) || !steps.length) return;
  // Steps may have been replaced by something else already.
  if (!steps.every((s) => typeof s === 'object' && s !== null)) return;
  const item = 'at' in c ? steps[c.at % steps.length] : undefined;
  switch (c.kind) {
    case 'answer': {
      const keys = keysOf(item);
      const key = keys[c.which % Math.max(1, keys.length)];
      if (item && key) (item.answers as Record<string, unknown>)[key] = c.value;
      const rows = item?.rows as Record<string, unknown>[] | undefined;
      const row = Array.isArray(rows) ? rows[c.which % rows.length] : undefined;
      if (row) row[Object.keys(row)[c.which % Object.keys(row).length] ?? 'x'] = c.value;
      return;
    }
    case 'field':
      if (item) item[c.name] = c.value;
      return;
    case 'head':
      (file as Record<string, unknown>)[c.name] = c.value;
      return;
    case 'drop':
      steps.splice(c.at % steps.length, 1);
      return;
    case 'swap': {
      const [i, j] = [c.at % steps.length, c.to % steps.length];
      [steps[i], steps[j]] = [steps[j]!, steps[i]!];
      return;
    }
    case 'twice':
      steps.splice(c.to % steps.length, 0, structuredClone(steps[c.at % steps.length]!));
      return;
    case 'raise':
      steps.splice(c.at % steps.length, 0, { raise: c.branch, at: c.place });
      return;
    case 'correct': {
      const from = steps[c.from % steps.length];
      const key = keysOf(from)[c.which % Math.max(1, keysOf(from).length)] ?? 'bore';
      const correct = {
        step: from?.step ?? 'x',
        at: typeof from?.at === 'string' ? from.at : 'job',
        key,
        value: c.value,
        reason: 'tried',
      };
      steps.splice(c.at % steps.length, 0, { correct });
    }
  }
}
