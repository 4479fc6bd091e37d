/** What people met who read English slowly and press a key once too often. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, type BenchOptions, onStep } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
async function bench(options: BenchOptions): Promise<Bench> {
  const b = await onStep(options);
  open.push(b);
  return b;
}
const nine = Array.from({ length: 9 }, (_, i) => ({ value: `found-${i + 1}`, label: `Finding ${i + 1}` }));
const findings = { key: 'found', kind: 'series', label: 'What you find', least: 1, most: 9, options: nine };

test('the key that confirms a danger, pressed once too often, ticks no answer', async () => {
  const feel = step('feel', { hazard: true, caution: ['WARNING: Sharp edges cut: wear gloves.'], ask: [findings] });
  const b = await bench({ model: pump([feel, asks.end]), entries: begun(), rows: 40 });
  await b.waitFor('Press 9');
  await b.press('9', '9');
  await b.waitFor('came too soon');
  expect(b.screen()).toContain('None yet');
  // Who means it presses it again.
  await b.press('9');
  await b.waitFor('So far: Finding 9');
  await b.press('9');
  await b.waitFor('So far: Finding 9 · Finding 9');
});

const colour = [{ key: 'colour', kind: 'choice', label: 'Colour', options: nine.slice(0, 2) }];

test('before a counter, where it can be the count, it is asked for once more', async () => {
  const count = { key: 'count', kind: 'counter', label: 'Gaps', to: '9.0', unit: 'gaps' };
  const caution = ['WARNING: Sharp edges cut: wear gloves.'];
  const b = await bench({ model: pump([step('feel', { caution, ask: [count] }), asks.end]), entries: begun() });
  await b.waitFor('Press 9');
  await b.press('9', '9');
  await b.waitFor('If you mean 9, press it again.');
  expect(b.screen()).not.toContain('confirms a danger');
});

test.each([
  ['a list without it', { ask: colour }, '9 confirms a danger. Here: 1-2 pick.', 'Press a digit from 1 to 2.'],
  ['a page that is done by Enter', {}, '9 confirms a danger. Here: Enter done.', 'Here Enter says done.'],
] as const)('pressed once too often before %s, it says what is pressed there', async (_, more, first, then) => {
  const caution = ['WARNING: Sharp edges cut: wear gloves.'];
  const model = pump([step('feel', { caution, says_done: true, ...more }), asks.end]);
  const b = await bench({ model, entries: begun() });
  await b.waitFor('Press 9');
  await b.press('9', '9');
  await b.waitFor(first);
  await b.press('9');
  await b.waitFor(then);
});

test('on the page of all lines a danger is confirmed once its last line was in sight', async () => {
  const long = 'WARNING: Hot steam burns: keep away. ';
  const hot = step('hot', {
    hazard: true,
    caution: [long],
    do: Array.from({ length: 60 }, (_, i) => `Turn tap ${i} until it is closed.`).join(' '),
  });
  const b = await bench({ model: pump([hot, asks.end]), entries: begun(), rows: 15 });
  await b.waitFor('more than fits here: PgDn');
  await b.press('pagedown');
  await b.waitFor(/lines \d+-/);
  await b.press('9');
  await b.waitFor('Read on to its end first, with Space.');
  for (let i = 0; i < 6; i++) await b.press('pagedown');
  await b.waitFor('Press  9  I have read this');
  expect(b.kept.entries).toHaveLength(1);
  // A 9 that comes too soon takes no line from what is read.
  b.stack.early({ name: 'char', char: '9' });
  await b.waitFor('─ This 9 came too soon: read first ─');
  await b.press('9');
  expect(b.kept.entries.at(-1)?.kind).toBe('caution');
  await b.waitFor('Press  9  done');
});

test.each([
  ['burn', 'Temperature spike'],
  ['burning', 'Temperature spike'],
  ['smok', 'Temperature spike'],
  ['dropped', 'Ball on the floor'],
])('“%s” finds the event “%s”', async (typed, title) => {
  const branches = [
    { id: 'spike', at: 'job', title: 'Temperature spike', words: ['burn', 'smoke'], mark: 'Spike' },
    { id: 'floor', at: 'job', title: 'Ball on the floor', words: ['drop'], mark: 'Fell' },
  ];
  const b = await bench({ model: pump([asks.yesNo, asks.end], { branches }), entries: begun(), rows: 40 });
  await b.press('m');
  const at = /(\d) {2}Something unforeseen/.exec(await b.waitFor('Something unforeseen'))?.[1] ?? '';
  await b.press(at);
  await b.waitFor('What happened?');
  await b.press(...typed);
  const found = await b.waitFor(title);
  expect(branches.filter((x) => found.includes(x.title))).toHaveLength(1);
  expect(found).toContain('Something else');
});

test('a drawing shows nothing of a question that is still to be answered, whatever it counts as until then', async () => {
  const side = {
    key: 'side',
    kind: 'choice',
    label: 'Closed side',
    otherwise: 'whole',
    options: [
      { value: 'front', label: 'Front' },
      { value: 'whole', label: 'Neither' },
    ],
  };
  const cage = step('cage', {
    draw: { picture: 'cage-side', with: { balls: 'count', side: 'side' } },
    ask: [{ key: 'count', kind: 'number', whole: true, label: 'Balls', limits: [3, 60] }, side],
  });
  const b = await bench({ model: pump([cage, asks.end]), entries: begun(), cols: 160, rows: 40 });
  await b.waitFor('Number of balls: not counted yet.');
  expect(b.screen()).not.toContain('alike');
  await b.press('8', 'enter');
  await b.waitFor('Closed side of the cage: not answered yet.');
  expect(b.screen()).toContain('8 balls, 45');
  expect(b.screen()).not.toContain('alike');
});
