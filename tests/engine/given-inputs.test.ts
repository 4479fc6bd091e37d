/** What a calculator and a drawing are given, input by input; on the invented pump. */
import { describe, expect, it } from 'vitest';
import type { InputSpec } from '../../src/calc/types.js';
import { drawnValues } from '../../src/engine/values/drawn.js';
import { type GivenInput, givenInputs } from '../../src/engine/values/given-inputs.js';
import type { Values } from '../../src/engine/values/values.js';
import type { Step } from '../../src/procedure/schema.js';
import { Bench, calculators, prepared, pump, readyToFill } from './pump.js';

const ready = readyToFill();
const length = { label: 'Length', type: 'quantity', kind: 'length', unit: 'mm' } as const;
const volumes = { label: 'Volumes', type: 'quantities', kind: 'volume', unit: 'mL' } as const;
const text = { label: 'Word', type: 'text' } as const;
const flag = { label: 'Flag', type: 'flag' } as const;

/** One input of a calculator that has it so, or not at all. */
function given(rule: string, spec: InputSpec | undefined, bench: Bench = ready, place = 'a'): GivenInput | undefined {
  const own = { ...calculators.cylinder, inputs: spec ? { one: spec } : {} };
  const values: Values = Object.create(bench.state.values, {
    model: { value: { ...pump, calculators: { ...calculators, own } } },
  });
  return givenInputs(values, { calc: 'own', at: 'head', with: { one: rule }, gives: {} }, place)[0];
}

describe('an input of a calculator', () => {
  it.each<[string, InputSpec | undefined, string]>([
    ['bore', length, '40 mm'],
    ['bore / 3.0', length, '13.33 mm'],
    ['bore / 3.0', undefined, '13.333'],
    ['bore / 3.0', text, '13.333'],
    ['keep', text, 'keep'],
    ['keep', undefined, 'keep'],
    ['has_outlet', flag, 'no'],
    ['!has_outlet', flag, 'yes'],
    // Half of 62.83 and of 35.34 mL.
    ['[oil_due, bore]', volumes, '31.42 mL, 40 mL'],
    ["['x', 'y']", text, 'x, y'],
    ['[has_outlet, true]', undefined, 'no, yes'],
  ])('%s for %j is shown as %s', (rule, spec, shown) => {
    expect(given(rule, spec)).toMatchObject({ shown, missing: [], refusal: undefined, rule });
    expect(given(rule, spec)?.label).toBe(spec?.label ?? 'one');
  });

  it.each<[string, string[], boolean]>([
    ['bore', ['bore'], true],
    [' bore ', ['bore'], true],
    ['bore * 2.0', ['bore'], false],
    ['bore + stroke', ['bore', 'stroke'], false],
    ['4.0', [], false],
  ])('“%s” reads %j; it is one value as it stands: %s', (rule, names, same) => {
    expect(given(rule, length)).toMatchObject({ names, same });
  });

  it('that nobody knows says what is missing, or is left out where it may be', () => {
    expect(given('bore + stroke', length, prepared())).toEqual({
      ...{ label: 'Length', shown: undefined, missing: ['bore', 'stroke'], refusal: undefined },
      ...{ names: ['bore', 'stroke'], same: false, rule: 'bore + stroke' },
    });
    expect(given('bore', { ...length, optional: true }, prepared())).toBeUndefined();
    expect(given('bore', { ...length, optional: true })?.shown).toBe('40 mm');
    expect(given('bore', undefined, prepared())?.missing).toEqual(['bore']);
  });

  it('that another calculator refuses says why', () => {
    const bench = prepared().answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '160', stroke: '50', lid: '80x60' });
    const refusal = 'The bore is larger than 150 mm; measure again.';
    expect(given('swept', volumes, bench)).toMatchObject({ shown: undefined, missing: ['swept'], refusal });
  });

  it('of a calculator that there is not has its own name', () => {
    const use = { calc: 'nope', at: 'head', with: { wide: 'bore' }, gives: {} };
    expect(givenInputs(ready.state.values, use, 'a')).toMatchObject([{ label: 'wide', shown: '40' }]);
  });
});

describe('a drawing is given', () => {
  const drawn = (bench: Bench, place: string, given?: Record<string, string>) =>
    drawnValues(bench.state.values, { draw: { picture: 'syringe', ...(given && { with: given }) } } as Step, place);
  it('what is known, under its own names', () => {
    expect(
      drawn(ready, 'a', {
        d: 'bore',
        half: 'bore / 2.0',
        leak: 'leak',
        who: 'which_head',
        all: '[1.0].map(x, x + bore)',
      }),
    ).toEqual({
      ...{ d: 40, half: 20, who: 'a', all: [41] },
    });
    expect(drawn(ready, 'a')).toEqual({});
    expect(drawnValues(ready.state.values, {} as Step, 'a')).toEqual({});
    expect(drawnValues(ready.state.values, undefined, 'a')).toEqual({});
  });

  it('not what counts until a question is answered, but what counts where it does not apply', () => {
    const wear = { deep: 'wear', twice: 'wear * 2.0' };
    const seat = (...answers: Record<string, string>[]): Bench => {
      const b = prepared().answer('outlet-there', 'a', { has_outlet: 'no' });
      b.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
      for (const a of answers) b.answer('valve-look', 'a.inlet', a);
      return b;
    };
    expect(drawn(seat(), 'a.inlet', wear)).toEqual({});
    expect(drawn(seat({ seat: 'good' }), 'a.inlet', wear)).toEqual({ deep: 0, twice: 0 });
    expect(drawn(seat({ seat: 'worn' }), 'a.inlet', wear)).toEqual({});
    expect(drawn(seat({ seat: 'worn' }, { wear: '2' }), 'a.inlet', wear)).toEqual({ deep: 2, twice: 4 });
    const named = (b: Bench) => drawn(b, 'job', { name: 'name_a' });
    expect(named(new Bench())).toEqual({});
    expect(named(new Bench().answer('start', 'job', { heads: 'one', name_a: 'Pump side' }))).toEqual({
      name: 'Pump side',
    });
  });
});
