/** What is worked out once and kept: as long as what it was worked out from stays, and no longer. */
import { describe, expect, it } from 'vitest';
import { CalcRefusal, type InputSpec, type Inputs } from '../../src/calc/types.js';
import { State } from '../../src/engine/state/state.js';
import { addressesOf } from '../../src/engine/values/addresses.js';
import type { Value, ValueSource } from '../../src/engine/values/known.js';
import { type Kept, Memo, Reads, readsOf, slotNumbers } from '../../src/engine/values/reads.js';
import { runCalculator } from '../../src/engine/values/run-calculator.js';
import type { Model } from '../../src/procedure/model.js';
import type { CalcUse } from '../../src/procedure/schema.js';
import { type Bench, pump, readyToFill } from './pump.js';

const bits = (...set: number[]): Reads => {
  const reads = new Reads(100);
  for (const bit of set) reads.add(bit);
  return reads;
};

/** Whether what was worked out from `a` is gone once `b` was touched. */
const meets = (a: Reads, b: Reads): boolean => {
  const memo = new Memo<string>();
  memo.set(0, { value: 'x', reads: a });
  return new Memo(memo, { touched: b, spent: false }).get(0) === undefined;
};

describe('a set of slots', () => {
  // Thirty to a word.
  it.each<[number[], number[], boolean]>([
    [[], [], false],
    [[0], [0], true],
    [[0], [1], false],
    [[29], [29], true],
    [[29], [30], false],
    [[0], [30], false],
    [[30], [30], true],
    [[99], [99], true],
    [[3, 40, 99], [4, 41, 99], true],
    [[3, 40, 98], [4, 41, 99], false],
    [[3, 40], [40, 70], true],
  ])('%j meets %j: %s', (a, b, meet) => {
    expect([meets(bits(...a), bits(...b)), meets(bits(...b), bits(...a))]).toEqual([meet, meet]);
    const joined = bits();
    joined.join(bits(...a));
    joined.join(bits(...a));
    expect(meets(joined, bits(...b))).toBe(meet);
    expect(joined).toEqual(bits(...a));
  });

  it('of a procedure has a number for each step at each place, and one for the rows of each log', () => {
    const numbers = slotNumbers(pump);
    expect(slotNumbers(pump)).toBe(numbers);
    expect([...numbers.keys()].slice(0, 5)).toEqual([
      'start@job',
      'pressure@job',
      'outlet-there@a',
      'outlet-there@b',
      'bore@a',
    ]);
    expect([...numbers.values()]).toEqual([...numbers.keys()].map((_, i) => i));
    expect([...numbers.keys()].filter((k) => k.includes('run'))).toEqual(['run@job', 'run@job#rows']);
    // Six steps of the job with its log's rows, nine at two heads, two at four valves.
    expect(numbers.size).toBe(5 + 1 + 9 * 2 + 2 * 4);
    expect(readsOf(pump, ['pressure@job', 'nope@job'])).toEqual(readsOf(pump, ['pressure@job']));
    expect(meets(readsOf(pump, ['bore@a']), readsOf(pump, ['bore@b']))).toBe(false);
  });

  it('leaves what was worked out from nothing of it', () => {
    const kept = (...set: number[]): Kept<string> => ({ value: set.join(), reads: bits(...set) });
    const all = [kept(1), undefined, kept(40), kept(1, 40), kept()];
    const told = (memo: Memo<string>) => all.map((_, i) => memo.get(i)?.value);
    const made = (): Memo<string> => {
      const memo = new Memo<string>();
      // Numbers come in any order, and far apart.
      for (const [i, k] of [...all.entries()].reverse()) if (k) memo.set(i, k);
      memo.set(90, kept(99));
      return memo;
    };
    const left = (touched: Reads | undefined, spent: boolean) => {
      const before = made();
      const after = new Memo(before, { touched, spent });
      if (!spent) expect(told(before)).toEqual(told(made()));
      expect(after.get(90)?.value).toBe('99');
      return told(after);
    };
    for (const spent of [true, false]) {
      expect(left(undefined, spent)).toEqual(['1', undefined, '40', '1,40', '']);
      expect(left(bits(1), spent)).toEqual([undefined, undefined, '40', undefined, '']);
      expect(left(bits(41), spent)).toEqual(['1', undefined, '40', '1,40', '']);
      expect(left(bits(40, 70), spent)).toEqual(['1', undefined, undefined, undefined, '']);
      expect(left(bits(1, 40), spent)).toEqual([undefined, undefined, undefined, undefined, '']);
      // Worked out anew from something else, it goes with that and with that alone.
      const anew = made();
      anew.set(0, kept(70));
      expect(new Memo(anew, { touched: bits(1), spent: false }).get(0)?.value).toBe('70');
      expect(new Memo(anew, { touched: bits(70), spent }).get(0)).toBeUndefined();
      const copy = new Memo(made(), { touched: undefined, spent });
      copy.set(0, kept(50));
      copy.drop(2);
      expect(told(copy)).toEqual(['50', undefined, undefined, '1,40', '']);
    }
    // A copy that goes on leaves what it was made of as it was.
    const first = made();
    const second = new Memo(first, { touched: undefined, spent: false });
    second.set(0, kept(50));
    expect(new Memo(first, { touched: bits(1), spent: false }).get(0)).toBeUndefined();
    expect(new Memo(first, { touched: bits(50), spent: false }).get(0)?.value).toBe('1');
  });
});

describe('where a name lives', () => {
  const own: Model = { ...pump };
  const addresses = addressesOf(own);
  it('is found once', () => {
    expect(addressesOf(own)).toBe(addresses);
    expect(addressesOf({ ...pump })).not.toBe(addresses);
    const bore = addresses.of('bore', 'a');
    expect(bore).toMatchObject({ home: 'a', info: { key: 'bore' } });
    expect(addresses.of('bore', 'a')).toBe(bore);
    expect(addresses.of('bore', 'a.inlet')).toBe(bore);
    expect(addresses.of('bore', 'b')).toMatchObject({ home: 'b', number: bore!.number + 1 });
    expect([addresses.of('bore', 'job'), addresses.of('nope', 'a'), addresses.of('bore', 'c')]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
  it('so is what an expression reads at a place', () => {
    const rule = addresses.expression('bore * share', 'a');
    expect(addresses.expression('bore * share', 'a')).toBe(rule);
    expect(addresses.expression('bore * share', 'b')).not.toBe(rule);
    expect(rule.names.map((n) => [n.name, n.address?.home])).toEqual([
      ['bore', 'a'],
      ['share', 'job'],
    ]);
    expect(rule.last).toBeUndefined();
    expect(addresses.expression('[1.0].map(x, x + bore)', 'job').names).toEqual([{ name: 'bore', address: undefined }]);
  });
});

describe('a calculator', () => {
  const quantity = { label: 'One', type: 'quantity', kind: 'length', unit: 'mm' } as const;
  const known = (value: unknown, plusMinus?: unknown, asOf = 1): Value =>
    ({ known: true, value, plusMinus, origin: { from: 'otherwise' }, asOf }) as Value;
  const missing = (names: string[], refusal?: string): Value => ({ known: false, missing: names, refusal });
  /** A calculator with these inputs, which counts its runs and hands back what it got. */
  function made(inputs: Record<string, InputSpec>, run?: (given: Inputs) => never) {
    const got: Inputs[] = [];
    const calculator = {
      ...{ name: 'c', title: 'The sum', inputs, results: {}, formula: '', source: { tag: 'A', text: '' } },
      run: (given: Inputs) => {
        got.push(given);
        run?.(given);
        return { results: {}, warnings: [], worked: [] };
      },
    };
    const model = { calculators: { c: calculator }, tables: {} } as unknown as Model;
    const use: CalcUse = {
      ...{ calc: 'c', at: 'head', gives: {} },
      with: Object.fromEntries(Object.keys(inputs).map((k) => [k, k])),
    };
    const at = (values: Record<string, Value>, place = 'a', used: Partial<CalcUse> = {}, holds?: boolean) =>
      runCalculator(
        {
          model,
          evaluate: (t: string) => ({ ...values[t]!, names: [t, 'k'] }),
          holds: () => holds,
        } as unknown as ValueSource,
        Object.keys(used).length ? { ...use, ...used } : use,
        place,
      );
    return { at, got };
  }

  it.each<[string, InputSpec, unknown, unknown, unknown]>([
    ['a figure with its width', quantity, 4, 0.5, { value: 4, plusMinus: 0.5 }],
    ['a figure without', quantity, 4, undefined, { value: 4, plusMinus: undefined }],
    ['a figure of a list’s width', quantity, 4, [0.5], { value: 4, plusMinus: undefined }],
    [
      'figures with their widths',
      { ...quantity, type: 'quantities' },
      [4, 5],
      [0.5, 0.1],
      [
        { value: 4, plusMinus: 0.5 },
        { value: 5, plusMinus: 0.1 },
      ],
    ],
    ['figures without', { ...quantity, type: 'quantities' }, [4], undefined, [{ value: 4, plusMinus: undefined }]],
    ['figures of one width', { ...quantity, type: 'quantities' }, [4], 0.5, [{ value: 4, plusMinus: undefined }]],
    ['a word', { label: 'One', type: 'text' }, 'x', undefined, 'x'],
    ['words', { label: 'One', type: 'texts' }, ['x', 'y'], undefined, ['x', 'y']],
    ['a flag', { label: 'One', type: 'flag' }, false, undefined, false],
    ['a word where a figure was due', quantity, 'x', undefined, 'x'],
    ['a figure where several were due', { ...quantity, type: 'quantities' }, 4, 0.5, 4],
    ['a figure where a word was due', { label: 'One', type: 'text' }, 4, 0.5, 4],
  ])('gets %s', (_, spec, value, half, input) => {
    const { at, got } = made({ one: spec });
    expect(at({ one: known(value, half, 7) })).toEqual({
      ...{ outcome: { results: {}, warnings: [], worked: [] }, inputs: { one: ['one', 'k'] }, asOf: 7, missing: [] },
    });
    expect(got).toEqual([{ one: input }]);
  });

  const list = { ...quantity, type: 'quantities' } as const;
  const words = { label: 'One', type: 'texts' } as const;
  it.each<[string, InputSpec, Value, Value, number]>([
    ['the same figure', quantity, known(4, 0.5), known(4, 0.5), 1],
    ['another figure', quantity, known(4), known(5), 2],
    ['another width', quantity, known(4, 0.5), known(4, 0.6), 2],
    ['a width that is gone', quantity, known(4, 0.5), known(4), 2],
    ['nothing that can be reckoned, twice', quantity, known(Number.NaN), known(Number.NaN), 1],
    ['nought from below', quantity, known(0), known(-0), 2],
    ['the same list', list, known([4, 5], [1, 2]), known([4, 5], [1, 2]), 1],
    ['another at its end', list, known([4, 5]), known([4, 6]), 2],
    ['another at its beginning', list, known([4, 5]), known([3, 5]), 2],
    ['one more', list, known([4]), known([4, 5]), 2],
    ['one less', list, known([4, 5]), known([4]), 2],
    ['another width in it', list, known([4], [1]), known([4], [2]), 2],
    ['the same words', words, known(['x', 'y']), known(['x', 'y']), 1],
    ['other words', words, known(['x', 'y']), known(['x', 'z']), 2],
    ['a word for a list', words, known(['x']), known('x'), 2],
    ['a list for a word', words, known('x'), known(['x']), 2],
    ['a list of none for a record', words, known({} as never), known([]), 2],
    ['a newer answer of the same', quantity, known(4, 0.5, 1), known(4, 0.5, 9), 1],
  ])('given %s works %#', (_, spec, first, second, runs) => {
    const { at, got } = made({ one: spec });
    const before = at({ one: first });
    const after = at({ one: second });
    expect(got).toHaveLength(runs);
    expect(after.outcome === before.outcome).toBe(runs === 1);
    expect(after.asOf).toBe(second.known && second.asOf);
    // At another place it is another run, and the first is kept beside it.
    at({ one: second }, 'b');
    at({ one: second }, 'a');
    expect(got).toHaveLength(runs + 1);
  });

  it('works anew when an optional input comes or goes', () => {
    const { at, got } = made({ one: quantity, two: { ...quantity, optional: true } });
    const none = { one: known(4), two: missing(['two']) };
    const both = { one: known(4), two: known(5) };
    for (const values of [none, none, both, both, none]) at(values);
    expect(got).toEqual([
      { one: { value: 4, plusMinus: undefined } },
      { one: { value: 4, plusMinus: undefined }, two: { value: 5, plusMinus: undefined } },
      { one: { value: 4, plusMinus: undefined } },
    ]);
  });

  it('is not asked while an input is missing, and hands on the first refusal', () => {
    const { at, got } = made({ one: quantity, two: quantity, three: { ...quantity, optional: true } });
    const inputs = { one: ['one', 'k'], two: ['two', 'k'], three: ['three', 'k'] };
    const three = missing(['z'], 'optional');
    expect(at({ one: known(4, 1, 3), two: missing(['x', 'y', 'x']), three })).toEqual({
      ...{ inputs, asOf: 3, missing: ['x', 'y'], refusal: undefined },
    });
    expect(at({ one: missing(['x'], 'first'), two: missing(['y'], 'second'), three })).toEqual({
      ...{ inputs, asOf: 0, missing: ['x', 'y'], refusal: 'first' },
    });
    expect(at({ one: missing(['x']), two: missing([], 'second'), three: known(4, 1, 2) })).toEqual({
      ...{ inputs, asOf: 2, missing: ['x'], refusal: 'second' },
    });
    expect(got).toEqual([]);
    const half = at({ one: known(4) }, 'a', { with: { one: 'one' } });
    expect([half.outcome, half.missing]).toEqual([undefined, []]);
  });

  it('rests on the newest of its inputs', () => {
    const { at } = made({ one: quantity, two: quantity });
    expect(at({ one: known(4, 1, 9), two: known(4, 1, 2) }).asOf).toBe(9);
    expect(at({ one: known(4, 1, 2), two: known(4, 1, 9) }).asOf).toBe(9);
  });

  it('works only where its condition holds', () => {
    const { at, got } = made({ one: quantity });
    const one = { one: known(4) };
    for (const holds of [false, undefined])
      expect(at(one, 'a', { when: 'wet' }, holds)).toEqual({ inputs: {}, asOf: 0, missing: [] });
    expect(got).toEqual([]);
    expect(at(one, 'a', { when: 'wet' }, true).outcome).toBeDefined();
    expect(at(one, 'a', {}, false).outcome).toBeDefined();
    expect(at(one, 'a', { calc: 'nope' })).toEqual({
      ...{ inputs: {}, asOf: 0, missing: [], refusal: 'there is no calculator nope' },
    });
  });

  it.each<[string, () => never, string]>([
    [
      'a refusal',
      () => {
        throw new CalcRefusal('one', 'Measure again.');
      },
      'Measure again.',
    ],
    [
      'a fault',
      () => {
        throw new TypeError('no room');
      },
      'The sum can’t be worked out: no room',
    ],
    [
      'what is no fault',
      () => {
        throw 'nothing';
      },
      'The sum can’t be worked out: nothing',
    ],
  ])('that ends in %s has no outcome, and says why', (_, run, refusal) => {
    const { at, got } = made({ one: quantity }, run);
    for (let i = 0; i < 2; i++)
      expect(at({ one: known(4) })).toEqual({ missing: [], refusal, inputs: { one: ['one', 'k'] }, asOf: 1 });
    expect(got).toHaveLength(1);
  });
});

describe('from one state to the next', () => {
  const ready = readyToFill().done('fill', 'a').done('fill', 'b');
  for (const h of ['a', 'b']) ready.answer('screws', h, { screws: 4 });
  const { entries, now } = ready.done('glue', 'a');
  const looks = (state: State) => ({
    value: state.values.get('oil_due', 'a'),
    other: state.values.get('oil_due', 'b'),
    list: state.values.get('dues', 'job'),
    step: state.view('decide', 'a'),
    glue: state.board.own(pump.steps.get('glue')!, 'a'),
  });
  type Seen = ReturnType<typeof looks>;
  /** What is the very same after something more. */
  const same = (then: (b: Bench) => void, minutes = 0, spent?: true): (keyof Seen)[] => {
    const first = new State(pump, entries, now);
    const before = looks(first);
    const bench = readyToFill();
    bench.entries = entries;
    bench.now = now;
    then(bench);
    const after = new State(pump, bench.entries, bench.now + minutes * 60_000, {
      before: first,
      ...(spent && { spent }),
    });
    const seen = looks(after);
    expect(seen).toEqual(looks(new State(pump, after.entries, after.now)));
    return (Object.keys(seen) as (keyof Seen)[]).filter((k) => seen[k] === before[k]);
  };
  const nothing = (): void => undefined;

  const kept: (keyof Seen)[] = ['value', 'other', 'list', 'step'];
  it.each([undefined, true] as const)('what was not touched is the same, handed over %s', (spent) => {
    expect(same(nothing, 0, spent)).toEqual(kept);
    expect(same((b) => b.do({ do: 'note', place: 'a', text: 'x' }), 0, spent)).toEqual(kept);
    expect(same((b) => b.done('polish', 'a'), 0, spent)).toEqual(kept);
    expect(same((b) => b.correct('bore', 'b', 'bore', '31'), 0, spent)).toEqual(['value', 'step']);
    expect(same((b) => b.correct('bore', 'a', 'bore', '41'), 0, spent)).toEqual(['other']);
    // Nothing is kept of what was taken back, nor where something unforeseen opened steps again.
    expect(same((b) => b.do({ do: 'undo' }), 0, spent)).toEqual([]);
    expect(same((b) => b.do({ do: 'raise', branch: 'ring-dropped', place: 'b' }), 0, spent)).toEqual([]);
    // Another pace and another sitting may ask for other confirmations, but the figures stay.
    expect(same((b) => b.do({ do: 'pace', pace: 'brisk' }), 0, spent)).toEqual(['value', 'other', 'list']);
    expect(same(nothing, 61, spent)).toEqual(['value', 'other', 'list']);
  });

  it('a wait is looked at anew until it is over, and again where the clock went back', () => {
    const at = (minutes: number, before?: State) => new State(pump, entries, now + minutes * 60_000, { before });
    const own = (state: State) => looks(state).glue;
    const [early, over] = [at(29), at(31)];
    expect(own(early).status).toBe('waiting');
    expect(own(at(29, early))).not.toBe(own(early));
    expect(own(at(31, early)).status).toBe('done');
    expect(own(over).status).toBe('done');
    expect(own(at(31, over))).toBe(own(over));
    expect(own(at(32, over))).toBe(own(over));
    const back = own(at(30.5, over));
    expect([back === own(over), back.status]).toEqual([false, 'done']);
    expect(own(at(29, over)).status).toBe('waiting');
    // Set back since, and not for the first time: the wait counts anew.
    const note = (min: number, seq: number) =>
      ({
        kind: 'note',
        place: 'job',
        text: 'x',
        by: 'AP',
        seq,
        at: new Date(now + min * 60_000).toISOString(),
      }) as const;
    const later = [...entries, note(31, entries.length + 1)];
    const before = new State(pump, later, now + 31 * 60_000, { before: over });
    expect(own(before)).toBe(own(over));
    const set = [...later, note(-10, later.length + 1)];
    expect(own(new State(pump, set, now - 9 * 60_000, { before })).wait?.from).toBe(now - 10 * 60_000);
  });
});
