/** Answers in a journal that their questions could not have had count as not given, and are told. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Answer, Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { unfitNow, unfitSentence } from '../../src/engine/state/unfit.js';
import { readAnswer, unfit } from '../../src/procedure/questions/index.js';
import type { Question } from '../../src/procedure/schema.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { Bench, modelFrom, tables } from './pump.js';

const options = [
  { value: 'x', label: 'X' },
  { value: 'y', label: 'Y' },
];
const base = { key: 'k', label: 'K' };
/** Of each kind of question one or more; the compiler asks for those of a new kind. */
const ofKind: { readonly [K in Question['kind']]: readonly Extract<Question, { kind: K }>[] } = {
  choice: [{ ...base, kind: 'choice', options }],
  'choice-from-table': [{ ...base, kind: 'choice-from-table', table: 'oils' }],
  'yes-no': [{ ...base, kind: 'yes-no' }],
  quantity: [
    { ...base, kind: 'quantity', quantity: 'temperature', unit: 'degC', limits: [20, 150] },
    { ...base, kind: 'quantity', quantity: 'length', unit: 'mm', limits: [0.1, 300] },
  ],
  dimensions: [{ ...base, kind: 'dimensions', parts: ['p', 'q'], unit: 'mm', limits: [1, 100] }],
  number: [
    { ...base, kind: 'number', limits: [0, 10] },
    { ...base, kind: 'number', whole: true, limits: [1, 20] },
  ],
  text: [
    { ...base, kind: 'text', longest: 5 },
    { ...base, kind: 'text', optional: true },
  ],
  series: [{ ...base, kind: 'series', options, least: 2, most: 3 }],
  counter: [{ ...base, kind: 'counter', to: '3.0', unit: 'turns' }],
};
const questions: readonly Question[] = Object.values(ofKind).flat();
const typed = [
  ...[
    'x',
    'y',
    'thin',
    'yes',
    'no',
    '70',
    '70 C',
    '158 F',
    '150',
    '20',
    '0.1',
    '300',
    '1/2 in',
    '10x20',
    '1 in x 5 mm',
  ],
  ...['0', '10', '2.5', '20', 'abcde', '', 'x,y', 'x x y', '3'],
];

describe('an answer', () => {
  it('that was read off by the guide always fits', () => {
    let taken = 0;
    for (const q of questions)
      for (const text of typed) {
        const read = readAnswer(q, text, tables);
        if (!read.ok) continue;
        taken += 1;
        expect(unfit(q, read.value, tables), `${q.kind} ${text}`).toBeUndefined();
      }
    expect(taken).toBeGreaterThan(40);
  });

  it('of any shape whatever is judged without failing, and a number beyond its limits never fits', () => {
    const value = fc.oneof(fc.boolean(), fc.double(), fc.string(), fc.array(fc.double()), fc.array(fc.string()));
    fc.assert(
      fc.property(fc.constantFrom(...questions), value, (q, v) => {
        const why = unfit(q, v as Answer, tables);
        if (
          typeof v === 'number' &&
          'limits' in q &&
          q.kind !== 'dimensions' &&
          !(v >= q.limits[0] && v <= q.limits[1])
        )
          expect(why).toBeDefined();
        if (why !== undefined) expect(why).toMatch(/^it is /);
      }),
    );
  });
});

const model = modelFrom(`
procedure: forged
version: 1.0.0
title: Forged
summary: Invented.
places: [ { id: side, name: Side, instances: [ { id: a, label: Left }, { id: b, label: Right } ] } ]
phases: [ { id: work, title: Work } ]
steps:
  - id: limits
    phase: work
    at: job
    title: Limits
    do: Set them.
    why: Heat kills.
    ask:
      - { key: stop_at, kind: quantity, quantity: temperature, unit: degC, label: Stop at, limits: [20, 150] }
      - { key: locked, kind: choice, label: Locked, options: [ { value: yes-out, label: "Out" }, { value: not-yet, label: Not yet } ] }
    gates: [ { id: locked, must: "locked != 'not-yet'", say: Lock it out., overrule: never } ]
  - id: watch
    phase: work
    at: job
    title: Watch
    do: Read off.
    why: Heat kills.
    repeat: { until: "rows_watch >= 3.0", most: 5 }
    ask:
      - { key: heat, kind: quantity, quantity: temperature, unit: degC, label: Heat, limits: [-50, 300] }
      - { key: sound, kind: yes-no, label: Sound }
    gates: [ { id: cool, at: leave, must: "!all_heat.exists(h, h > 70.0)", say: Too hot., overrule: never } ]
`);

/** The journal of a good job with values put in other's places. */
function forged(values: Readonly<Record<string, readonly (Answer | undefined)[]>>): State {
  const b = new Bench(model).answer('limits', 'job', { stop_at: '70', locked: 'yes-out' });
  for (const heat of ['30', '40', '50']) b.answer('watch', 'job', { heat, sound: 'yes' });
  expect(b.state.finished).toBe(true);
  const seen = new Map<string, number>();
  const entries = b.entries.map((e): Entry => {
    if (e.kind !== 'answer') return e;
    const n = seen.get(e.key) ?? 0;
    seen.set(e.key, n + 1);
    const value = values[e.key]?.[n];
    return value === undefined ? e : { ...e, value, typed: undefined };
  });
  return new State(model, entries, b.now);
}
const known = (state: State, key: string): Answer | undefined => {
  const v = state.values.get(key, 'job');
  return v.known ? v.value : undefined;
};

describe('a journal from elsewhere', () => {
  it('with values beyond limits and options: they are asked again, and nothing is taken for done', () => {
    const state = forged({ stop_at: [5000], locked: ['maybe'] });
    expect(known(state, 'stop_at')).toBeUndefined();
    expect(state.view('limits', 'job')).toMatchObject({ status: 'open', wants: 'question' });
    expect(state.finished).toBe(false);
    expect(unfitNow(state)).toHaveLength(2);
    expect(unfitSentence(state)).toBe(
      'A recorded answer does not fit its question and does not count: Stop at: 5000 °C (it is not from 20 °C to 150 °C); answer it again. And 1 more.',
    );
    const sheet = sheetOf(state);
    expect(sheet.setAside.map((s) => s.because)).toEqual([
      'does not fit its question: it is not from 20 °C to 150 °C',
      'does not fit its question: it is none of the choices',
    ]);
    for (const text of [toMarkdown(sheet), toHtml(sheet)])
      expect(text).toContain('A recorded answer does not fit its question and does not count');
  });

  it('is told no more once it was answered again', () => {
    const state = forged({ stop_at: [Number.NaN] });
    const b = new Bench(model);
    b.entries = state.entries;
    b.answer('limits', 'job', { stop_at: '80' });
    expect(known(b.state, 'stop_at')).toBe(80);
    expect(unfitNow(b.state)).toEqual([]);
    expect(b.state.finished).toBe(true);
    expect(sheetOf(b.state).setAside).toHaveLength(1);
  });

  it('with a bad row in a log keeps the rows apart; the list is not known until it is corrected', () => {
    const state = forged({ heat: [undefined, 'warm', undefined] });
    expect(known(state, 'rows_watch')).toBe(3);
    expect(known(state, 'all_heat')).toBeUndefined();
    expect(known(state, 'all_sound')).toEqual([true, true, true]);
    expect(state.finished).toBe(false);
    expect(unfitSentence(state)).toContain('Heat: warm (it is no number); correct that reading.');
    const b = new Bench(model);
    b.entries = state.entries;
    const of = unfitNow(state)[0]!.entry.seq;
    b.do({ do: 'correct', step: 'watch', place: 'job', key: 'heat', of, text: '41', reason: 'read off the paper' });
    expect(known(b.state, 'all_heat')).toEqual([30, 41, 50]);
    expect(unfitNow(b.state)).toEqual([]);
    expect(b.state.finished).toBe(true);
  });

  it('with a correction that does not fit: the reading that was called wrong does not come back', () => {
    const good = forged({});
    const first = good.entries.find((e) => e.kind === 'answer' && e.key === 'stop_at')!;
    const correct = {
      kind: 'correct',
      step: 'limits',
      place: 'job',
      key: 'stop_at',
      of: first.seq,
      value: 5000,
    } as const;
    const more = { ...correct, reason: 'x', by: 'AP', seq: good.entries.length + 1, at: good.entries.at(-1)!.at };
    const state = new State(model, [...good.entries, more], good.now);
    expect(known(state, 'stop_at')).toBeUndefined();
    expect(unfitNow(state)).toHaveLength(1);
  });
});
