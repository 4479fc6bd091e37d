/** The journal folded: sittings, clocks that go back, branches that reopen, rows of a log, and what an entry touches. */
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { extend, fold } from '../../src/engine/journal/ledger.js';
import type { Model } from '../../src/procedure/model.js';

const steps = [
  { id: 'bore', at: 'head', ask: [{ key: 'bore', kind: 'text', label: 'Bore' }] },
  { id: 'decide', at: 'head', ask: [{ key: 'keep', kind: 'text', label: 'Keep' }] },
  { id: 'find', at: 'head', branch: 'dropped', ask: [{ key: 'found', kind: 'text', label: 'Found' }] },
  {
    id: 'tally',
    at: 'head',
    branch: 'dropped',
    repeat: { until: 'false' },
    ask: [{ key: 'part', kind: 'text', label: 'Part' }],
  },
  {
    id: 'recount',
    at: 'head',
    branch: 'dropped',
    repeat: { until: 'false' },
    ask: [{ key: 'count', kind: 'text', label: 'Count' }],
  },
  { id: 'counts', at: 'head', branch: 'plain', repeat: { until: 'false' }, ask: [] },
  {
    id: 'log',
    at: 'job',
    repeat: { until: 'false' },
    ask: [
      { key: 'heat', kind: 'text', label: 'Heat' },
      { key: 'sound', kind: 'text', label: 'Sound' },
      { key: 'remark', kind: 'text', label: 'Remark', optional: true },
      { key: 'twin', kind: 'text', label: 'Twin', when: 'two' },
    ],
  },
];
const model = {
  procedure: {
    steps,
    branches: [{ id: 'spilt', reopens: ['decide'] }, { id: 'dropped', reopens: ['bore', 'recount'] }, { id: 'plain' }],
  },
  steps: new Map(steps.map((s) => [s.id, s])),
  tables: {},
} as unknown as Model;

const start = Date.parse('2026-03-02T08:00:00Z');
interface Body {
  readonly min?: number;
  readonly [field: string]: unknown;
}
/** Entries at these minutes, or each a minute after the one before. */
function journal(...bodies: Body[]): Entry[] {
  let min = 0;
  return bodies.map((body, i) => {
    min = body.min ?? min + 1;
    const { min: _min, ...rest } = body;
    return { seq: i + 1, at: new Date(start + min * 60_000).toISOString(), by: 'AP', ...rest } as Entry;
  });
}
const job = { kind: 'job', name: 'J', procedure: 'p', version: '1', hash: 'h', min: 0 };
const note = (min?: number) => ({ kind: 'note', place: 'job', text: 'x', ...(min === undefined ? {} : { min }) });
const answer = (step: string, place: string, key: string, value: unknown = 'x') => ({
  kind: 'answer',
  step,
  place,
  key,
  value,
});
const of = (...bodies: Body[]) => fold(model, journal(...bodies));

describe('a sitting', () => {
  it('goes on for an hour without an entry, not a millisecond longer', () => {
    expect(of(job, note(60)).sitting).toBe(1);
    expect(of(job, note(60 + 1 / 60_000)).sitting).toBe(2);
    expect(of(job, note(50), note(100), note(150)).sitting).toBe(1);
  });
  it('begins anew where the clock ran back by more than two minutes: nobody knows how long the pause was', () => {
    expect(of(job, note(30), note(28)).sitting).toBe(1);
    expect(of(job, note(30), note(28 - 1 / 60_000)).sitting).toBe(3);
  });
  it('begins anew with another person and a handover, with nothing else', () => {
    expect(of(job, { kind: 'operator', initials: 'KR' }, note()).sitting).toBe(2);
    expect(of(job, note(), { kind: 'handover', text: 'x' }).sitting).toBe(3);
    expect(of(job, { kind: 'pace', pace: 'brisk' }, note()).sitting).toBe(1);
  });
  it('knows person, pace, notes and word for whoever comes next', () => {
    const ledger = of(
      job,
      note(),
      { kind: 'handover', text: 'y' },
      { kind: 'operator', initials: 'KR' },
      { kind: 'pace', pace: 'brisk' },
    );
    expect([ledger.operator, ledger.pace, ledger.notes.length, ledger.handover?.text]).toEqual(['KR', 'brisk', 2, 'y']);
    expect(of(job)).toMatchObject({ operator: 'AP', pace: 'learning', notes: [], handover: undefined });
  });
});

describe('a clock that was set back', () => {
  it('is told with both entries; the same instant is none, however it is written', () => {
    expect(of(job, note(10), note(9)).clockJumps).toMatchObject([{ before: { seq: 2 }, after: { seq: 3 } }]);
    expect(of(job, note(10), note(10), note(11)).clockJumps).toEqual([]);
    const [first, second] = journal(job, note(0)) as [Entry, Entry];
    expect(
      fold(model, [
        { ...first, at: '2026-03-02T08:00:00Z' },
        { ...second, at: '2026-03-02T08:00:00.000Z' },
      ]).clockJumps,
    ).toEqual([]);
    expect(of(job, note(-1)).clockJumps).toHaveLength(1);
  });
});

describe('an event', () => {
  const before = [
    job,
    answer('bore', 'a', 'bore'),
    answer('bore', 'b', 'bore'),
    answer('decide', 'a', 'keep'),
    answer('find', 'a', 'found'),
    answer('tally', 'a', 'part'),
    answer('recount', 'a', 'count'),
  ];
  const left = (branch: string, place: string): string[] =>
    [...of(...before, { kind: 'raise', branch, place }).steps.keys()].sort();
  it('takes back what it reopens and its own steps, at that place alone', () => {
    expect(left('dropped', 'a')).toEqual(['bore@b', 'decide@a', 'tally@a']);
    expect(left('dropped', 'b')).toEqual(['bore@a', 'decide@a', 'find@a', 'recount@a', 'tally@a']);
    expect(left('dropped', 'job')).toEqual(['decide@a', 'tally@a']);
    expect(left('spilt', 'a')).toEqual(['bore@a', 'bore@b', 'find@a', 'recount@a', 'tally@a']);
    expect(left('plain', 'a')).toHaveLength(6);
    expect(left('nobody', 'a')).toHaveLength(6);
  });
  it('keeps the rows of its own log, without the rest of that step, unless it reopens that too', () => {
    const { steps: now } = of(...before, { kind: 'raise', branch: 'dropped', place: 'a' });
    expect(now.get('tally@a')?.rows).toHaveLength(1);
    expect(now.get('tally@a')?.answers.size).toBe(0);
    expect(now.has('recount@a')).toBe(false);
    const spilt = of(job, answer('log', 'job', 'heat'), { kind: 'raise', branch: 'spilt', place: 'job' });
    expect(spilt.steps.get('log@job')?.answers.size).toBe(1);
  });
  it('keeps them too where it reopens nothing', () => {
    const { steps: now } = of(job, answer('counts', 'a', 'part'), { kind: 'raise', branch: 'plain', place: 'a' });
    expect(now.get('counts@a')).toMatchObject({
      rows: [new Map([['part', expect.anything()]])],
      last: undefined,
      seq: 0,
    });
  });
  it('is kept, and touches everything', () => {
    const entries = journal(...before, { kind: 'raise', branch: 'plain', place: 'a' });
    const was = fold(model, entries.slice(0, -1));
    const { ledger, touched } = extend(model, was, entries, entries.length - 1);
    expect(touched).toBeUndefined();
    expect(ledger.raised).toMatchObject([{ branch: 'plain' }]);
    expect(was.raised).toEqual([]);
  });
});

describe('what an entry touches', () => {
  /** After these entries, of one more. */
  const touch = (more: Body, ...bodies: Body[]): string[] | undefined => {
    const entries = journal(job, ...bodies, more);
    const was = fold(model, entries.slice(0, -1));
    const { ledger, touched } = extend(model, was, entries, entries.length - 1);
    expect(ledger).toEqual(fold(model, entries));
    return touched && [...touched].sort();
  };
  it('its own step, and nothing for what belongs to none', () => {
    expect(touch(answer('bore', 'a', 'bore'), answer('bore', 'b', 'bore'))).toEqual(['bore@a']);
    expect(touch(note())).toEqual([]);
    expect(touch({ kind: 'pace', pace: 'brisk' })).toEqual([]);
    expect(touch({ kind: 'name', of: 'AP', name: 'A. P.' })).toEqual([]);
    expect(touch({ kind: 'undo', of: 2 }, answer('bore', 'a', 'bore'))).toBeUndefined();
  });
  const row = (key: string) => answer('log', 'job', key);
  it('the whole rows of a log only where a row becomes whole, or the one before it never did', () => {
    expect(touch(row('heat'))).toEqual(['log@job']);
    expect(touch(row('sound'), row('heat'))).toEqual(['log@job', 'log@job#rows']);
    expect(touch(row('heat'), row('heat'), row('sound'), row('twin'))).toEqual(['log@job']);
    expect(touch(row('sound'), row('heat'), row('sound'), row('twin'), row('heat'))).toEqual([
      'log@job',
      'log@job#rows',
    ]);
    // The row before may still lack what may not apply: the next one settles it.
    expect(touch(row('heat'), row('heat'), row('sound'))).toEqual(['log@job', 'log@job#rows']);
    expect(touch(row('heat'), row('heat'), row('sound'), row('remark'))).toEqual(['log@job', 'log@job#rows']);
    expect(touch(row('heat'), row('heat'))).toEqual(['log@job', 'log@job#rows']);
    expect(touch(row('remark'), row('heat'), row('sound'))).toEqual(['log@job', 'log@job#rows']);
    expect(touch(row('twin'), row('heat'), row('sound'))).toEqual(['log@job', 'log@job#rows']);
  });
  it('rows: a key that is there already begins the next', () => {
    const { steps: now } = of(job, row('heat'), row('sound'), row('heat'), row('sound'), row('heat'));
    expect(now.get('log@job')?.rows.map((r) => [...r.keys()])).toEqual([
      ['heat', 'sound'],
      ['heat', 'sound'],
      ['heat'],
    ]);
  });
  it('leaves the ledger before as it was', () => {
    const entries = journal(job, row('heat'), row('sound'));
    const was = fold(model, entries.slice(0, 2));
    const copy = structuredClone([...(was.steps.get('log@job')?.rows[0]?.keys() ?? [])]);
    extend(model, was, entries, 2);
    expect([...(was.steps.get('log@job')?.rows[0]?.keys() ?? [])]).toEqual(copy);
    expect(was.steps.get('log@job')?.seq).toBe(2);
  });
});

it.each([
  ['who began practice late takes over nothing', { from: 'build' }, 'AP', 1],
  ['another takes over what was filled in', { from: 'build' }, 'BX', 4],
  ['whoever began in time takes over from the other', {}, 'AP', 4],
])('%s', (_, more, initials, since) => {
  const said = [
    { kind: 'job', by: 'AP', name: 'J', procedure: 'p', version: '1', hash: 'h', practice: 'x', ...more },
    { kind: 'operator', by: 'QQ', initials: 'QQ' },
    { kind: 'note', by: 'QQ', place: 'job', text: 'filled in' },
    { kind: 'operator', by: initials, initials },
  ].map((e, i) => ({ ...e, seq: i + 1, at: `2026-03-02T08:00:0${i}.000Z` }) as Entry);
  expect(fold(model, said).since).toBe(since);
});

it('the ledger of an empty journal is nobody else’s: it can be spent', () => {
  const entries = journal(job, answer('bore', 'a', 'bore'));
  expect(extend(model, fold(model, []), entries, 0, true).ledger.steps.size).toBe(1);
  expect(fold(model, []).steps.size).toBe(0);
  // One that grew by nothing is the same.
  const was = fold(model, entries);
  expect(extend(model, was, entries, 2)).toEqual({ ledger: was, touched: new Set() });
});
