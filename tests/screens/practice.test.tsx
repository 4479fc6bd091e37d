/** Practice: choosing how to measure, being shown what the invented rotor shows, and the debrief. */
import { afterEach, expect, test } from 'vitest';
import { judgeInWords } from '../../src/training/expected.js';
import { type Bench, onStep, openBench } from './bench.js';
import { asks, begun, bore, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

test('a way of measuring is chosen first, shown by its reading and kept with the answer', async () => {
  const model = pump([asks.quantity]);
  const practice = {
    ways: () => [
      { way: 'outside', label: 'Calliper, outside jaws' },
      { way: 'inside', label: 'Calliper, inside jaws' },
    ],
    shows: (_s: string, _p: string, _k: string, _r: number, _state: unknown, way: string | undefined) =>
      way === 'inside' ? '12.4 mm' : '13.9 mm',
  };
  const b = await onStep({
    model,
    entries: begun({ practice: 'x' }),
    app: {
      basisOf: () => ({ model, practice }),
      debrief: () => [
        { text: 'Traps', as: 'head' },
        { text: 'Caught: the outside jaws', as: 'good' },
        { text: 'Fell for: the gap', as: 'bad' },
        { text: 'It would have ended badly.', as: 'more' },
      ],
    },
  });
  open.push(b);
  await b.waitFor('Bore: how do you go about it?');
  expect(b.screen()).not.toContain('12.4');
  await b.press('2');
  await b.waitFor('The invented rotor shows 12.4 mm');
  await b.press('12.4', 'enter');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'answer', value: 12.4, way: 'inside' });
  await b.waitFor('This job is finished.');
  await b.press('1');
  await b.waitFor('Caught: the outside jaws');
  await b.waitFor('It would have ended badly.');
});

test('what is optional is left empty with Enter, whatever its kind', async () => {
  const b = await onStep({
    model: pump([
      step('extra', {
        ask: [
          { ...bore, optional: true },
          {
            key: 'shade',
            kind: 'choice',
            label: 'Shade',
            optional: true,
            options: [
              { value: 'a', label: 'A' },
              { value: 'b', label: 'B' },
            ],
          },
        ],
      }),
      asks.end,
    ]),
    entries: begun(),
  });
  open.push(b);
  await b.waitFor('May be left empty');
  await b.press('enter');
  await b.waitFor('Shade');
  await b.press('enter');
  await b.waitFor('Last word');
});

test('an expectation that can’t be read is asked again with its unit, its sisters stay hidden, the verdict stands first', async () => {
  const weigh = step('weigh', {
    show: ['twice', 'word'],
    rests_on: ['word'],
    predict: ['twice'],
    decision: true,
    ask: [{ key: 'fits', kind: 'yes-no', label: 'It fits' }],
  });
  const model = pump([asks.quantity, weigh, asks.end], {
    facts: [
      { key: 'twice', at: 'job', label: 'Twice the bore', quantity: 'length', is: '2.0 * bore' },
      { key: 'word', at: 'job', label: 'In a word', is: "twice > 20.0 ? 'wide' : 'narrow'" },
    ],
  });
  const b = await onStep({
    model,
    entries: begun({ apprentice: 'AP' }),
    app: { basisOf: () => ({ model, judge: judgeInWords }) },
  });
  open.push(b);
  await b.waitFor('Bore');
  await b.press('12 mm', 'enter');
  await b.waitFor('Twice the bore: what do you expect?');
  expect(b.screen()).toContain('In mm');
  await b.press('3 g', 'enter');
  await b.waitFor('type');
  expect(b.kept.entries.some((e) => e.kind === 'predict')).toBe(false);
  await b.press(...'\b\b\b\b\b'.split('').map(() => 'backspace'), '48 mm', 'enter');
  await b.waitFor('wrong');
  expect(b.screen()).toContain('factor of two');
});

test('quiet readings pass at one key until somebody has to look', async () => {
  const model = pump([asks.quantity, step('look', { ask: [{ ...bore, key: 'looked', label: 'Looked at' }] })]);
  const practice = {
    ways: () => [],
    shows: (_s: string, _p: string, key: string) => (key === 'looked' ? 'a dark line' : '12.4 mm'),
    quiet: (_s: string, _p: string, key: string) => (key === 'looked' ? undefined : '12.4 mm'),
  };
  const b = await onStep({ model, entries: begun({ practice: 'x' }), app: { basisOf: () => ({ model, practice }) } });
  open.push(b);
  await b.waitFor('take what the rotor shows');
  await b.press('=');
  await b.waitFor('One reading has passed.');
  await b.waitFor('a dark line');
  expect(b.screen()).not.toContain('take what the rotor shows');
  // Nor is it typed into a field that it can't fill.
  await b.press('=');
  await b.waitFor('This one is for you to look at');
  expect(b.screen()).not.toContain('> =');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'answer', value: 12.4 });
});

test('what is picked among others passes with nothing else, and what would stop or be warned of never', async () => {
  const gate = { id: 'small', must: 'hole < 20.0', say: 'Too large.', overrule: 'with-reason' };
  const hole = step('hole', { ask: [{ ...bore, key: 'hole', label: 'Hole' }], gates: [gate] });
  const model = pump([asks.quantity, hole, asks.choice, asks.yesNo]);
  const shown: Record<string, string> = { bore: '12.4 mm', hole: '30 mm', colour: 'red', leak: 'no' };
  const practice = {
    ways: () => [],
    shows: (_s: string, _p: string, key: string) => shown[key],
    quiet: (_s: string, _p: string, key: string) => shown[key],
  };
  const b = await onStep({ model, entries: begun({ practice: 'x' }), app: { basisOf: () => ({ model, practice }) } });
  open.push(b);
  await b.waitFor('take what the rotor shows');
  await b.press('=');
  await b.waitFor('One reading has passed.');
  await b.waitFor('Hole');
  await b.press('=');
  await b.waitFor('This one is for you to look at');
  expect(b.kept.entries.at(-1)).toMatchObject({ key: 'bore' });
  await b.press('12', 'enter');
  await b.waitFor('Colour');
  await b.press('=');
  await b.waitFor('It leaks');
  expect(b.kept.entries.at(-1)).toMatchObject({ key: 'colour', value: 'red' });
});

test('a lesson is told once, as soon as harm is done', async () => {
  const model = pump([asks.quantity, step('look', { ask: [{ ...bore, key: 'looked', label: 'Looked at' }] })]);
  const practice = { ways: () => [], shows: () => '12.4 mm' };
  const harms = (state: { readonly entries: readonly { readonly kind: string }[] }) =>
    state.entries.some((e) => e.kind === 'answer')
      ? [{ id: 't', lines: [{ text: 'It was: a worn jaw', as: 'more' as const }] }]
      : [];
  const b = await onStep({
    model,
    entries: begun({ practice: 'x', lessons: 'at-once' }),
    app: { basisOf: () => ({ model, practice, harms }) },
  });
  open.push(b);
  await b.press('12.4', 'enter');
  await b.waitFor('It was: a worn jaw');
  await b.press('enter');
  await b.waitFor('Looked at');
  await b.press('12.4', 'enter');
  await b.waitFor('This job is finished.');
});

test('what was set beforehand is not asked, and nobody is offered who practised last', async () => {
  const rotor = { id: 'x', title: 'A bench', procedure: 'pump', story: 'It ran hot.' };
  const model = pump([asks.quantity]);
  const at = async (given?: Record<string, string>) => {
    const start = { practice: 'x', ...(given ? { given } : {}) };
    const b = openBench({
      model,
      app: { practices: () => [rotor], initials: { get: () => 'ZZ', set: () => {} }, start },
    });
    await b.ready();
    open.push(b);
    return b;
  };
  const asked = await at();
  await asked.waitFor('Your initials');
  expect(asked.screen()).not.toContain('ZZ');
  const set = await at({ by: 'CA', mentor: 'MN', lessons: 'at-once', from: 'start' });
  await set.waitFor('It ran hot.');
  expect(set.screen()).toMatch(/CA.*MN.*As soon as harm is done/s);
  expect(set.screen()).not.toContain('Who signs at hold points');
  // Nor once a rotor is picked.
  const given = { by: 'CA', mentor: 'MN', lessons: 'at-once', from: 'start' };
  const practices = () => [rotor, { ...rotor, id: 'y', title: 'Another' }];
  const picked = openBench({ model, app: { practices, start: { practice: '', given } } });
  open.push(picked);
  await picked.ready();
  await picked.waitFor('Which invented rotor?');
  await picked.press('2');
  await picked.waitFor('It ran hot.');
  expect(picked.screen()).toMatch(/CA.*MN.*As soon as harm is done/s);
});

test('the class is told from the list of rotors, once somebody has practised', async () => {
  const model = pump([asks.quantity]);
  const rotors = ['x', 'y'].map((id) => ({ id, title: `Bench ${id}`, procedure: 'pump', story: '' }));
  const classTold = async () => [{ text: 'C4, Bench x: Bore; nothing typed for 12 min', as: 'bad' as const }];
  const at = async (first: Parameters<typeof begun>[0]) => {
    const b = openBench({ model, entries: begun(first), app: { practices: () => rotors, classTold } });
    await b.ready();
    open.push(b);
    await b.press('3');
    return b;
  };
  const real = await at({});
  await real.waitFor('Bench y');
  expect(real.screen()).not.toContain('The class');
  const b = await at({ practice: 'x' });
  await b.waitFor('The class (who is stuck, what all expected and misread)');
  await b.press('3');
  await b.waitFor('nothing typed for 12 min');
});

test('a job that was set up for somebody shows first what the procedure says openly, and takes the pace', async () => {
  const model = pump([asks.quantity]);
  const procedures = () => [
    { id: 'pump', title: 'Pump', version: 1, hash: model.hash, notice: 'Makers say otherwise.' },
  ];
  const start = { job: 'old' };
  const b = openBench({ model, entries: begun({ practice: 'x' }), app: { procedures: procedures as never, start } });
  await b.ready();
  open.push(b);
  await b.waitFor('Makers say otherwise.');
  // Nobody holds the job while that is read.
  expect(b.kept.closed).toBe(1);
  await b.press('b');
  await b.waitFor('Bore');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'pace', pace: 'brisk' });
});
