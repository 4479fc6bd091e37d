/** Steps that must be begun in time, what was said beside, waits after a clock set back, and figures in words. */
import { describe, expect, it } from 'vitest';
import type { Calculator } from '../../src/calc/types.js';
import { fillIn, namedItems, showKey, showValue, suggestionOf } from '../../src/engine/values/texts.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { modelOf } from '../../src/procedure/model.js';
import { Bench, calculators, measured, modelFrom, prepared, pumpText, readyToFill, tables } from './pump.js';

describe('a step that must be begun in time after another', () => {
  const within = (minutes: string) =>
    modelFrom(
      pumpText
        .replace(
          '    title: Measure the cylinder',
          `    fresh: { after: outlet-there, minutes: ${minutes}, say: "Too late after {has_outlet}." }\n    title: Measure the cylinder`,
        )
        .replace(
          'ask:\n      - key: heads',
          'ask:\n      - { key: cure, kind: number, label: Cure, limits: [0, 99], optional: true }\n      - key: heads',
        ),
    );
  const model = within('"10.0"');
  const looked = (m = model) => {
    const b = new Bench(m).answer('start', 'job', { cure: '', heads: 'one', name_a: '' });
    b.do({ do: 'caution', step: 'pressure', place: 'job' }).answer('pressure', 'job', { gauge: 0 });
    return b.done('pressure', 'job').answer('outlet-there', 'a', { has_outlet: 'no' });
  };
  const bore = (b: Bench) => b.state.view('bore', 'a')!;

  it('stops one minute too late, not at the last moment; whoever began goes on', () => {
    expect(bore(looked().wait(10)).status).toBe('open');
    const late = looked();
    expect(bore(late).status).toBe('open');
    late.now += 10 * 60_000 + 1;
    expect(bore(late)).toMatchObject({ status: 'stopped', wants: 'gate' });
    expect(bore(late).gates).toEqual([
      {
        gate: { id: 'fresh', at: 'enter', must: 'false', say: 'Too late after {has_outlet}.', overrule: 'with-reason' },
        missing: [],
        refusal: undefined,
      },
    ]);
    expect(late.try({ do: 'answer', step: 'bore', place: 'a', key: 'bore', text: '40' })).toBe('Too late after no.');
    const begun = looked().wait(9).answer('bore', 'a', { bore: '40' }).wait(60);
    expect(bore(begun)).toMatchObject({ status: 'open', question: { key: 'stroke' } });
  });

  it('counts as too late where the clock ran back since, whatever it shows now', () => {
    const back = 'The clock of this computer was set back since. Count it as too late. Too late after no.';
    const answer = { do: 'answer', step: 'bore', place: 'a', key: 'bore', text: '40' } as const;
    const open = looked();
    open.wait(-3);
    expect(open.try(answer)).toBe(back);
    const noted = looked().wait(5);
    noted.do({ do: 'note', place: 'job', text: 'x' }).wait(-4).do({ do: 'note', place: 'job', text: 'y' });
    expect(noted.try(answer)).toBe(back);
    expect(bore(looked().wait(-2)).status).toBe('open');
  });

  it('stops with the branch that its gate raises', () => {
    const raising = modelFrom(
      pumpText.replace(
        '    title: Measure the cylinder',
        '    fresh: { after: outlet-there, minutes: "10.0", say: Too late., raise: ring-dropped }\n    title: Measure the cylinder',
      ),
    );
    const late = prepared(new Bench(raising), 'one').answer('outlet-there', 'a', { has_outlet: 'no' }).wait(11);
    expect(bore(late).gates.map((g) => g.gate.raise)).toEqual(['ring-dropped']);
  });

  it('stops while the time is not known, and not before the other was done', () => {
    const open = looked(within('cure'));
    expect(bore(open).gates).toMatchObject([{ gate: { id: 'fresh' }, missing: ['cure'] }]);
    open.correct('start', 'job', 'cure', '5');
    expect(bore(open).status).toBe('open');
    const before = new Bench(model).wait(60).state;
    expect(before.board.own(model.steps.get('bore')!, 'a').status).toBe('open');
  });
});

describe('what was expected at one valve', () => {
  const model = modelFrom(
    pumpText
      .replace('    title: Lap the seat', '    predict: [swept, lid_area]\n    title: Lap the seat')
      .replace('    title: Tighten the lid', '    predict: [swept, lid_area]\n    title: Tighten the lid'),
  );
  const worn = (inlet: string, outlet: string) => {
    const b = prepared(new Bench(model, { apprentice: 'AP' }), 'one').answer('outlet-there', 'a', {
      has_outlet: 'yes',
    });
    b.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    b.answer('valve-look', 'a.inlet', { seat: 'worn', wear: inlet });
    return b.answer('valve-look', 'a.outlet', { seat: 'worn', wear: outlet });
  };
  const predict = { do: 'predict', step: 'lap', place: 'a.inlet', key: 'swept', text: '60 mL' } as const;
  const wants = (b: Bench) => b.state.view('lap', 'a.outlet')?.wants;

  it('stands for the valve beside it where all that was read before is the same', () => {
    expect(wants(worn('1', '1'))).toBe('predict');
    const area = { ...predict, key: 'lid_area', text: '4800' } as const;
    expect(wants(worn('1', '1').do(predict))).toBe('predict');
    expect(wants(worn('1', '1').do(predict).do(area))).toBe('confirm');
    expect(wants(worn('1', '2').do(predict).do(area))).toBe('predict');
  });

  it('does not stand for another head, nor for another figure', () => {
    const b = new Bench(model, { apprentice: 'AP' });
    readyToFill(b);
    for (const h of ['a', 'b']) {
      b.do({ do: 'predict', step: 'fill', place: h, key: 'oil_due', text: '30' }).done('fill', h);
    }
    const at = { do: 'predict', step: 'screws', place: 'a' } as const;
    const next = (place: string) => b.state.view('screws', place)?.wants;
    expect(next('a')).toBe('predict');
    b.do({ ...at, key: 'swept', text: '60' });
    expect(next('a')).toBe('predict');
    b.do({ ...at, key: 'lid_area', text: '4800' });
    expect([next('a'), next('b')]).toEqual(['question', 'predict']);
  });
});

describe('a wait after the clock was set back', () => {
  const glued = () => {
    const bench = readyToFill();
    for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
    return bench.done('glue', 'a').done('polish', 'a');
  };
  it('begins anew although work went on at the other head', () => {
    const bench = glued().wait(30).done('glue', 'b').done('polish', 'b');
    bench.now -= 24 * 3_600_000;
    expect(bench.state.view('glue', 'a')).toMatchObject({
      status: 'waiting',
      wait: { left: 30 * 60_000, clockBack: true },
    });
  });
});

describe('a wait begins', () => {
  /** The cylinder is measured, looked at by a second person, and rests for half an hour. */
  const resting = modelFrom(
    pumpText
      .replace(
        '    title: Measure the cylinder',
        `    wait: { minutes: "30.0", label: resting }
    hold: { say: Mentor looks, self_check: I looked twice. }
    gates: [ { id: narrow, must: bore < 50.0, say: Too wide., overrule: never } ]
    title: Measure the cylinder`,
      )
      .replace(
        '- { key: has_outlet, kind: yes-no, label: Has an outlet valve }',
        `- { key: has_outlet, kind: yes-no, label: Has an outlet valve }
      - { key: has_spring, kind: yes-no, label: With a spring, when: has_outlet }`,
      ),
  );
  const measuring = (bore: string) =>
    prepared(new Bench(resting), 'one')
      .answer('outlet-there', 'a', { has_outlet: 'no' })
      .answer('bore', 'a', { bore })
      .wait(10)
      .answer('bore', 'a', { stroke: '50', lid: '80x60' });
  const sign = { do: 'sign', step: 'bore', place: 'a', initials: 'ZZ' } as const;
  const rests = (b: Bench) => b.state.board.own(resting.steps.get('bore')!, 'a');

  it('with the newest answer, whichever question that was, and not with the signature', () => {
    const bench = measuring('40');
    const last = bench.now;
    bench.wait(5).do(sign);
    expect(rests(bench)).toMatchObject({ status: 'waiting', wait: { from: last, until: last + 30 * 60_000 } });
    const again = measuring('60').wait(5);
    expect(rests(again).status).toBe('stopped');
    again.answer('bore', 'a', { bore: '40' });
    const { now } = again;
    expect(rests(again.wait(5).do(sign)).wait?.from).toBe(now);
  });

  it('anew by a clock that was set back, although it was signed or earlier work was done again since', () => {
    const anew = { left: 30 * 60_000, clockBack: true };
    const signed = measuring('40').wait(31).do(sign);
    expect(rests(signed).status).toBe('done');
    signed.now -= 24 * 3_600_000;
    expect(rests(signed)).toMatchObject({ status: 'waiting', wait: anew });
    const earlier = measuring('40').do(sign).wait(31).correct('outlet-there', 'a', 'has_outlet', 'yes');
    earlier.answer('outlet-there', 'a', { has_spring: 'no' });
    earlier.now -= 24 * 3_600_000;
    expect(rests(earlier)).toMatchObject({ status: 'waiting', wait: anew });
  });

  it('anew with an answer that is asked for later, whatever was overruled before', () => {
    const model = modelFrom(
      pumpText.replace(
        '    title: Look at the valve',
        '    wait: { minutes: "30.0", label: drying }\n    title: Look at the valve',
      ),
    );
    const bench = prepared(new Bench(model), 'one').answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    bench.answer('valve-look', 'a.inlet', { seat: 'good' });
    const status = () => bench.status('valve-look', 'a.inlet');
    expect(status()).toBe('waiting');
    const overrule = { do: 'overrule', gate: 'wait', reason: 'dry already', initials: 'AP' } as const;
    bench.do({ ...overrule, step: 'valve-look', place: 'a.inlet' });
    expect(status()).toBe('done');
    bench.correct('valve-look', 'a.inlet', 'seat', 'worn').answer('valve-look', 'a.inlet', { wear: '0.5' });
    expect(status()).toBe('waiting');
  });

  it('and is not over because another stop of its step was overruled', () => {
    const gate = 'gates: [ { id: small, at: enter, must: lid_wide < 65.0, say: Too large., overrule: with-reason } ]';
    const bench = readyToFill(
      new Bench(modelFrom(pumpText.replace('    title: Glue the badge', `    ${gate}\n    title: Glue the badge`))),
    );
    for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
    bench.done('glue', 'a').correct('bore', 'a', 'lid', '80x70');
    expect(bench.status('glue', 'a')).toBe('stopped');
    bench.do({ do: 'overrule', step: 'glue', place: 'a', gate: 'small', reason: 'it fits', initials: 'AP' });
    expect(bench.status('glue', 'a')).toBe('waiting');
  });
});

describe('figures in words', () => {
  const ready = readyToFill();
  const { values } = ready.state;
  it.each<[string, unknown, number | readonly number[] | undefined, 'with-width' | 'as-read' | 'rounded', string]>([
    ['swept', 62.8319, 0.7, 'with-width', '62.8 ± 0.7 mL'],
    ['swept', 62.8319, 0.7, 'rounded', '62.8 mL'],
    ['swept', 62.8319, undefined, 'rounded', '62.8 mL'],
    ['dues', [31.4159, 17.6715], [0.35, 0.21], 'with-width', '31.4 ± 0.4 mL, 17.7 ± 0.2 mL'],
    ['dues', [31.4159, 17.6715], 0.35, 'rounded', '31.4 mL, 17.7 mL'],
    ['gauge', 1.23456789, undefined, 'with-width', '1.23457'],
    ['any_worn', true, undefined, 'with-width', 'yes'],
    ['any_worn', false, undefined, 'with-width', 'no'],
    ['keep', 'replace', undefined, 'with-width', 'Replace'],
    ['keep', 'burn', undefined, 'with-width', 'burn'],
    ['letters', ['x', 'y'], undefined, 'with-width', 'X, Y'],
    ['nothing', 'as it is', undefined, 'with-width', 'as it is'],
    ['nothing', 1.23456789, 0.1, 'with-width', '1.2 ± 0.1'],
  ])('%s %j', (key, value, half, how, text) => {
    expect(showValue(ready.model, key, value as never, half, how)).toBe(text);
  });

  it('of what is picked in a log have the words of its choices', () => {
    const options = 'options: [ { value: low, label: Low hum }, { value: high, label: High whine } ]';
    const text = pumpText.replace(
      'key: noise, kind: yes-no, label: Noise,',
      `key: noise, kind: choice, label: Noise, ${options},`,
    );
    const model = modelFrom(text);
    expect(showValue(model, 'noise', 'low')).toBe('Low hum');
    expect(showValue(model, 'all_noise', ['low', 'high', 'other'])).toBe('Low hum, High whine, other');
    expect([showValue(model, 'rows_run', 3), showValue(model, 'elapsed_run', [0, 10])]).toEqual(['3', '0 min, 10 min']);
  });

  it.each([
    ['Pour {oil_due}.', 'Pour 31.4 mL.'],
    [
      '{bore} {heads} {any_worn} {nothing} {Bore} {bore.old} {nothing.old}',
      '40 mm Two no {nothing} {Bore} not known {nothing.old}',
    ],
  ])('%s', (text, filled) => {
    expect(fillIn(values, text, 'a')).toBe(filled);
  });

  it('name what is not known, without what stands in braces in its label', () => {
    const model = modelFrom(
      pumpText
        .replace('label: Stroke', 'label: "Stroke of  {bore}  in VG oil"')
        .replace('label: Bore,', 'label: "{heads}",')
        .replace('label: Oil }', 'label: VG oil }'),
    );
    const b = prepared(new Bench(model));
    expect(fillIn(b.state.values, '{stroke}; {bore}; {oil}; {gauge}', 'a')).toBe(
      '(stroke of in VG oil); (bore); (VG oil); 0',
    );
  });

  it('say the currency in which an amount was given', () => {
    const model = modelFrom(
      pumpText.replace(
        'ask:\n      - key: heads',
        'ask:\n      - { key: price, kind: quantity, quantity: money, unit: "", label: Price, limits: [0, 1000] }\n      - key: heads',
      ),
    );
    const b = new Bench(model).answer('start', 'job', { price: '12.50 EUR' });
    expect(showKey(b.state.values, 'price', 'job')).toBe('12.50 EUR');
    expect(showKey(b.state.values, 'price', 'job', true)).toBe('12.50 EUR');
    expect(showKey(b.correct('start', 'job', 'price', '12.50').state.values, 'price', 'job')).toBe('12.50');
  });

  it('and no currency where a word that was picked has the letters of one', () => {
    // TOP stands for the money of Tonga (ISO 4217).
    const model = modelFrom(pumpText.replace('{ value: x, label: X }', '{ value: top, label: Top }'));
    const b = new Bench(model).add({
      ...{ kind: 'answer', step: 'badge', place: 'a', key: 'letters', by: 'AP' },
      ...{ value: ['top', 'y'], typed: 'top,y' },
    });
    expect(showKey(b.state.values, 'letters', 'a')).toBe('Top, Y');
  });

  /** Marks along a rule, each with its name. */
  const marks: Calculator = {
    name: 'marks',
    title: 'Marks',
    inputs: { bore: { label: 'Bore', type: 'quantity', kind: 'length', unit: 'mm' } },
    results: {
      at: { label: 'Marks', kind: 'length', unit: 'mm', list: true },
      vol: { label: 'Volumes', kind: 'volume', unit: 'mL', list: true },
    },
    formula: 'm',
    source: { tag: 'A', text: 'marks' },
    run: ({ bore }) => {
      const { value } = bore as { readonly value: number };
      return {
        results: {
          at: { value: [value / 3, value], plusMinus: value > 50 ? [0.3, 0.02] : undefined },
          vol: { value: [value / 3, value] },
        },
        warnings: [],
        worked: [],
      } as ReturnType<Calculator['run']>;
    },
  };
  it('of a list stand with the names of its items, as a hand sets them', () => {
    const some = { ...calculators, marks };
    const text = pumpText
      .replace(
        'calcs:\n',
        'calcs:\n  - { calc: marks, at: head, with: { bore: bore }, gives: { at: marks_at, vol: marks_vol }, names: { at: mark_names, vol: mark_names } }\n',
      )
      .replace(
        'facts:\n',
        "facts:\n  - { key: mark_names, at: head, label: Names, type: list<string>, is: \"heads == 'two' ? ['first', 'last'] : ['first']\" }\n",
      );
    const { procedure, problems } = loadProcedure(text, 'pump.yaml', { tables, calculators: some });
    expect(problems.filter((p) => p.line === undefined)).toEqual([]);
    const model = modelOf(procedure!, 'hash', tables, some);
    const at = (bore: string, heads = 'two') => measured(prepared(new Bench(model), heads), 'a', { bore }).state.values;
    // To a tenth of a millimetre where nothing is known of the width.
    expect(showKey(at('40'), 'marks_at', 'a')).toBe('first: 13.3 mm; last: 40.0 mm');
    expect(namedItems(at('40'), 'marks_at', 'a')).toEqual([
      { name: 'first', shown: '13.3 mm' },
      { name: 'last', shown: '40.0 mm' },
    ]);
    expect(namedItems(at('60'), 'marks_at', 'a', true)?.map((i) => i.shown)).toEqual([
      '20.0 ± 0.3 mm',
      '60.00 ± 0.02 mm',
    ]);
    // Only what is read off a rule is rounded to its marks.
    expect(showKey(at('40'), 'marks_vol', 'a')).toBe('first: 13.33 mL; last: 40 mL');
    expect(namedItems(at('40', 'one'), 'marks_at', 'a'), 'one name for two items').toBeUndefined();
    expect(namedItems(at('40'), 'bore', 'a')).toBeUndefined();
    expect(namedItems(prepared(new Bench(model)).state.values, 'marks_at', 'a')).toBeUndefined();
  });

  it('are suggested as they would be typed', () => {
    const question = { key: 'k', label: 'K', kind: 'quantity', quantity: 'length', unit: 'mm' } as const;
    const suggested = (suggest: string, more: object = question) =>
      suggestionOf(values, { ...more, suggest } as Parameters<typeof suggestionOf>[1], 'a');
    expect(suggested('bore / 3.0')).toBe('13.3333 mm');
    expect(suggested('bore * 1.0', { key: 'k', label: 'K', kind: 'number' })).toBe('40');
    expect([suggested('has_outlet'), suggested('!has_outlet')]).toEqual(['no', 'yes']);
    expect([suggested('keep'), suggested("''"), suggested('dues'), suggested('leak')]).toEqual([
      'keep',
      undefined,
      undefined,
      undefined,
    ]);
    expect(suggestionOf(values, { ...question, limits: [0, 1] }, 'a')).toBeUndefined();
  });
});

it('a row of a log without an optional reading has the value for it, or there is no list', () => {
  const logged = (more: string, ...said: string[]) => {
    const model = modelFrom(
      pumpText.replace(
        '      - { key: noise, kind: yes-no, label: Noise, when: "heads == \'two\'" }',
        `      - { key: noise, kind: text, label: Noise, optional: true${more} }`,
      ),
    );
    const b = upToTheLog(new Bench(model));
    for (const noise of said) b.answer('run', 'job', { leak: '2', noise });
    return b.value('all_noise', 'job');
  };
  expect(logged(', otherwise: none', 'hum', '', 'whine')).toEqual(['hum', 'none', 'whine']);
  expect(logged('', 'hum', 'whine')).toEqual(['hum', 'whine']);
  expect(logged('', 'hum', '')).toBeUndefined();
});

/** Up to the log. */
function upToTheLog(bench: Bench): Bench {
  readyToFill(bench);
  for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
  for (const h of ['a', 'b']) bench.done('glue', h).done('polish', h);
  bench.wait(31);
  for (const h of ['a', 'b']) bench.answer('badge', h, { letters: 'x,y' });
  bench.answer('witness', 'job', { looks: 'yes' });
  return bench.do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
}
