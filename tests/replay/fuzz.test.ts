/** Spoilt files of readings: never a crash or a hang; what is refused is refused in one sentence with its place. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { replay } from '../../src/engine/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay-file.js';
import { readDocument } from '../../src/procedure/document.js';
import { model } from '../shipped/good-job.js';
import { goodText, replayed, written } from './program.js';

/** As the command does it, in this process. */
function run(text: string): 'passed' | 'unreadable' | 'refused' {
  const read = readDocument<ReplayFile>(text, 'f.yaml', replaySchema);
  let result: 'passed' | 'unreadable' | 'refused' = 'passed';
  if (!read.value) {
    const p = read.problems[0];
    expect(p).toBeDefined();
    expect(p?.line).toBeGreaterThan(0);
    expect(p?.column).toBeGreaterThan(0);
    sentence(`${p?.message} ${p?.cure}`);
    result = 'unreadable';
  } else if (read.value.start !== undefined && Number.isNaN(Date.parse(read.value.start))) result = 'refused';
  else {
    const outcome = replay(model, read.value);
    if (!outcome.ok) {
      expect(outcome.item).toBeGreaterThanOrEqual(0);
      expect(outcome.item).toBeLessThan(read.value.steps.length);
      sentence(outcome.message);
      result = 'refused';
    }
  }
  return result;
}

function sentence(message: string): void {
  expect(message.length).toBeGreaterThan(8);
  expect(message.length).toBeLessThan(900);
  expect(message).not.toContain('\n');
  // What the file says may be quoted; it is not ours.
  expect(message.replace(/“[^”]*”|"[^"]*"/g, '')).not.toMatch(/undefined|\[object|NaN|Infinity|Error:/);
  expect(message).toMatch(/[.?!”)]$/);
}

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
  '10x10x5x3 mm',
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
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.array(fc.constantFrom('open', 'beep', 'none', 'x', ''), { maxLength: 30 }),
);
const good = parse(goodText) as { steps: Record<string, unknown>[] };
const at = fc.nat(good.steps.length - 1);
type File = Record<string, unknown> & { steps: Record<string, unknown>[] };

/** One thing done to the file as data. */
const change = fc.oneof(
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

function apply(file: File, c: Change): void {
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

describe('a spoilt file of readings', () => {
  const seen = { passed: 0, unreadable: 0, refused: 0 };

  it('spoilt as data', () => {
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        const file = structuredClone(good) as unknown as File;
        for (const c of structuredClone(changes)) apply(file, c);
        seen[run(stringify(file, { aliasDuplicateObjects: false }))]++;
      }),
      { numRuns: 500 },
    );
  }, 240_000);

  it('spoilt as text', () => {
    const cut = fc.record({
      from: fc.nat(goodText.length),
      length: fc.nat(60),
      put: fc.oneof(
        fc.string({ unit: 'binary', maxLength: 8 }),
        fc.constantFrom(
          '\t',
          '  ',
          '- ',
          ': ',
          '#',
          '"',
          "'",
          '[',
          '}',
          '&a ',
          '*a',
          '!!str ',
          '\u0000',
          '---\n',
          '...\n',
          '|',
          '>',
          '%',
          '\r',
          '\ufeff',
          '<<: *a',
        ),
      ),
    });
    fc.assert(
      fc.property(fc.array(cut, { minLength: 1, maxLength: 3 }), fc.option(fc.nat(goodText.length)), (cuts, end) => {
        let text = goodText;
        for (const c of cuts) text = text.slice(0, c.from) + c.put + text.slice(c.from + c.length);
        if (end !== null) text = text.slice(0, end);
        seen[run(text)]++;
      }),
      { numRuns: 350 },
    );
  }, 240_000);

  it('that is no file of readings at all', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 400 }), fc.json({ maxDepth: 6 })), (text) => {
        seen[run(text)]++;
      }),
      { numRuns: 200 },
    );
  }, 60_000);

  it('is refused in each way, and sometimes passes', () => {
    expect(seen.unreadable).toBeGreaterThan(50);
    expect(seen.refused).toBeGreaterThan(100);
    expect(seen.passed).toBeGreaterThan(5);
  });

  it('bombs: aliases, depth, length', () => {
    const aliases = ['a: &a [x,x,x,x,x,x,x,x,x,x]'];
    for (let i = 0; i < 9; i++) {
      const from = String.fromCharCode(97 + i);
      const to = String.fromCharCode(98 + i);
      aliases.push(`${to}: &${to} [${Array(10).fill(`*${from}`).join(',')}]`);
    }
    for (const text of [
      aliases.join('\n'),
      '['.repeat(20_000),
      '{a: '.repeat(20_000),
      `${goodText}\n# ${'x'.repeat(5_000_000)}`,
      goodText.replace('steps:', `steps:\n${'  - { note: n }\n'.repeat(4000)}`),
    ])
      run(text);
  }, 60_000);

  it('by the real program: one line on stderr with file and line, nothing on stdout', () => {
    const samples = fc.sample(fc.array(change, { minLength: 1, maxLength: 2 }), { numRuns: 25, seed: 20_260_302 });
    for (const changes of samples) {
      const file = structuredClone(good) as unknown as File;
      for (const c of structuredClone(changes)) apply(file, c);
      const path = written(stringify(file, { aliasDuplicateObjects: false }));
      const { code, out, err } = replayed(path);
      expect([0, 1, 2]).toContain(code);
      if (code === 0) continue;
      expect(out).toBe('');
      expect(err.startsWith(`${path}:`) || /procedure/.test(err), err).toBe(true);
      expect(err.replace(/\n/g, '')).not.toMatch(/[\u0000-\u001f\u007f]/);
    }
  }, 120_000);
});
