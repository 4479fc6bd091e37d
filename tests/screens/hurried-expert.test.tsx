/** At the screens: what hid a reading, answered what nobody meant, or was asked again without a word. On an invented pump. */
import { afterEach, expect, test } from 'vitest';
import { State } from '../../src/engine/state/state.js';
import { openStepsPage } from '../../src/screens/pages/open-steps.js';
import { howFar } from '../../src/screens/words/how-far.js';
import { type Bench, onStep } from './bench.js';
import { asks, begun, bore, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
async function bench(
  steps: readonly Record<string, unknown>[],
  more: Record<string, unknown> = {},
  pace: 'brisk' | 'learning' = 'brisk',
): Promise<Bench> {
  const b = await onStep({
    model: pump([...steps, asks.end], more),
    entries: begun({}, pace === 'brisk' ? [{ kind: 'pace', pace }] : []),
  });
  open.push(b);
  return b;
}
const kinds = (b: Bench): string[] => b.kept.entries.map((e) => e.kind);

test.each(['brisk', 'learning'] as const)('a key behind the first press of undo only leaves it (%s)', async (pace) => {
  const b = await bench([asks.yesNo, asks.choice], {}, pace);
  await b.press('1');
  await b.waitFor('Colour');
  const before = b.kept.entries.length;
  await b.press('u');
  await b.waitFor('Press u once more; any other key only leaves it.');
  // What was meant instead: it must not answer the question that stands behind.
  await b.press('2');
  await b.waitFor('Nothing was taken back.');
  expect(b.kept.entries).toHaveLength(before);
  await b.press('2');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'answer', key: 'colour', value: 'blue' });
});

const weighed = {
  steps: [step('weigh', { physical: true, says_done: true, ask: [bore], show: ['twice'] })],
  more: { facts: [{ key: 'twice', at: 'job', label: 'Twice the bore', is: 'bore * 2.0', quantity: 'length' }] },
};

test('what came of the reading that also says that the work is done stands on the next screen', async () => {
  const b = await bench(weighed.steps, weighed.more);
  await b.press('12.5', 'enter');
  await b.waitFor('Last word');
  expect(kinds(b)).toContain('done');
  expect(b.screen()).toMatch(/Bore: 12\.5 mm/);
  expect(b.screen()).toMatch(/Twice the bore 25/);
});

test.each(['brisk', 'learning'] as const)(
  'a danger that was read does not hide the reading before it (%s)',
  async (pace) => {
    const b = await bench([asks.yesNo, { ...asks.danger, ask: [bore] }], {}, pace);
    await b.press('1');
    await b.waitFor('Hot steam');
    await b.press('9');
    await b.waitFor('Bore');
    expect(kinds(b)).toContain('caution');
    expect(b.screen()).toContain('It leaks: yes');
    expect(b.screen()).not.toContain('Caution read');
  },
);

const split = [{ id: 'split', at: 'job', title: 'It split', mark: 'It split' }];
test('a danger that is asked again says why', async () => {
  const again = { ...asks.danger, id: 'again', title: 'Title of again' };
  const quiet = await bench([asks.danger, asks.choice, again]);
  await quiet.press('9', 'enter', '1');
  await quiet.waitFor('Title of again');
  expect(quiet.screen(), 'it holds').not.toContain('read, I keep to it');
  const b = await bench(
    [
      asks.danger,
      asks.choice,
      again,
      step('split', { branch: 'split', ask: [{ key: 'why', kind: 'yes-no', label: 'It leaks' }] }),
    ],
    { branches: split },
  );
  await b.press('9', 'enter');
  await b.waitFor('Colour');
  expect(b.screen()).not.toContain('Asked again');
  await b.desk().act({ do: 'raise', branch: 'split', place: 'job' });
  b.stack.changed();
  await b.waitFor('It leaks');
  await b.press('1');
  await b.waitFor('Colour');
  await b.press('1');
  await b.waitFor('Title of again');
  expect(b.screen()).toContain('Asked again: something unforeseen was recorded since.');
});

test('the reason page counts nothing that was not counted', async () => {
  const count = { key: 'count', kind: 'number', label: 'Count', limits: [0, 9], otherwise: 0 };
  const gates = [{ id: 'all', must: 'count == 8.0', say: '{count} are back. Nobody moves.', overrule: 'with-reason' }];
  const b = await bench([step('back', { ask: [count], gates })]);
  await b.press('w');
  await b.waitFor('Nobody moves');
  expect(b.screen()).toContain('“Count” are back');
  expect(b.screen()).toContain('It would stop here');
  await b.press('esc', '7', 'enter');
  await b.waitFor('STOP');
  await b.press('w');
  await b.waitFor('It stops here');
  expect(b.screen()).toContain('7 are back');
});

test('a figure that does not apply is not told as one that is not known', async () => {
  const facts = [
    { key: 'second', at: 'job', label: 'Second rinse', is: 'bore * 2.0', quantity: 'length', when: 'bore > 100.0' },
  ];
  const b = await bench([step('held', { ...asks.hold, ask: [bore], show: ['second'] })], { facts });
  await b.press('12', 'enter');
  await b.waitFor('I looked twice');
  expect(b.screen()).not.toContain('Second rinse');
});

const speed = {
  key: 'top',
  kind: 'quantity',
  quantity: 'speed',
  unit: 'rpm',
  label: 'Top speed',
  limits: [1, 99_000],
};
test('15k is read in the unit that is picked, and that unit stays beside it', async () => {
  const b = await bench([step('fast', { ask: [speed] })]);
  await b.press('1', '5', 'k');
  await b.waitFor(/15k.*rpm/);
  await b.press('enter');
  expect(b.kept.entries.at(-1)).toMatchObject({ value: 15_000 });
  const picked = await bench([step('fast', { ask: [speed] })]);
  await picked.press('down', '0', '.', '2', 'k');
  const unit = /0\.2k +(\S+)/.exec(picked.screen())?.[1];
  expect(unit).not.toBe('rpm');
  await picked.press('enter');
  expect(picked.kept.entries.at(-1), unit).not.toMatchObject({ value: 200 });
});

test.each(['brisk', 'learning'] as const)(
  'earlier work at the other bearing comes before work of the whole job that need not wait (%s)',
  async (pace) => {
    const valve = step('seat', { at: 'valve', ask: [{ key: 'seat', kind: 'yes-no', label: 'Seat is clean' }] });
    const early = step('gauge', {
      not_after: ['seat'],
      ask: [{ key: 'gauge', kind: 'yes-no', label: 'Gauge is here' }],
    });
    const b = await bench([valve, early], {}, pace);
    await b.press('1');
    await b.waitFor('LOWER VALVE');
    expect(b.screen()).toContain('Seat is clean');
    await b.press('1');
    await b.waitFor('Gauge is here');
  },
);

test('a list of steps that can be worked on is never empty without a word', async () => {
  const soak = step('soak', { wait: { minutes: '20.0', label: 'soaking' } });
  const b = await bench([soak]);
  await b.press('enter');
  await b.waitFor('Nothing to do but wait');
  b.stack.push(openStepsPage(b.desk()));
  await b.waitFor('Steps that are open now');
  expect(b.screen()).toMatch(/None now\./);
  expect(b.screen()).toMatch(/soaking, 20 min left, until 08:20/);
});

test('the clock in the head says what it counts, and that a log is not in it', () => {
  const many = Array.from({ length: 12 }, (_, i) => step(`turn-${i}`, {}));
  const log = step('heat', { ask: [bore], repeat: { until: 'rows_heat > 2.0', most: 9 } });
  const soak = step('soak', { wait: { minutes: '20.0', label: 'soaking' } });
  const done = many.slice(0, 11).map((s, i) => ({
    kind: 'done',
    step: s.id,
    place: 'job',
    at: new Date(Date.parse('2026-03-02T08:00:00Z') + i * 120_000).toISOString(),
  }));
  const at = Date.parse('2026-03-02T08:30:00Z');
  expect(howFar(new State(pump([...many, soak, log]), begun({}, done), at))).toBe(
    '12 of 14 · work 4 min + wait 20 min + work',
  );
  expect(howFar(new State(pump(many), begun({}, done), at))).toBe('12 of 12 · work 2 min');
});

test('what did not fit is read from where it was cut, not from the top again', async () => {
  const items = Array.from({ length: 30 }, (_, i) => `Row number ${i + 1} of what is laid out`);
  const kit = step('kit', { lays_out: items.map((name) => ({ for: name, things: [`thing ${name}`] })) });
  const b = await bench([kit]);
  await b.waitFor('more than fits here: PgDn');
  const first = items.findIndex((i) => !b.screen().includes(`${i} `));
  expect(first).toBeGreaterThan(3);
  await b.press('pagedown');
  await b.waitFor(/lines \d+-\d+ of/);
  expect(b.screen()).toContain(items[first]);
  expect(b.screen()).not.toContain('Row number 1 of');
  // Nothing is out of reach above it.
  for (let i = 0; i < 3; i++) await b.press('up');
  for (let i = 0; i < 30; i++) await b.press('up');
  expect(b.screen()).toContain('Row number 1 of');
});

test('what stops a step is told under one head each, and a figure that is not there yet by its name', async () => {
  const gate = (id: string, say: string) => ({ id, must: 'bore > 1.0', say, overrule: 'never' });
  const gates = [
    gate('a', 'It is {bore}. Measure it again.'),
    { ...gate('b', 'Twice is {twice}.'), overrule: 'with-reason' },
    gate('c', 'Much too small.'),
  ];
  const one = step('weigh', { ask: [bore], tell: 'It reads {twice} now.', gates });
  const b = await bench([one], weighed.more);
  await b.press('w');
  await b.waitFor('Much too small.');
  const page = b.screen();
  expect(page).not.toContain('…');
  expect(page).toContain('It reads “Twice the bore” now.');
  expect(page.match(/It would stop here, whoever asks/g)).toHaveLength(1);
  expect(page).toMatch(/whoever asks[\s\S]*Much too small[\s\S]*unless somebody answers for it[\s\S]*“Twice the bore”/);
});
