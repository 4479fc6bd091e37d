/** Places and what is recorded at, around and within them; what is gathered from several, and from the rows of a log. */
import { describe, expect, it } from 'vitest';
import type { Given, Ledger, Row } from '../../src/engine/journal/ledger-shape.js';
import { raisedAt, related } from '../../src/engine/journal/ledger-shape.js';
import type { Value, ValueSource } from '../../src/engine/values/known.js';
import { logValue } from '../../src/engine/values/log-value.js';
import { rollUp } from '../../src/engine/values/roll-up.js';
import { halfDifference, spreadOf } from '../../src/engine/values/spread.js';
import type { Model } from '../../src/procedure/model.js';
import type { Fact } from '../../src/procedure/schema.js';
import { Bench, measured, prepared, readyToFill } from './pump.js';

describe('places', () => {
  const { values } = readyToFill().state;
  const one = measured(prepared(new Bench(), 'one'), 'a').state.values;
  it.each<[string, string, string[], string[]]>([
    ['head', 'job', ['a', 'b'], ['a']],
    ['head', 'a', ['a'], ['a']],
    ['head', 'b', ['b'], []],
    ['head', 'a.inlet', [], []],
    ['valve', 'a', ['a.inlet'], ['a.inlet']],
    ['valve', 'a.inlet', ['a.inlet'], ['a.inlet']],
    ['valve', 'job', ['a.inlet', 'b.inlet'], ['a.inlet']],
    ['job', 'job', ['job'], ['job']],
    ['job', 'a', [], []],
    ['nope', 'job', [], []],
  ])('of kind %s at or below %s', (kind, place, two, single) => {
    expect([values.below(kind, place), one.below(kind, place)]).toEqual([two, single]);
  });

  it('that have a key', () => {
    expect(['bore', 'wear', 'gauge', 'nope'].map((key) => values.placesOf(key))).toEqual([
      ...[['a', 'b'], ['a.inlet', 'b.inlet'], ['job'], []],
    ]);
  });

  it('take part unless the procedure leaves them out', () => {
    const part = (v: typeof values) => ['job', 'a', 'b', 'a.outlet', 'b.inlet', 'nope'].map((p) => v.takesPart(p));
    expect(part(values)).toEqual([true, true, true, false, true, true]);
    expect(part(one)).toEqual([true, true, false, false, false, true]);
    expect(part(new Bench().state.values)).toEqual([true, true, true, true, true, true]);
  });

  it('have their names, within one another', () => {
    expect(['job', 'a', 'a.inlet', 'b.outlet', 'nope'].map((p) => values.placeLabel(p))).toEqual([
      ...['whole job', 'Left head', 'Left head, inlet valve', 'Right head, outlet valve', 'nope'],
    ]);
  });

  it('lie within those of another kind', () => {
    const within = (kind: string, place: string) => values.enclosing(kind, place);
    expect([within('head', 'a.inlet'), within('head', 'a'), within('job', 'a.inlet'), within('job', 'job')]).toEqual([
      ...['a', 'a', 'job', 'job'],
    ]);
    expect([within('valve', 'a'), within('head', 'job'), within('head', 'nope')]).toEqual([
      ...[undefined, undefined, undefined],
    ]);
  });

  it.each<[string, string, boolean]>([
    ['a', 'a', true],
    ['a', 'b', false],
    ['a', 'a.front', true],
    ['a.front', 'a', true],
    ['a.front', 'a.back', false],
    ['a', 'ab', false],
    ['ab', 'a', false],
    ['a', 'ab.front', false],
    ['job', 'a.front', true],
    ['a.front', 'job', true],
  ])('%s and %s are related: %s', (a, b, are) => {
    expect(related(a, b)).toBe(are);
  });
});

describe('an event counts', () => {
  const model = {
    procedure: {
      branches: [
        { id: 'fell', reopens: ['pick', 'bore'] },
        { id: 'again', reopens: ['bore', 'pick'] },
        { id: 'other', reopens: ['bore', 'wash'] },
        { id: 'plain' },
      ],
    },
    steps: new Map(Object.entries({ pick: { branch: 'fell' }, bore: {}, wash: { branch: 'plain' } })),
  } as unknown as Model;
  const at = (place: string, ...raised: [branch: string, place: string][]): number[] =>
    raisedAt(
      model,
      raised.map(([branch, where], i) => ({ branch, place: where, seq: i + 1 })) as unknown as Ledger['raised'],
      'fell',
      place,
    ).map((r) => r.seq);
  it('at its place, around and within it', () => {
    expect(['a', 'a.inlet', 'job', 'b'].map((p) => at(p, ['fell', 'a']))).toEqual([[1], [1], [1], []]);
    expect([at('a'), at('a', ['plain', 'a'])]).toEqual([[], []]);
    expect(at('job', ['fell', 'a'], ['fell', 'b'], ['fell', 'a'])).toEqual([1, 2, 3]);
  });
  it('until another one opens a step of its own again there', () => {
    expect(at('a', ['fell', 'a'], ['again', 'a'])).toEqual([]);
    expect(at('a', ['fell', 'a'], ['again', 'job'])).toEqual([]);
    expect(at('a', ['fell', 'a'], ['again', 'b'])).toEqual([1]);
    expect(at('a', ['again', 'a'], ['fell', 'a'])).toEqual([2]);
    expect(at('a', ['fell', 'a'], ['again', 'a'], ['fell', 'a'])).toEqual([3]);
    // One that opens other steps, none at all, or itself again takes nothing back.
    for (const branch of ['other', 'plain', 'nope']) expect(at('a', ['fell', 'a'], [branch, 'a']), branch).toEqual([1]);
    expect(at('a', ['fell', 'a'], ['fell', 'a'])).toEqual([1, 2]);
  });
});

const known = (value: unknown, asOf = 1, plusMinus?: unknown): Value =>
  ({ known: true, value, plusMinus, origin: { from: 'otherwise' }, asOf }) as Value;
const open = (...missing: string[]): Value => ({ known: false, missing });

describe('gathered from places', () => {
  const gather = (how: 'all' | 'any' | 'count' | 'list' | 'none', ...each: Value[]): Value =>
    rollUp(
      {
        below: () => each.map((_, i) => String(i)),
        evaluate: (_: string, place: string) => ({ ...each[Number(place)]!, names: ['k'] }),
      } as unknown as ValueSource,
      { key: 'f', at: 'job', label: 'F', over: 'head', ...(how === 'none' ? {} : { [how]: 'k' }) } as Extract<
        Fact,
        { over: string }
      >,
      'job',
    );
  const [yes, no] = [known(true, 3), known(false, 5)];
  it.each<[string, Value, unknown, number]>([
    ['all of none', gather('all'), true, 0],
    ['all', gather('all', yes, yes), true, 3],
    ['not all', gather('all', yes, no), false, 5],
    ['not all, whatever is open', gather('all', open('x'), no), false, 5],
    ['any of none', gather('any'), false, 0],
    ['any', gather('any', no, yes), true, 5],
    ['any, whatever is open', gather('any', open('x'), yes), true, 3],
    ['not any', gather('any', no, no), false, 5],
    ['how many of none', gather('count'), 0, 0],
    ['how many', gather('count', yes, no, yes), 2, 5],
    ['a list of none', gather('list'), [], 0],
    ['a list', gather('list', known(4, 2), known(5, 1)), [4, 5], 2],
  ])('%s', (_, value, is, asOf) => {
    const inputs = asOf === 0 ? [] : ['k'];
    expect(value).toEqual({ known: true, value: is, plusMinus: undefined, origin: { from: 'fact', inputs }, asOf });
  });
  it.each<[string, Value, string[]]>([
    ['all, while one is open', gather('all', yes, open('x', 'y'), open('y')), ['x', 'y']],
    ['any, while one is open', gather('any', no, open('x')), ['x']],
    ['how many', gather('count', yes, open('x')), ['x']],
    ['a list', gather('list', known(4), open('x')), ['x']],
    ['what lacks nothing that is asked', gather('list', known(4), open()), []],
    ['how many, where nothing is asked', gather('count', open()), []],
    ['all, where nothing is asked', gather('all', yes, open()), []],
    ['nothing', gather('none', yes), []],
  ])('%s is not known', (_, value, missing) => {
    expect(value).toEqual({ known: false, missing, refusal: undefined });
  });
  it('a list has the width of each item, where any has one', () => {
    const width = (...halves: unknown[]) => gather('list', ...halves.map((h) => known(4, 1, h)));
    expect(width(0.5, undefined, [0.1])).toMatchObject({ plusMinus: [0.5, 0, 0] });
    expect(width(undefined, 0)).toMatchObject({ plusMinus: undefined });
  });
});

describe('gathered from the rows of a log', () => {
  const given = (key: string, value: unknown, seq: number, second: number, more = {}): [string, Given] => {
    const entry = { key, seq, at: `2026-03-02T08:00:${String(second).padStart(2, '0')}Z` };
    return [key, { value, entry: { ...entry, seq: seq + 10 }, first: entry, ...more } as unknown as Given];
  };
  const of = (what: 'all' | 'count' | 'elapsed', rows: Row[], question: object = {}) =>
    logValue(
      {
        completeRows: (step: string, place: string) => (step === 'run' && place === 'a' ? rows : []),
      } as unknown as ValueSource,
      { by: 'rows', step: { id: 'run' }, what, question: { key: 'leak', ...question } } as unknown as Parameters<
        typeof logValue
      >[1],
      'a',
    );
  const rows = [
    new Map([given('leak', 2, 1, 0), given('noise', 'no', 2, 3)]),
    new Map([given('leak', 1, 4, 20), given('noise', 'no', 3, 30)]),
  ];
  it('how many there are, and the minutes from the first reading to the last of each', () => {
    const origin = { from: 'rows', count: 2 };
    expect(of('count', rows)).toEqual({ known: true, value: 2, plusMinus: undefined, origin, asOf: 14 });
    expect(of('elapsed', rows)).toMatchObject({ value: [0.05, 0.5], origin, asOf: 14 });
    expect(of('elapsed', [...rows].reverse())).toMatchObject({ value: [10 / 60, 0] });
    expect(of('count', [])).toMatchObject({ value: 0, asOf: 0 });
    expect(of('elapsed', [])).toMatchObject({ value: [], asOf: 0 });
  });
  it('the readings in their order, or none where a row lacks one', () => {
    expect(of('all', rows)).toMatchObject({ known: true, value: [2, 1], asOf: 14 });
    const without = [rows[0]!, new Map([given('noise', 'no', 5, 40)])];
    expect(of('all', without)).toEqual({ known: false, missing: ['leak'], refusal: undefined });
    expect(of('all', without, { otherwise: 7 })).toMatchObject({ value: [2, 7] });
    const empty = [rows[0]!, new Map([given('leak', '', 5, 40)])];
    expect(of('all', empty)).toMatchObject({ value: [2, ''] });
    expect(of('all', empty, { optional: true })).toMatchObject({ known: false });
    expect(of('all', empty, { optional: true, otherwise: 7 })).toMatchObject({ value: [2, 7] });
    expect(of('all', rows, { optional: true, otherwise: 7 })).toMatchObject({ value: [2, 1] });
    const unfit = [rows[0]!, new Map([given('leak', 9, 5, 40, { unfit: true })])];
    expect(of('all', unfit, { otherwise: 7 })).toMatchObject({ known: false, missing: ['leak'] });
  });
});

describe('the width of an expression', () => {
  const add = (v: Readonly<Record<string, unknown>>) => Number(v.a) + 2 * Number(v.b);
  const run = add as unknown as Parameters<typeof spreadOf>[0];
  const part = (value: unknown, half?: unknown) => known(value, 1, half) as Parameters<typeof halfDifference>[3];
  const of = (value: unknown, ...parts: [string, unknown, unknown][]) =>
    spreadOf(
      run,
      Object.fromEntries(parts.map(([name, v]) => [name, v])) as never,
      parts.map(([name, v, half]) => [name, part(v, half)] as const),
      value as never,
    );
  it('is the root of the squares of what each reading brings', () => {
    // 0.3 by a, 2 x 0.2 by b: hypot(0.3, 0.4) = 0.5.
    expect(of(9, ['a', 1, 0.3], ['b', 4, 0.2])).toBeCloseTo(0.5, 9);
    expect(of(9, ['a', 1, 0.3], ['b', 4, undefined])).toBeCloseTo(0.3, 9);
    expect(of(9, ['a', 1, undefined], ['b', 4, undefined])).toBeUndefined();
    expect(of('x', ['a', 1, 0.3])).toBeUndefined();
    expect(of(true, ['a', 1, 0.3])).toBeUndefined();
    expect(halfDifference(run, { a: 1, b: 4 }, 'b', part(4, 0.2))).toBeCloseTo(0.4, 9);
    for (const odd of [part('4', 0.2), part([4], 0.2), part(4, [0.2]), part(4)])
      expect(halfDifference(run, { a: 1, b: 4 }, 'b', odd)).toBe(0);
  });
  it('of a list is that of the only list in it, or the widest for each item', () => {
    expect(of([1, 2], ['a', [1, 2], [0.1, 0.2]])).toEqual([0.1, 0.2]);
    expect(of([1], ['a', [1, 2], [0.1, 0.2]])).toEqual([0.2]);
    expect(of([1, 2], ['a', [1, 2], [0.1, 0.2]], ['b', 3, 0.4])).toEqual([0.4, 0.4]);
    expect(of([1, 2], ['a', 1, 0.3])).toEqual([0.3, 0.3]);
    expect(of([1, 2], ['a', [1, 2], undefined], ['b', 3, undefined])).toBeUndefined();
    expect(of([1, 2])).toBeUndefined();
  });
});
