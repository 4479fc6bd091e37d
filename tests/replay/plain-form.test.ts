/** The form of a replay file without the library of schemas: it lets pass what the schema lets pass, as it stands. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { isPlainReplay } from '../../src/engine/replay/plain-form.js';
import { replaySchema } from '../../src/engine/replay/replay-file.js';
import { size } from '../setup/size.js';
import { apply, change, type File, good } from './spoil.js';

const folder = new URL('../../procedures/practice/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.replay.yaml'));

/** Both say the same of it, and what passes is handed on as it stands. */
function agree(file: unknown): boolean {
  const parsed = replaySchema.safeParse(file);
  expect(isPlainReplay(file)).toBe(parsed.success);
  if (parsed.success) expect(parsed.data).toEqual(file);
  return parsed.success;
}

describe('the plain form of a replay file', () => {
  it.each(files)('%s passes', (name) => {
    expect(agree(parse(readFileSync(new URL(name, folder), 'utf8')))).toBe(true);
  });

  const step = { step: 's' };
  const head = { replay: 1, name: 'n', procedure: 'p', by: 'AP', steps: [step] };
  const with_ = (more: object): unknown => ({ ...head, ...more });
  const item = (x: object): unknown => ({ ...head, steps: [step, x] });
  const overrule = { gate: 'g', reason: 'r', initials: 'MN' };
  const correct = { step: 's', key: 'k', value: 1, reason: 'r' };

  it.each<[string, unknown]>([
    [
      'each name of the head',
      with_({ invented: true, apprentice: 'A', mentor: 'B', practice: 'x', earlier: 'e', start: 's' }),
    ],
    ['a pace', with_({ pace: 'brisk' })],
    ['each name of a step', item({ step: 's', at: 'a', after: '5 min', by: 'B', as: 'b', held: 'g', sign: 'MN' })],
    [
      'answers of each type',
      item({ step: 's', answers: { a: 1, b: 'x', c: true, d: [1, 'x', false] }, predict: { a: 2 } }),
    ],
    [
      'ways, an overrule, a refusal',
      item({ step: 's', ways: { a: 'w' }, overrule, refuse: { reason: 'r', initials: 'M' } }),
    ],
    [
      'overrules and rows',
      item({ step: 's', overrule: [overrule, overrule], rows: [{ after: 5, t: 1 }, { t: [{ x: null }] }] }),
    ],
    ['a report', item({ raise: 'b', at: 'a', after: 2, text: 't' })],
    ['a correction', item({ correct: { ...correct, at: 'a', way: 'w' }, after: '1 h' })],
    ['a settling', item({ settle: { step: 's', at: 'a', reason: 'r' }, after: 3 })],
    ['a note and a handover', { ...head, steps: [{ note: 'n', at: 'a' }, { handover: 'h' }] }],
  ])('%s pass', (_, file) => {
    expect(agree(file)).toBe(true);
  });

  it.each<[string, unknown]>([
    ['no file', null],
    ['a list', []],
    ['another format', with_({ replay: 2 })],
    ['an empty name', with_({ name: '' })],
    ['an empty procedure', with_({ procedure: '' })],
    ['nobody', with_({ by: '' })],
    ['an empty file before', with_({ earlier: '' })],
    ['a head without a name', { replay: 1, procedure: 'p', by: 'AP', steps: [step] }],
    ['a name that there is not', with_({ zz: 1 })],
    ['another pace', with_({ pace: 'slow' })],
    ['invented in words', with_({ invented: 'yes' })],
    ['no steps', with_({ steps: [] })],
    ['steps that are no list', with_({ steps: step })],
    ['a step that is none', item({ at: 'a' })],
    ['two items in one', item({ step: 's', note: 'n' })],
    ['a number for a step', item({ step: 5 })],
    ['a time that is none', item({ step: 's', after: true })],
    ['no number', item({ step: 's', after: Number.NaN })],
    ['an answer that is nothing', item({ step: 's', answers: { a: null } })],
    ['a list in a list', item({ step: 's', answers: { a: [[1]] } })],
    ['answers in a list', item({ step: 's', answers: ['a'] })],
    ['a way that is a number', item({ step: 's', ways: { a: 1 } })],
    ['rows that are no blocks', item({ step: 's', rows: [5] })],
    ['a row after a block', item({ step: 's', rows: [{ after: {} }] })],
    ['an overrule without its reason', item({ step: 's', overrule: { gate: 'g', initials: 'MN' } })],
    ['an overrule with more', item({ step: 's', overrule: [{ ...overrule, zz: 1 }] })],
    ['a refusal without initials', item({ step: 's', refuse: { reason: 'r' } })],
    ['a report at no place', item({ raise: 'b' })],
    ['a correction without a value', item({ correct: { step: 's', key: 'k', reason: 'r' } })],
    ['a correction at a wrong level', item({ correct, at: 'a' })],
    ['a settling without its reason', item({ settle: { step: 's' } })],
    ['a note that is a number', item({ note: 5 })],
  ])('%s is left to the schema', (_, file) => {
    expect(agree(file)).toBe(false);
  });

  it('of a spoilt file both say the same', () => {
    let passed = 0;
    let refused = 0;
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 2 }), (changes) => {
        const file = structuredClone(good) as unknown as File;
        for (const c of structuredClone(changes)) apply(file, c);
        if (agree(file)) passed++;
        else refused++;
      }),
      { numRuns: size(200, 5_000) },
    );
    expect(passed).toBeGreaterThan(5);
    expect(refused).toBeGreaterThan(5);
  });
});
