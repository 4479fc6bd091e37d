/** Values: readings, otherwise, optional, parts, logs, roll-ups, calculators, trials, places left out. */
import { describe, expect, it } from 'vitest';
import type { CalcRefusal, Calculator, Measured } from '../../src/calc/types.js';
import type { Given } from '../../src/engine/journal/ledger-shape.js';
import { State } from '../../src/engine/state/state.js';
import { lastRead } from '../../src/engine/values/log-value.js';
import { fillIn, showKey } from '../../src/engine/values/texts.js';
import { modelOf } from '../../src/procedure/model.js';
import {
  Bench,
  built,
  calculators,
  finished,
  measured,
  modelFrom,
  prepared,
  pump,
  pumpText,
  readyToFill,
  tables,
} from './pump.js';

/** Volume of a cylinder in mL, by hand: pi/4 b^2 s with lengths in mm. */
const swept = (b: number, s: number): number => ((Math.PI / 4) * b * b * s) / 1000;

describe('values', () => {
  it('takes the otherwise value while a question does not apply, is open or is left empty', () => {
    const bench = prepared();
    expect(bench.value('name_a', 'job')).toBe('Left head');
    measured(bench, 'a');
    expect(bench.value('wear', 'a.inlet')).toBe(0);
  });

  it('takes it not while nobody can tell whether the question applies: nothing is shallow before it was looked at', () => {
    const bench = prepared();
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    expect(bench.value('wear', 'a.inlet')).toBeUndefined();
    expect(bench.value('shallow', 'a')).toBeUndefined();
    expect(bench.value('no_bad_seat', 'job')).toBeUndefined();
    bench.answer('valve-look', 'a.inlet', { seat: 'worn' });
    expect(bench.value('wear', 'a.inlet')).toBe(0);
    expect(bench.value('shallow', 'a')).toBe(true);
  });

  it('an answer that no longer applies does not count', () => {
    const bench = prepared();
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    bench.answer('valve-look', 'a.inlet', { seat: 'worn', wear: '2' });
    expect(bench.value('wear', 'a.inlet')).toBe(2);
    bench.correct('valve-look', 'a.inlet', 'seat', 'good');
    expect(bench.value('wear', 'a.inlet')).toBe(0);
    bench.correct('valve-look', 'a.inlet', 'seat', 'worn');
    expect(bench.value('wear', 'a.inlet')).toBe(2);
  });

  it('keeps what was typed beside the canonical value', () => {
    const bench = prepared();
    bench.answer('outlet-there', 'a', { has_outlet: 'no' }).answer('bore', 'a', { bore: '1 in' });
    const v = bench.state.values.get('bore', 'a');
    // 1 in = 25.4 mm exactly (international inch, 1959).
    expect(v).toMatchObject({ known: true, value: 25.4, origin: { from: 'answer', typed: '1 in' } });
  });

  it('a half width that was stated beats the usual one, and stays with a correction that states none', () => {
    const bench = prepared();
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '40 ± 0.5 mm', stroke: '50', lid: '80x60' });
    const width = () => {
      const v = bench.state.values.get('bore', 'a');
      return v.known && v.plusMinus;
    };
    expect(width()).toBe(0.5);
    expect(bench.correct('bore', 'a', 'bore', '41') && width()).toBe(0.5);
    expect(bench.correct('bore', 'a', 'bore', '41 ± 0.2 mm') && width()).toBe(0.2);
  });

  it('tells each place which one it is', () => {
    const bench = prepared();
    expect(bench.value('which_valve', 'a.inlet')).toBe('inlet');
    expect(bench.value('which_head', 'a.inlet')).toBe('a');
    expect(bench.value('which_head', 'b')).toBe('b');
    expect(bench.value('which_job', 'job')).toBe('Test');
    expect(new State(pump, [], 0).values.get('which_job', 'job')).toMatchObject({ known: true, value: '' });
  });

  it('reads parts of dimensions, each with its width', () => {
    const bench = measured(prepared(), 'a');
    expect(bench.value('lid', 'a')).toEqual([80, 60]);
    expect(bench.value('lid_long', 'a')).toBe(80);
    expect(bench.value('lid_area', 'a')).toBe(4800);
    // Two independent half widths of 1 mm: hypot(60 x 1, 80 x 1) = 100.
    const area = bench.state.values.get('lid_area', 'a');
    expect(area.known && area.plusMinus).toBeCloseTo(100, 6);
  });

  it('runs calculators with half widths, each place for itself', () => {
    const bench = readyToFill();
    expect(bench.value('swept', 'a')).toBeCloseTo(swept(40, 50), 9);
    expect(bench.value('swept', 'b')).toBeCloseTo(swept(30, 50), 9);
    // Half of it by the table row, P; relative half width of pi/4 b^2 s: hypot(2 x 0.1/40, 0.5/50).
    const due = bench.state.values.get('oil_due', 'a');
    expect(due.known && due.value).toBeCloseTo(swept(40, 50) / 2, 9);
    expect(due.known && due.plusMinus).toBeCloseTo((swept(40, 50) / 2) * Math.hypot(0.2 / 40, 0.01), 6);
  });

  it('gathers from the places below, with the width of each item', () => {
    const bench = readyToFill();
    const dues = bench.state.values.get('dues', 'job');
    expect(dues.known && dues.value).toEqual([
      expect.closeTo(swept(40, 50) / 2, 9),
      expect.closeTo(swept(30, 50) / 2, 9),
    ]);
    expect(dues.known && dues.plusMinus).toEqual([
      expect.closeTo((swept(40, 50) / 2) * Math.hypot(0.2 / 40, 0.01), 6),
      expect.closeTo((swept(30, 50) / 2) * Math.hypot(0.2 / 30, 0.01), 6),
    ]);
    const sum = bench.state.values.get('oil_total', 'job');
    expect(sum.known && sum.value).toBeCloseTo((swept(40, 50) + swept(30, 50)) / 2, 9);
    expect(sum.known && sum.plusMinus).toBeGreaterThan(0);
  });

  const facts = ['count', 'list'].map(
    (how) => `  - { key: ${how}ed, at: job, label: L, over: head, ${how}: "at([1.0, 2.0], stroke - 49.0) > 1.5"`,
  );
  const mop = `
  - id: mop
    phase: finish
    at: job
    branch: spilt
    title: Mop up
    do: Mop up the oil.
    why: It is slippery.
facts:
${facts[0]} }
${facts[1]}, type: list<bool> }`;
  /** With figures that not every head has, another question in a branch, and a branch beside the log. */
  const wider = modelFrom(
    pumpText
      .replace(
        '{ key: ring_found, kind: yes-no, label: Found }',
        `{ key: ring_found, kind: yes-no, label: Found }
      - { key: ring_wear, kind: number, label: Wear, limits: [0, 5], when: ring_found, otherwise: 0 }`,
      )
      .replace('\nfacts:', mop)
      .replace('branches:\n', 'branches:\n  - { id: spilt, at: job, title: Spilt, mark: Spilt }\n')
      .replace('rows_run >= 3.0', 'rows_run >= 3.0 + rows_run_at_spilt')
      .replace(
        '{ key: noise, kind: yes-no, label: Noise, when: "heads == \'two\'" }',
        `{ key: noise, kind: number, label: Noise, limits: [0, 9] }
      - { key: word, kind: text, label: Word, optional: true }`,
      ),
  );

  it('gathers nothing while one of the places has nothing to give, and tells what it would read', () => {
    const bench = measured(prepared(new Bench(wider)), 'a');
    const both = () => [bench.value('counted', 'job'), bench.value('listed', 'job')];
    expect(both()).toEqual([undefined, undefined]);
    // There is no eleventh of two numbers.
    measured(bench, 'b', { stroke: '60' });
    expect(both()).toEqual([undefined, undefined]);
    bench.correct('bore', 'b', 'stroke', '49');
    expect(both()).toEqual([1, [true, false]]);
    const reads = { origin: { from: 'fact', inputs: ['stroke'] } };
    expect(bench.state.values.get('counted', 'job')).toMatchObject(reads);
    const one = prepared(new Bench(), 'one').state.values.get('any_worn', 'b');
    expect(one).toMatchObject({ known: true, value: false, origin: { from: 'fact', inputs: [] } });
  });

  it('of a branch, what counts meanwhile stands until it is raised, and not while its condition is open', () => {
    const bench = prepared(new Bench(wider));
    expect(bench.value('ring_wear', 'a')).toBe(0);
    bench.do({ do: 'raise', branch: 'ring-dropped', place: 'a' });
    expect([bench.value('ring_wear', 'a'), bench.value('ring_wear', 'b')]).toEqual([undefined, 0]);
    expect(bench.answer('pick-up', 'a', { ring_found: 'no' }).value('ring_wear', 'a')).toBe(0);
  });

  it('rows of a log before an event are those whose last figure was read before it', () => {
    const ran = (before: Record<string, string>, after: Record<string, string>) => {
      const bench = built(new Bench(wider)).answer('witness', 'job', { looks: 'yes' });
      bench.do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
      bench.answer('run', 'job', { leak: '2', noise: '5', word: '' }).answer('run', 'job', before);
      const rows = () => [bench.value('rows_run', 'job'), bench.value('rows_run_at_spilt', 'job')];
      expect(rows()[1]).toBe(0);
      bench.do({ do: 'raise', branch: 'spilt', place: 'job' }).done('mop', 'job').answer('run', 'job', after);
      return rows();
    };
    expect(ran({ leak: '1' }, { noise: '4', word: 'hum' })).toEqual([2, 1]);
    expect(ran({ leak: '1', noise: '4' }, { word: 'hum' })).toEqual([2, 2]);
  });

  it.each<[Record<string, number>, number]>([
    [{ leak: 5, noise: 8, word: 9 }, 8],
    [{ noise: 5, word: 6, leak: 7 }, 7],
    [{ word: 9, noise: 5 }, 5],
    // Without a figure it was read by its last word.
    [{ word: 9 }, 9],
    [{ nope: 4, word: 3 }, 4],
  ])('a row %j was read by entry %s', (seqs, seq) => {
    const row = new Map(Object.entries(seqs).map(([key, n]) => [key, { first: { seq: n } } as Given]));
    expect(lastRead(row, wider.steps.get('run')!.ask!)).toBe(seq);
  });

  it('a calculator that takes less than a procedure gives it, as one kept with an older job, takes what it knows', () => {
    const { bore } = calculators.cylinder.inputs;
    const { results } = calculators.cylinder;
    const run = ({ bore: b }: Parameters<Calculator['run']>[0]) => ({
      ...{ results: { swept: { value: (b as Measured).value * 2 } }, warnings: [], worked: [] },
    });
    const less: Calculator = { ...calculators.cylinder, inputs: { bore: bore! }, results, run };
    const model = modelOf(pump.procedure, 'hash', tables, { ...calculators, cylinder: less });
    const bench = prepared(new Bench(model)).answer('outlet-there', 'a', { has_outlet: 'no' });
    expect(bench.answer('bore', 'a', { bore: '40' }).value('swept', 'a')).toBe(80);
    expect(bench.answer('bore', 'a', { stroke: '50' }).value('swept', 'a')).toBe(80);
  });

  it('counts, any and all leave out places that take no part', () => {
    const bench = prepared();
    bench.answer('outlet-there', 'a', { has_outlet: 'yes' });
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    expect(bench.value('worn_count', 'a')).toBeUndefined();
    bench.answer('valve-look', 'a.outlet', { seat: 'worn', wear: '2' });
    // One true settles `any`, one false settles `all`; a count needs every one.
    expect(bench.value('any_worn', 'a')).toBe(true);
    expect(bench.value('shallow', 'a')).toBe(false);
    expect(bench.value('worn_count', 'a')).toBeUndefined();
    bench.answer('valve-look', 'a.inlet', { seat: 'good' });
    expect(bench.value('worn_count', 'a')).toBe(1);
    bench.correct('outlet-there', 'a', 'has_outlet', 'no');
    expect(bench.value('worn_count', 'a')).toBe(0);
    expect(bench.value('shallow', 'a')).toBe(true);
  });

  it('whether any of them is so is not known while nothing settles it', () => {
    const bench = prepared().answer('outlet-there', 'a', { has_outlet: 'yes' });
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    bench.answer('valve-look', 'a.inlet', { seat: 'good' });
    expect(bench.value('any_worn', 'a')).toBeUndefined();
    bench.answer('valve-look', 'a.outlet', { seat: 'good' });
    expect([bench.value('any_worn', 'a'), bench.value('shallow', 'a')]).toEqual([false, true]);
  });

  it('a refusal is handed on to what another calculator makes of it', () => {
    const sums = '  - { calc: total, at: head, with: { parts: "[swept, oil_due]" }, gives: { sum: both } }\n';
    const bench = prepared(new Bench(modelFrom(pumpText.replace('calcs:\n', `calcs:\n${sums}`))));
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '160', stroke: '50', lid: '80x60' });
    expect(bench.state.values.get('both', 'a')).toMatchObject({
      known: false,
      refusal: 'The bore is larger than 150 mm; measure again.',
    });
  });

  it('a list that was cut keeps the widest of its widths: which item each belongs to is not known any more', () => {
    const cut = `  - { key: some_dues, at: job, label: Some, type: list<double>, quantity: volume, is: "dues.filter(d, d > 20.0)" }\n`;
    const model = modelFrom(
      pumpText.replace('facts:\n', `facts:\n${cut}`).replace('with: { parts: dues }', 'with: { parts: some_dues }'),
    );
    const bench = measured(measured(prepared(new Bench(model)), 'a', { bore: '30' }), 'b').answer('oil-kind', 'job', {
      oil: 'thin',
    });
    // Of 17.67 ± 0.21 and 31.42 ± 0.35 mL only the second is left.
    const some = bench.state.values.get('some_dues', 'job');
    expect(some.known && [some.value, some.plusMinus]).toEqual([
      [expect.closeTo(31.4159, 4)],
      [expect.closeTo(0.3512, 4)],
    ]);
    const sum = bench.state.values.get('oil_total', 'job');
    expect(sum.known && sum.plusMinus).toBeCloseTo(0.3512, 4);
  });

  it('each part of a dimension has the width, words have none', () => {
    const bench = built();
    const width = (key: string) => {
      const v = bench.state.values.get(key, 'a');
      return v.known && v.plusMinus;
    };
    expect([width('lid'), width('letters'), width('keep')]).toEqual([[1, 1], undefined, undefined]);
  });

  it('a list is unknown while one place of it is', () => {
    const bench = measured(prepared(), 'a').answer.bind(measured(prepared(), 'a'));
    const b = bench('outlet-there', 'b', { has_outlet: 'no' });
    const v = b.state.values.get('oil_total', 'job');
    expect(v.known).toBe(false);
    expect(!v.known && v.missing).toContain('bore');
    const one = measured(prepared(new Bench(), 'one'), 'a').answer('oil-kind', 'job', { oil: 'thick' });
    expect(one.value('oil_total', 'job')).toBeCloseTo(0.8 * swept(40, 50), 9);
  });

  it('a refusal of a calculator makes its results unknown and is told', () => {
    const bench = prepared();
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '160', stroke: '50', lid: '80x60' });
    const v = bench.state.values.get('oil_due', 'a');
    expect(v).toMatchObject({ known: false, refusal: 'The bore is larger than 150 mm; measure again.' } satisfies {
      known: false;
      refusal: CalcRefusal['message'];
    });
  });

  it('a fact is unknown while its own condition does not hold', () => {
    const model = modelFrom(pumpText.replace('label: Area of the lid,', 'label: Area of the lid, when: has_outlet,'));
    const bench = measured(prepared(new Bench(model), 'one'), 'a');
    expect(bench.value('lid_area', 'a')).toBeUndefined();
    bench.correct('outlet-there', 'a', 'has_outlet', 'yes');
    expect(bench.value('lid_area', 'a')).toBe(4800);
  });

  it('a value of a place below can’t be read from above', () => {
    expect(measured(prepared(), 'a').state.values.get('bore', 'job').known).toBe(false);
    expect(measured(prepared(), 'a').value('bore', 'a.inlet')).toBe(40);
  });

  it('names a place by the answer that renames it', () => {
    const bench = new Bench().answer('start', 'job', { heads: 'two', name_a: 'Pump side' });
    expect(bench.state.values.placeLabel('a')).toBe('Pump side');
    expect(bench.state.values.placeLabel('a.inlet')).toBe('Pump side, inlet valve');
    expect(bench.state.values.placeLabel('b')).toBe('Right head');
  });

  it('fills values into texts, with a word for what is not known', () => {
    const bench = prepared();
    expect(fillIn(bench.state.values, 'Seat of {bore}, {nothing}', 'a.inlet')).toBe('Seat of (bore), {nothing}');
    measured(bench, 'a');
    expect(fillIn(bench.state.values, 'Seat of {bore}.', 'a.inlet')).toBe('Seat of 40 mm.');
    expect(showKey(bench.state.values, 'keep', 'a')).toBe('Keep');
  });
});

describe('answers that are refused', () => {
  const bench = () => prepared().answer('outlet-there', 'a', { has_outlet: 'no' });
  const tries = (key: string, text: unknown) => bench().try({ do: 'answer', step: 'bore', place: 'a', key, text });
  it.each([
    ['bore', 'wide', /Bore/],
    ['bore', '', /nothing was typed/],
    ['bore', '-5', /outside what can be|negative/],
    ['bore', '40 kg', /kg/],
    ['bore', '4000', /from 5 mm to 200 mm/],
    ['lid', '80', /Lid/],
    ['bohre', '40', /did you mean “bore”/],
  ])('%s “%s” in one sentence', (key, text, sentence) => {
    expect(tries(key, text)).toMatch(sentence);
  });

  it('an unknown step or place', () => {
    expect(bench().try({ do: 'done', step: 'glu', place: 'a' })).toMatch(/no step “glu”.*“glue”/);
    expect(bench().try({ do: 'done', step: 'glue', place: 'c' })).toMatch(/done at a or b, not at “c”/);
  });

  it('an answer given already', () => {
    const b = measured(prepared(), 'a');
    expect(b.try({ do: 'answer', step: 'bore', place: 'a', key: 'bore', text: '41' })).toMatch(/done already; correct/);
  });

  it('a count that is not reached', () => {
    const b = readyToFill().done('fill', 'a');
    const screws = (text: unknown) => b.try({ do: 'answer', step: 'screws', place: 'a', key: 'screws', text });
    expect(screws('3')).toMatch(/4 screws are to be done/);
    expect(screws('4.5')).toMatch(/whole number/);
    expect(screws('4')).toBeUndefined();
  });

  it('a series too short', () => {
    const b = readyToFill();
    for (const h of ['a', 'b']) b.done('fill', h).answer('screws', h, { screws: 4 });
    for (const h of ['a', 'b']) b.done('glue', h).done('polish', h);
    b.wait(31);
    const letters = (text: unknown) => b.try({ do: 'answer', step: 'badge', place: 'a', key: 'letters', text });
    expect(letters('x')).toMatch(/2 to 3 are expected/);
    expect(letters('x,z')).toMatch(/none of the choices/);
    expect(letters(['y', 'x'])).toBeUndefined();
    expect(b.value('letters', 'a')).toEqual(['y', 'x']);
  });
});

describe('logs', () => {
  it('takes rows until the condition holds', () => {
    const bench = finished();
    expect(bench.value('rows_run', 'job')).toBe(3);
    expect(bench.value('all_leak', 'job')).toEqual([2, 1, 0.5]);
    expect(bench.value('leak', 'job')).toBe(0.5);
    expect(bench.value('elapsed_run', 'job')).toEqual([expect.any(Number), expect.any(Number), expect.any(Number)]);
  });

  const running = (heads = 'two') => {
    const bench = new Bench();
    if (heads === 'two') built(bench);
    else {
      measured(prepared(bench, 'one'), 'a').answer('oil-kind', 'job', { oil: 'thin' });
      bench.done('fill', 'a').answer('screws', 'a', { screws: 4 }).done('glue', 'a').done('polish', 'a').wait(31);
      bench.answer('badge', 'a', { letters: 'x,y' });
    }
    return bench
      .answer('witness', 'job', { looks: 'yes' })
      .do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
  };

  it('an unfinished row does not count', () => {
    const bench = running().answer('run', 'job', { leak: '2' });
    expect(bench.value('rows_run', 'job')).toBe(0);
    bench.answer('run', 'job', { noise: 'no', leak: '1' });
    expect(bench.value('rows_run', 'job')).toBe(1);
    expect(bench.value('all_leak', 'job')).toEqual([2]);
  });

  it('a question that does not apply is not missed in a row', () => {
    const bench = running('one');
    for (const leak of ['2', '1', '0.5']) bench.answer('run', 'job', { leak });
    expect(bench.value('rows_run', 'job')).toBe(3);
    expect(bench.status('run', 'job')).toBe('done');
    // Nobody was asked for noise: there is no list of it to work with.
    expect(bench.state.values.get('all_noise', 'job').known).toBe(false);
  });

  it('corrects one reading in an earlier row', () => {
    const bench = finished();
    const first = bench.entries.find((e) => e.kind === 'answer' && e.key === 'leak')?.seq;
    bench.do({ do: 'correct', step: 'run', place: 'job', key: 'leak', of: first, text: '3', reason: 'read wrongly' });
    expect(bench.value('all_leak', 'job')).toEqual([3, 1, 0.5]);
    expect(bench.value('leak', 'job')).toBe(0.5);
    expect(bench.status('run', 'job')).toBe('done');
  });

  it('opens again when a correction takes its end away', () => {
    const bench = finished().correct('run', 'job', 'leak', '5');
    expect(bench.value('all_leak', 'job')).toEqual([2, 1, 5]);
    expect(bench.status('run', 'job')).toBe('open');
    bench.answer('run', 'job', { leak: '0.2', noise: 'no' });
    expect(bench.status('run', 'job')).toBe('done');
  });

  it('stops asking at the most rows that the procedure allows', () => {
    const bench = running();
    for (let i = 0; i < 50; i++) bench.answer('run', 'job', { leak: '9', noise: 'no' });
    expect(bench.try({ do: 'answer', step: 'run', place: 'job', key: 'leak', text: '9' })).toMatch(/50 rows/);
  });
});

it('counts the whole rows of a log before an event', () => {
  const model = modelFrom(
    pumpText
      .replace('id: ring-dropped, at: head,', 'id: ring-dropped, at: job,')
      .replace('    at: head\n    branch: ring-dropped', '    at: job\n    branch: ring-dropped')
      .replace('over: head, any: event_ring_dropped', 'over: head, any: has_outlet'),
  );
  const bench = built(new Bench(model)).answer('witness', 'job', { looks: 'yes' });
  bench.do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
  const before = () => bench.value('rows_run_at_ring_dropped', 'job');
  expect(before()).toBe(0);
  for (const leak of ['3', '2']) bench.answer('run', 'job', { leak, noise: 'no' });
  expect(before()).toBe(0);
  bench.answer('run', 'job', { leak: '1' }).do({ do: 'raise', branch: 'ring-dropped', place: 'job' });
  expect(before()).toBe(2);
});

describe('what if', () => {
  it('tries a reading without touching the journal', () => {
    const bench = readyToFill();
    const trial = new Map([['bore@a', 20]]);
    const state = new State(bench.model, bench.entries, bench.now, { trial });
    const v = state.values.get('oil_due', 'a');
    expect(v.known && v.value).toBeCloseTo(swept(20, 50) / 2, 9);
    expect(bench.value('oil_due', 'a')).toBeCloseTo(swept(40, 50) / 2, 9);
    expect(state.entries).toBe(bench.entries);
  });

  it('tries all parts of a dimension at once', () => {
    const bench = readyToFill();
    const state = new State(bench.model, bench.entries, bench.now, { trial: new Map([['lid@a', [10, 20]]]) });
    const v = state.values.get('lid_area', 'a');
    expect(v.known && v.value).toBe(200);
  });

  it('tries a figure that is worked out', () => {
    const bench = readyToFill();
    const state = new State(bench.model, bench.entries, bench.now, { trial: new Map([['swept@a', 80]]) });
    expect(state.values.get('swept', 'a')).toMatchObject({ known: true, value: 80, plusMinus: undefined });
    expect(state.values.get('oil_due', 'a')).toMatchObject({ known: true, value: 40 });
  });

  it('a tried reading keeps the usual width of its kind', () => {
    const bench = readyToFill();
    const state = new State(bench.model, bench.entries, bench.now, { trial: new Map([['bore@a', 20]]) });
    const v = state.values.get('bore', 'a');
    expect(v.known && v.plusMinus).toBe(0.1);
  });
});

describe('taking over from a state before', () => {
  it('is not done from another journal, another trial or another earlier job', () => {
    const bench = readyToFill();
    const anew = new State(bench.model, bench.entries, bench.now);
    const due = (s: State): unknown => {
      const v = s.values.get('oil_due', 'a');
      return v.known && v.value;
    };
    const other = measured(prepared(new Bench(), 'one'), 'a', { bore: '20' }).answer('oil-kind', 'job', {
      oil: 'thin',
    });
    expect(due(other.state)).not.toBe(due(anew));
    const tried = new State(bench.model, bench.entries, bench.now, { trial: new Map([['bore@a', 20]]) });
    void [tried.views, due(tried)];
    for (const before of [other.state, tried])
      expect(due(new State(bench.model, bench.entries, bench.now, { before }))).toBe(due(anew));
    const trial = new Map([['bore@a', 20]]);
    const after = new State(bench.model, bench.entries, bench.now, { trial, before: anew });
    expect(due(after)).toBe(due(tried));
  });
});

describe('figures as words', () => {
  it('have what their uncertainty bears; a reading keeps what was read', () => {
    const bench = readyToFill();
    const { values } = bench.state;
    const due = values.get('oil_due', 'a');
    expect(due.known && due.plusMinus).toBeGreaterThan(0.1);
    // 31.4159 mL, sure to about a third of a millilitre.
    expect(showKey(values, 'oil_due', 'a')).toBe('31.4 mL');
    expect(fillIn(values, 'Fill {oil_due} into {bore}', 'a')).toBe('Fill 31.4 mL into 40 mm');
    expect(showKey(values, 'bore', 'a', true)).toBe('40.0 ± 0.1 mm');
  });
});
