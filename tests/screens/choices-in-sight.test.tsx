/** In a small window what can be picked is in sight, what a stop names first; who waits still reads what kills. */
import { afterEach, expect, test } from 'vitest';
import type { Model } from '../../src/procedure/model.js';
import type { Branch } from '../../src/procedure/schema.js';
import { fitParts } from '../../src/screens/look/fit.js';
import { eventPage, raisePage } from '../../src/screens/pages/event.js';
import { type Bench, openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

async function bench(model: Model, rest: readonly Record<string, unknown>[], rows = 20): Promise<Bench> {
  const b = openBench({ model, entries: begun({}, rest), cols: 60, rows });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('go on');
  await b.press('enter');
  return b;
}
const flat = (b: Bench): string => b.screen().replace(/\s+/g, ' ');
const answer = (of: string, key: string, value: unknown, place = 'job') => ({
  kind: 'answer',
  step: of,
  place,
  key,
  value,
});
const number = (key: string, label: string) => ({ key, kind: 'number', label, limits: [0, 100] });
const deadly = 'DANGER: The pump is on and kills: keep your hands away.';

const ways = {
  key: 'way',
  kind: 'choice',
  label: 'It can be driven',
  options: ['Quickly', 'Slowly', 'Now and then', 'By hand only'].map((label, i) => ({
    value: `v${i}`,
    label,
    note: 'as it is done in most shops that have such a pump',
  })),
};

test('figures give way to the choices of the question', async () => {
  const speeds = Array.from({ length: 9 }, (_, i) => `figure_${i}`);
  const model = pump(
    [
      step('base', { ask: [number('base', 'Base')] }),
      step('drive', { hazard: true, caution: [deadly], show: speeds, ask: [ways] }),
      asks.end,
    ],
    {
      facts: speeds.map((key, i) => ({ key, at: 'job', label: `Speed number ${i}`, type: 'double', is: 'base * 2.0' })),
    },
  );
  const b = await bench(model, [answer('base', 'base', 4), { kind: 'caution', step: 'drive', place: 'job' }]);
  for (const { label } of ways.options) expect(flat(b)).toContain(label);
  expect(flat(b)).toContain(deadly);
  expect(flat(b)).not.toContain('more below');
  expect(flat(b)).toContain('more than fits here');
});

const branches = [
  { id: 'spill', at: 'job', title: 'Spill', mark: 'Spill', first: 'Shut the tap first, write afterwards.' },
  { id: 'leak', at: 'valve', title: 'Leak', mark: 'Leak' },
];

test('a stop shows first the answer that it asks for, then each report that it names', async () => {
  const model = pump(
    [
      step('dry', {
        hazard: true,
        caution: [`${deadly} Stand aside.`],
        show: ['dryness'],
        ask: ['Rated voltage of the whole pump as it stands on its plate', 'Winding to earth', 'Warmth'].map((l, i) =>
          number(`n${i}`, l),
        ),
        gates: [
          {
            id: 'dry',
            must: 'dryness > 50.0',
            say: 'It is wet. Dry it as its maker says, wait until it is dry, and answer again. Or report a spill or a leak.',
            raise: ['spill', 'leak'],
            correct: ['n1'],
            overrule: 'with-reason',
          },
        ],
      }),
      asks.end,
    ],
    { branches, facts: [{ key: 'dryness', at: 'job', label: 'Dryness', type: 'double', is: 'n1 - n0 + n2' }] },
  );
  const rest = [0, 1, 2].map((i) => answer('dry', `n${i}`, 10));
  const b = await bench(model, [{ kind: 'caution', step: 'dry', place: 'job' }, ...rest]);
  const listed = [...flat(b).matchAll(/ (\d) +(Answer again: \w+|Report “\w+” \([\w ]+\))/g)].map((m) => m[2]);
  expect(listed[0]).toBe('Answer again: Winding');
  b.stdout.rows = 40;
  b.stack.changed();
  await b.press('down');
  b.stdout.rows = 20;
  await b.press('1');
  // The danger stands whole at the second test, without what the first came to.
  expect(flat(b)).toContain(`${deadly} Stand aside.`);
  expect(flat(b)).not.toContain('Dryness');
  b.stdout.rows = 40;
  await b.press('esc');
  const all = [...flat(b).matchAll(/Report “\w+” \([\w ]+\)/g)].map((m) => m[0]);
  expect(all).toEqual(['Report “Spill” (Whole job)', 'Report “Leak” (Upper valve)', 'Report “Leak” (Lower valve)']);
});

/** What can be picked, in its order. */
const listed = (b: Bench): string[] =>
  [...b.screen().matchAll(/ \d {2}(.*)/g)].map((m) => (m[1] ?? '').replace(/ \(now.*/, ''));

const stopOf = async (more: object): Promise<string[]> => {
  const model = pump(
    [
      step('close', {
        ask: [number('way', 'Way it is driven'), number('bolts', 'Bolts'), number('warm', 'Warmth')],
        gates: [
          {
            id: 'fit',
            must: 'way < 5.0 || bolts > 5.0',
            say: 'Not fit.',
            raise: 'spill',
            overrule: 'with-reason',
            ...more,
          },
        ],
      }),
      asks.end,
    ],
    { branches },
  );
  const b = await bench(
    model,
    [
      ['way', 9],
      ['bolts', 2],
      ['warm', 4],
    ].map(([key, value]) => answer('close', key as string, value)),
  );
  return listed(b).slice(0, 5);
};

test('of several answers that a stop rests on the last one stands first; then what its words name, then the others', async () => {
  expect(await stopOf({})).toEqual([
    'Answer again: Bolts',
    'Answer again: Way it is driven',
    'Report “Spill” (Whole job)',
    'Continue anyway, with a reason and initials',
    'Answer again: Warmth',
  ]);
});

test('an answer that a stop holds to be right is answered again only behind what it names', async () => {
  expect(await stopOf({ answer_stands: true })).toEqual([
    'Report “Spill” (Whole job)',
    'Answer again: Bolts',
    'Answer again: Way it is driven',
    'Continue anyway, with a reason and initials',
    'Answer again: Warmth',
  ]);
});

test('of a log the reading that a stop tells is put right before anything is reported', async () => {
  const model = pump(
    [
      step('log', {
        repeat: { until: 'log_stage > 9.0', most: 9 },
        ask: [number('log_stage', 'Stage'), number('log_warm', 'Warmth')],
        gates: [
          {
            id: 'early',
            at: 'enter',
            must: 'rows_log == 0.0 || log_warm < 50.0',
            say: 'Too early for stage {log_stage}.',
            raise: 'spill',
            overrule: 'with-reason',
          },
        ],
      }),
      asks.end,
    ],
    { branches },
  );
  const b = await bench(model, [answer('log', 'log_stage', 3), answer('log', 'log_warm', 70)]);
  expect(listed(b).slice(0, 3)).toEqual(['Correct: Stage', 'Report “Spill” (Whole job)', 'Correct: Warmth']);
});

test('the last line of a list that is too long begins the next choice, and the key that brings the others is named', () => {
  const items = ['One', 'Two', 'Three of a good many words, more of them than stand in one line', 'Four', 'Five'];
  const list = { id: 'list', items: items.map((label) => ({ value: label, label, digit: '1' })), index: -1 };
  const seen = (height: number, signs?: { more: string; down: string }) =>
    fitParts([{ rank: 1, choices: list }], 40, height, signs).fitted.flatMap((f) =>
      'choices' in f ? [...f.rows.flatMap((r) => r.lines), f.after] : [],
    );
  expect(seen(4)).toEqual(['One', 'Two', 'Three of a good many words, more…', '2 more below: ↓']);
  expect(seen(4, { more: '...', down: 'Down' }).slice(2)).toEqual([
    'Three of a good many words,...',
    '2 more below: Down',
  ]);
});

test('of three lines of a list the last one tells that there are more', () => {
  const items = ['One', 'Two', 'Three', 'Four'].map((label, i) => ({ value: label, label, digit: String(i + 1) }));
  const [list] = fitParts([{ rank: 1, choices: { id: 'list', items, index: -1 } }], 40, 3).fitted;
  expect(list && 'choices' in list && [...list.rows.map((r) => r.item.label), list.after]).toEqual([
    'One',
    'Two',
    '2 more below: ↓',
  ]);
});

test('a wrong key takes no act out of a danger and no choice without a word: the instruction gives way', async () => {
  const model = pump([
    step('drive', {
      hazard: true,
      do: 'Bolt the pump down. Put a sensor on each valve. Let a licensed person put its leads back. Close the guard. If it is driven, take off your lock.',
      caution: [
        deadly,
        'WARNING: A turning shaft pulls in gloves, sleeves and hair: take your gloves off.',
        'WARNING: A coupled machine turns the pump and crushes: have brake, heater, driven machine and fan made safe.',
      ],
      ask: [{ ...ways, options: ways.options.map(({ note: _, ...o }) => o) }],
    }),
    asks.end,
  ]);
  const b = await bench(model, [{ kind: 'caution', step: 'drive', place: 'job' }], 18);
  for (const key of ['enter', '7', '9']) {
    await b.press(key);
    expect(flat(b)).toMatch(/▲ (Nothing is picked yet|Press a digit|9 confirms)/);
    expect(flat(b)).toContain('take your gloves off.');
    expect(flat(b)).toContain('have brake, heater, driven machine and fan made safe.');
    for (const { label } of ways.options) expect(flat(b)).toContain(label);
    expect(flat(b)).toContain('Bolt the pump down.');
    expect(flat(b)).toContain('more than fits here');
  }
});

test('a digit picks no choice that was not in sight yet', async () => {
  const options = Array.from({ length: 9 }, (_, i) => ({
    value: `v${i}`,
    label: `Finding number ${i}`,
    note: 'as it may be seen under the lamp at any pump of this kind',
  }));
  const model = pump([step('look', { ask: [{ key: 'found', kind: 'choice', label: 'Found', options }] }), asks.end]);
  const b = await bench(model, []);
  expect(flat(b)).toContain('more below: ↓');
  const before = b.kept.entries.length;
  await b.press('9');
  expect(flat(b)).toContain('9 is not on the screen: press ↓ first.');
  expect(b.kept.entries.length).toBe(before);
  for (let i = 0; i < 9; i++) await b.press('down');
  await b.press('9');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'answer', value: 'v8' });
});

test('a stop that is longer than a small window leaves room for its ways on', async () => {
  const model = pump([
    step('dry', {
      ask: [number('n', 'Winding to earth')],
      gates: [
        {
          id: 'dry',
          must: 'n > 50.0',
          say: `It is wet. ${'Dry it as its maker says, wait until it is dry, and measure it anew. '.repeat(6).trim()}`,
          overrule: 'with-reason',
        },
      ],
    }),
    asks.end,
  ]);
  const b = openBench({ model, entries: begun({}, [answer('dry', 'n', 10)]), cols: 40, rows: 12 });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('go on');
  await b.press('enter');
  await b.waitFor('It is wet.');
  expect(flat(b)).toMatch(/1 Answer again/);
  expect(flat(b)).toMatch(/more below|more than fits/);
});

test('a stop in a small window: its first sentence and its ways stand before what was expected', async () => {
  const double = { key: 'twice', at: 'job', label: 'Twice the ohms', type: 'double', is: 'n * 2.0' };
  const model = pump(
    [
      step('dry', {
        hazard: true,
        caution: [deadly],
        show: ['twice'],
        rests_on: ['twice'],
        decision: true,
        predict: ['twice'],
        ask: [number('n', 'Winding to earth')],
        gates: [
          {
            id: 'dry',
            must: 'n > 50.0',
            say: `The winding shows less than fifty to earth. ${'Dry it as its maker says. '.repeat(9).trim()}`,
            overrule: 'with-reason',
          },
        ],
      }),
      asks.end,
    ],
    { facts: [double] },
  );
  const why = 'It was taken at half the value that the meter shows on the range before this one. '.repeat(2);
  const read = { kind: 'caution', step: 'dry', place: 'job' };
  const expected = { kind: 'predict', step: 'dry', place: 'job', key: 'twice', value: 40, typed: '40' };
  const b = openBench({
    model,
    entries: begun({ apprentice: 'AP' }, [read, answer('dry', 'n', 10), expected]),
    cols: 40,
    rows: 12,
    app: { basisOf: () => ({ model, judge: () => ({ verdict: 'wrong', why }) }) },
  });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('go on');
  await b.press('enter');
  await b.waitFor('STOP');
  expect(flat(b)).toContain('The winding shows less than fifty to earth.');
  expect(flat(b)).toContain('1 Answer again');
  expect(flat(b)).toContain('more than fits');
});

test('no digit picks from a list that had no room at all', async () => {
  const model = pump([step('look', { ask: [ways] }), asks.end]);
  const b = await bench(model, []);
  const view = b.stack.top!.view.bind(b.stack.top);
  const long = { rank: 0, lines: () => Array.from({ length: 40 }, () => [{ text: 'A word that stays.' }]) };
  b.stack.top!.view = (room) => ({ ...view(room), body: [long, ...view(room).body] });
  const before = b.kept.entries.length;
  await b.press('2');
  expect(flat(b)).toContain('2 is not on the screen: press ↓ first.');
  expect(b.kept.entries.length).toBe(before);
});

test('what says which places the job has is not offered as a reading to put right', async () => {
  const model = pump(
    [
      step('which', { ask: [{ key: 'both', kind: 'yes-no', label: 'Both valves' }, number('warm', 'Warmth')] }),
      step('go', {
        ask: [{ key: 'seen', kind: 'yes-no', label: 'Seen' }],
        gates: [{ id: 'cool', at: 'enter', must: '!(both && hot)', say: 'Too warm.', overrule: 'never' }],
      }),
      asks.end,
    ],
    {
      places: [
        {
          id: 'valve',
          name: 'Valve',
          instances: [
            { id: 'a', label: 'Upper valve' },
            { id: 'b', label: 'Lower valve', when: 'has_b' },
          ],
        },
      ],
      facts: [
        { key: 'has_b', at: 'job', label: 'It has a second valve', type: 'bool', is: 'both' },
        { key: 'hot', at: 'job', label: 'Hot', type: 'bool', is: 'has_b && warm > 50.0' },
      ],
    },
  );
  const swapped = pump(
    model.procedure.steps.map((s) =>
      s.id === 'go'
        ? { ...s, gates: [{ id: 'cool', at: 'enter', must: '!hot', say: 'Too warm.', overrule: 'never' }] }
        : s,
    ),
    { places: model.procedure.places, facts: model.procedure.facts },
  );
  const rest = [answer('which', 'both', true), answer('which', 'warm', 80)];
  expect(flat(await bench(swapped, rest, 40))).toMatch(/Correct: Warmth .*Correct another/);
  expect(flat(await bench(swapped, rest, 40))).not.toContain('Correct: Both valves');
  // The condition itself names it here.
  expect(flat(await bench(model, rest, 40))).toContain('Correct: Both valves');
});

test('while a step waits its danger stands there', async () => {
  const model = pump([
    step('cool', {
      hazard: true,
      caution: [deadly, 'NOTICE: Note it.'],
      ask: [number('mins', 'Minutes')],
      wait: { minutes: 'mins', label: 'cooling' },
    }),
    asks.end,
  ]);
  const b = await bench(model, [
    { kind: 'caution', step: 'cool', place: 'job' },
    answer('cool', 'mins', 30),
    { kind: 'done', step: 'cool', place: 'job' },
  ]);
  expect(flat(b)).toContain('Nothing to do but wait.');
  expect(flat(b)).toContain(deadly);
  expect(flat(b)).not.toContain('Note it');
});

test('what comes before a report is said on each of its pages', async () => {
  const b = await bench(pump([asks.yesNo, asks.end], { branches }), []);
  b.stack.push(raisePage(b.desk(), branches[0] as Branch, 'job'));
  expect(flat(b)).toContain('In a few words');
  expect(flat(b)).toContain('Shut the tap first, write afterwards.');
  await b.press('enter');
  expect(flat(b)).toContain('record that it happened');
  expect(flat(b)).toContain('Shut the tap first, write afterwards.');
});

test.each([
  ['is on', []],
  ['is waited for', [step('soak', { wait: { minutes: '30.0', label: 'soaking' } })]],
])('what can happen in the phase that %s is listed right behind what comes before all else', async (_, first) => {
  const happens = (id: string) => ({ id, at: 'job', title: `Event ${id}`, mark: id });
  const model = pump(
    [
      ...first,
      ...(first.length ? [] : [asks.end]),
      step('fire-out', { branch: 'fire' }),
      step('wet-dried', { branch: 'wet', phase: 'later' }),
      step('stuck-freed', { branch: 'stuck' }),
    ],
    {
      phases: ['work', 'later'].map((id) => ({ id, title: id })),
      branches: ['fire', 'wet', 'stuck'].map(happens),
    },
  );
  const b = await bench(model, first.length ? [{ kind: 'done', step: 'soak', place: 'job' }] : []);
  if (first.length) await b.waitFor('Nothing to do but wait');
  b.stack.push(eventPage(b.desk(), 'job'));
  if (first.length) await b.press('up');
  expect(
    listed(b)
      .map((l) => l.replace(/ {2}\(.*/, ''))
      .slice(0, 3),
  ).toEqual(['Event fire', 'Event stuck', 'Event wet']);
});

test('where lines are left over a caution says what to do once it has happened too', async () => {
  const first = 'CAUTION: Grease goes through skin: wear gloves.';
  const model = pump([
    step('push', { caution: [`${first} If it did, see a surgeon.`], tell: 'It is in. '.repeat(18).trim() }),
    asks.end,
  ]);
  const read = [{ kind: 'caution', step: 'push', place: 'job' }];
  expect(flat(await bench(model, read))).toContain(`${first} If it did, see a surgeon.`);
  const low = flat(await bench(model, read, 12));
  expect(low).toContain(first);
  expect(low).not.toContain('surgeon');
});
