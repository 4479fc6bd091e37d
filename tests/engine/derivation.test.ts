/** Where a figure comes from, on the invented pump: each line of the tree written out. */
import { describe, expect, it } from 'vitest';
import type { Calculator } from '../../src/calc/types.js';
import { predictionOptions } from '../../src/engine/actions/predictable.js';
import { type Derivation, derivation, derivationsFor } from '../../src/engine/state/derivation.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { modelOf } from '../../src/procedure/model.js';
import { Bench, calculators, finished, modelFrom, prepared, pump, pumpText, readyToFill, tables } from './pump.js';

const ready = readyToFill();
const plain = { value: undefined, plusMinus: undefined, worked: [], warnings: [], sources: [], inputs: [] };
/** With the keys of the inputs alone. */
const brief = (d: Derivation) => ({ ...d, inputs: d.inputs.map((i) => `${i.key}@${i.place}`) });
const of = (bench: Bench, key: string, place: string) => brief(derivation(bench.state, key, place));

describe('a figure comes from', () => {
  it('a rule with its numbers, its source, and the reading that makes it unsure', () => {
    // pi/4 x 40^2 x 50 mm3 = 62.83 mL, sure to hypot(2 x 0.1/40, 0.5/50) of it; half of that.
    expect(of(ready, 'oil_due', 'a')).toEqual({
      key: 'oil_due',
      place: 'a',
      label: 'Oil to pour',
      where: 'Left head',
      kind: 'rule',
      value: expect.closeTo(31.4159, 4),
      plusMinus: expect.closeTo(0.3512, 4),
      shown: '31.4 ± 0.4 mL',
      formula: 'swept * share / 100.0',
      worked: ['62.8 ± 0.7 mL × 50 % / 100 = 31.4 ± 0.4 mL'],
      warnings: [],
      sources: [{ tag: 'CP', says: 'common practice, no source' }],
      inputs: ['swept@a', 'share@job'],
      dominant: { key: 'swept', label: 'Swept volume', reading: 'Stroke' },
    });
  });

  it('a calculation with what it was given', () => {
    const swept = derivation(ready.state, 'swept', 'a');
    expect(brief(swept)).toEqual({
      key: 'swept',
      place: 'a',
      label: 'Swept volume',
      where: 'Left head',
      kind: 'calculation',
      value: expect.closeTo(62.8319, 4),
      plusMinus: expect.closeTo(0.7025, 4),
      shown: '62.8 ± 0.7 mL',
      formula: 'V = pi/4 b^2 s',
      worked: ['V = pi/4 x 40^2 x 50 = 62832 mm3'],
      warnings: [],
      sources: [{ tag: 'A', says: 'arithmetic: volume of a cylinder' }],
      inputs: ['bore@a', 'stroke@a'],
      dominant: { key: 'stroke', label: 'Stroke', reading: 'Stroke' },
      run: expect.objectContaining({ id: 'calc-0-a', title: 'Volume of a cylinder' }),
    });
    expect(swept.run?.given.map((g) => [g.label, g.shown, g.rule, g.inputs.map((i) => i.key), g.sources])).toEqual([
      ['Bore', '40 mm', 'bore', ['bore'], []],
      ['Stroke', '50 mm', 'stroke', ['stroke'], []],
    ]);
  });

  it('several readings, the widest first', () => {
    // 80 ± 1 by 60 ± 1 mm: 80 mm2 from the width, 60 from the length.
    expect(ready.state.values.contributions('lid_long * lid_wide', 'a')).toEqual([
      { name: 'lid_wide', half: expect.closeTo(80, 6) },
      { name: 'lid_long', half: expect.closeTo(60, 6) },
    ]);
    expect(ready.state.values.contributions('lid_long * 0.0 + gauge', 'a')).toEqual([]);
    expect(of(ready, 'lid_area', 'a').dominant).toEqual({
      key: 'lid_wide',
      label: 'Lid: lid_wide',
      reading: 'Lid: lid_wide',
    });
  });

  it('the places below, the widest of which dominates', () => {
    expect(of(ready, 'dues', 'job')).toEqual({
      ...plain,
      key: 'dues',
      place: 'job',
      label: 'Oil for each head',
      where: '',
      kind: 'rule',
      value: [expect.closeTo(31.4159, 4), expect.closeTo(17.6715, 4)],
      plusMinus: [expect.closeTo(0.3512, 4), expect.closeTo(0.2124, 4)],
      shown: '31.4 ± 0.4 mL, 17.7 ± 0.2 mL',
      inputs: ['oil_due@a', 'oil_due@b'],
      dominant: { key: 'oil_due', label: 'Oil to pour', reading: 'Stroke' },
    });
    expect(of(ready, 'shallow', 'a')).toEqual({
      ...plain,
      key: 'shallow',
      place: 'a',
      label: 'Seats shallow',
      where: 'Left head',
      kind: 'rule',
      value: true,
      shown: 'yes',
      inputs: ['wear@a.inlet'],
    });
  });

  it('places below of which several figures are read, the widest of which dominates wherever it stands', () => {
    // Bore ± 0.1 mm, lid ± 1 mm.
    const dominant = { key: 'lid_long', label: 'Lid: lid_long', reading: 'Lid: lid_long' };
    const fact = (key: string, all: string) =>
      `  - { key: ${key}, at: job, label: Narrow, over: head, all: "${all}" }\n`;
    const two = `facts:\n${fact('one', 'bore < lid_long')}${fact('other', 'lid_long > bore')}`;
    const bench = readyToFill(new Bench(modelFrom(pumpText.replace('facts:\n', two))));
    for (const key of ['one', 'other']) expect(of(bench, key, 'job'), key).toMatchObject({ shown: 'yes', dominant });
  });

  it('a row of a table', () => {
    const row = { tag: 'P', says: 'An oil table, 1999', row: 'oils: thin' };
    expect(of(ready, 'share', 'a')).toMatchObject({ place: 'job', where: '', worked: [], sources: [row] });
    expect(of(ready, 'oil', 'job')).toMatchObject({
      kind: 'reading',
      shown: 'thin  VG 10',
      sources: [row],
      inputs: [],
    });
    expect(of(ready, 'oil', 'job')).not.toHaveProperty('typed');
    expect(of(ready, 'gauge', 'job')).not.toHaveProperty('typed');
    expect(of(new Bench().answer('start', 'job', { name_a: 'Pump' }), 'name_a', 'job')).not.toHaveProperty('typed');
  });

  it('a reading as it was typed, and what it was corrected from', () => {
    expect(of(ready, 'bore', 'a.inlet')).toEqual({
      ...plain,
      key: 'bore',
      place: 'a',
      label: 'Bore',
      where: 'Left head',
      kind: 'reading',
      value: 40,
      plusMinus: 0.1,
      shown: '40.0 ± 0.1 mm',
      step: 'Measure the cylinder',
      at: '2026-03-02T08:00:08.000Z',
      by: 'AP',
      typed: '40',
    });
    expect(of(readyToFill().correct('bore', 'a', 'bore', '1 in'), 'bore', 'a')).toMatchObject({
      kind: 'corrected',
      shown: '25.4 ± 0.1 mm',
      typed: '1 in',
      before: '40 mm',
      reason: 'read wrongly',
      at: '2026-03-02T08:00:20.000Z',
      sources: [],
    });
  });

  it('what is assumed, a log, an event', () => {
    expect(of(ready, 'wear', 'a.inlet')).toEqual({
      ...plain,
      key: 'wear',
      place: 'a.inlet',
      label: 'Depth of wear',
      where: 'Left head, inlet valve',
      kind: 'assumed',
      value: 0,
      shown: '0 mm',
      step: 'Look at the valve',
    });
    const log = { kind: 'log', rows: 3, shown: '2 mL, 1 mL, 0.5 mL', step: 'Run and log' };
    expect(of(finished(), 'all_leak', 'job')).toMatchObject(log);
    const dropped = readyToFill().do({ do: 'raise', branch: 'ring-dropped', place: 'a' });
    const event = { kind: 'event', shown: 'yes', at: '2026-03-02T08:00:20.000Z', by: 'AP' };
    expect(of(dropped, 'event_ring_dropped', 'a')).toMatchObject(event);
    expect(of(ready, 'event_ring_dropped', 'a')).toEqual({
      ...plain,
      key: 'event_ring_dropped',
      place: 'a',
      label: 'A ring fell',
      where: 'Left head',
      kind: 'event',
      value: false,
      shown: 'no',
    });
  });

  it.each<[string, string, string, string, string[]]>([
    ['oil_due', 'a', 'Oil to pour', 'not known: needs Bore, Stroke, Oil', ['swept@a', 'share@job']],
    ['dues', 'job', 'Oil for each head', 'not known: needs Bore, Stroke, Oil', ['oil_due@a', 'oil_due@b']],
    ['bore', 'a', 'Bore', 'not known yet', []],
    ['nope', 'a', 'nope', 'there is no “nope” here', []],
    ['bore', 'job', 'Bore', 'there is no “bore” here', []],
  ])('nowhere yet: %s at %s', (key, place, label, shown, inputs) => {
    const where = place === 'a' ? 'Left head' : '';
    const step = shown === 'not known yet' ? { step: 'Measure the cylinder' } : {};
    expect(of(prepared(), key, place)).toEqual({
      ...plain,
      ...{ key, place, label, where, kind: 'unknown', shown, inputs },
      ...step,
    });
  });

  it('nowhere where a calculator refuses: it says why', () => {
    const bench = prepared().answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '160', stroke: '50', lid: '80x60' });
    const why = 'not known: The bore is larger than 150 mm; measure again.';
    expect(of(bench, 'swept', 'a')).toMatchObject({ kind: 'unknown', shown: why, inputs: ['bore@a', 'stroke@a'] });
  });

  it('rules in turn: what is shared is one object, a rule that hands on a value says nothing new', () => {
    const both = derivationsFor(ready.state);
    expect(both('oil_due', 'a').inputs[1]).toBe(both('oil_due', 'b').inputs[1]);
    const model = modelFrom(
      pumpText
        .replace('is: lid_long * lid_wide', 'is: lid_long')
        .replace(
          "is: \"number_in('oils', oil, 'share')\"",
          "is: \"number_in('oils', oil, 'share') + number_in('oils', oil, 'share') - 50.0\"",
        ),
    );
    const bench = readyToFill(new Bench(model));
    expect(of(bench, 'lid_area', 'a')).toMatchObject({ kind: 'rule', worked: ['80 ± 1 mm = 80 ± 1'] });
    expect(of(bench, 'share', 'job').sources).toHaveLength(1);
  });
});

it('a figure that hangs on itself is not known, and says so', () => {
  const fact = (key: string, is: string) => ({ key, at: 'job', label: key, type: 'double', is }) as const;
  const facts = [fact('one', 'two + 1.0'), fact('two', 'one + 1.0')];
  const model = modelOf({ ...pump.procedure, facts, calcs: [] }, 'hash', tables, calculators);
  const { state } = new Bench(model);
  expect(state.values.get('one', 'job')).toMatchObject({ known: false, missing: ['one'] });
  const one = derivation(state, 'one', 'job');
  expect(one).toMatchObject({ kind: 'unknown', shown: 'not known yet', inputs: [{ key: 'two' }] });
  expect(one.inputs[0]?.inputs).toMatchObject([{ key: 'one', place: 'job', shown: 'depends on itself', inputs: [] }]);
});

describe('the sources of a calculation', () => {
  /** Bore and share by a table row each; the calculator names the input that is asked for as the widest. */
  const made = (dominant: string | undefined, bore = 'bore'): Derivation => {
    const { cylinder } = calculators;
    const sourced: Calculator = {
      ...cylinder,
      run: (inputs, all) => {
        const { results, ...rest } = cylinder.run(inputs, all);
        const { dominant: _, ...swept } = results.swept!;
        const sources = [
          { tag: 'P', text: 'Book A' },
          { tag: 'P', text: 'Book B' },
          { tag: 'P', text: 'Book A' },
          { tag: 'M', text: 'one' },
          { tag: 'M', text: 'two' },
          { tag: 'A', text: 'Book A' },
          { tag: 'A', text: 'volume of a cylinder' },
          { tag: 'shop', text: 'our own' },
        ] as const;
        return { ...rest, sources, results: { ...results, swept: { ...swept, ...(dominant && { dominant }) } } };
      },
    };
    const own = { ...calculators, cylinder: sourced };
    const text = pumpText.replace('with: { bore: bore, stroke: stroke }', `with: { bore: "${bore}", stroke: stroke }`);
    const { procedure } = loadProcedure(text, 'pump.yaml', { tables, calculators: own });
    return derivation(readyToFill(new Bench(modelOf(procedure!, 'hash', tables, own))).state, 'swept', 'a');
  };
  const told = (d: Derivation) => d.sources.map((s) => [s.tag, s.says, ...(s.row ? [s.row] : [])].join(' '));
  const own = [
    'A arithmetic: volume of a cylinder',
    'P Book A',
    'P Book B',
    'M usual, verify',
    'A arithmetic: Book A',
    'shop the shop’s own figure: our own',
  ];
  it('stand once each, those of a row with the row', () => {
    expect(told(made('bore'))).toEqual(own);
    const thick = "number_in('oils', 'thick', 'share')";
    expect(told(made('bore', `bore * ${thick} / ${thick}`))).toEqual([...own, 'M usual, verify oils: thick']);
  });

  it('and what makes it unsure: the reading, or the widest of those in it, or nothing', () => {
    expect(made('bore').dominant).toEqual({ key: 'bore', label: 'Bore', reading: 'Bore' });
    expect(made('stroke').dominant?.key).toBe('stroke');
    expect(made('nope')).not.toHaveProperty('dominant');
    expect(made(undefined)).not.toHaveProperty('dominant');
    // 80 ± 1 mm is wider than 40 ± 0.1 mm; of what has no width the first stands for all.
    expect(made('bore', 'bore + lid_long - 80.0').dominant?.key).toBe('lid_long');
    expect(made('bore', 'gauge + 40.0').dominant?.key).toBe('gauge');
    expect(made('bore', '40.0')).not.toHaveProperty('dominant');
  });
});

describe('what may be expected of a figure that is a word', () => {
  const none = ['none given', 'No idea'];
  it.each<[string, string[][]]>([
    ['has_outlet', [['yes', 'Yes'], ['no', 'No'], none]],
    ['any_worn', [['yes', 'Yes'], ['no', 'No'], none]],
    ['keep', [['keep', 'Keep'], ['replace', 'Replace'], none]],
    ['oil', [['thin', 'thin  VG 10'], ['thick', 'thick  VG 100'], none]],
    ['which_valve', [['inlet', 'Inlet'], ['outlet', 'Outlet'], none]],
    // Numbers, free texts, lists, and what no rule limits.
    ['bore', []],
    ['name_a', []],
    ['letters', []],
    ['swept_advice', []],
    ['nope', []],
  ])('%s', (key, options) => {
    expect(predictionOptions(pump, key).map((o) => [o.value, o.label])).toEqual(options);
  });

  it('stands in words, once each', () => {
    const model = modelFrom(
      pumpText.replace(
        'label: Area of the lid, type: double, is: lid_long * lid_wide',
        "label: Shape, type: string, is: \"lid_long > 90.0 ? 'all-round_good' : lid_wide > 9.0 ? 'flat' : lid_wide > 8.0 ? '' : 'flat'\"",
      ),
    );
    expect(predictionOptions(model, 'lid_area').map((o) => o.label)).toEqual(['All round good', 'Flat', 'No idea']);
  });
});
