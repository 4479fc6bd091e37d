/** Several waits at once: what ends first is told first, and none goes without a word. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const names = { a: 'Upper valve', b: 'Lower valve', c: 'Side valve', d: 'Spare valve' };
const places = [{ id: 'valve', name: 'Valve', instances: Object.entries(names).map(([id, label]) => ({ id, label })) }];
const glue = step('glue', {
  at: 'valve',
  ask: [{ key: 'mins', kind: 'number', label: 'Minutes', limits: [1, 90] }],
  wait: { minutes: 'mins', label: 'glue setting' },
});
const press = step('press', { at: 'valve', ask: [{ key: 'pressed', kind: 'yes-no', label: 'Pressed' }] });
const glued = (place: string, value: number) => ({ kind: 'answer', step: 'glue', place, key: 'mins', value });

/** Three waits, that of the first valve the longest; work goes on at the fourth. */
async function bench(rows = 24, more: readonly Record<string, unknown>[] = []): Promise<Bench> {
  const model = pump([glue, press, asks.end], { places });
  const entries = begun({}, [glued('a', 55), glued('b', 40), glued('c', 10), ...more]);
  const b = openBench({ model, entries, rows });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('go on');
  return b;
}
const order = (b: Bench): string[] =>
  [...b.screen().matchAll(/(\w+) valve: glue setting, \d+ min left/g)].map((m) => m[1] ?? '');

test('a step names the two that end first and says that there is one more', async () => {
  const b = await bench();
  expect(order(b)).toEqual(['Side', 'Lower', 'Upper']);
  await b.press('enter');
  await b.waitFor('Spare valve · Work');
  await b.waitFor('Lower valve: glue setting, 40 min left, until 08:40, and 1 more wait');
  expect(order(b)).toEqual(['Side', 'Lower']);
});

test('where there is little room the one that ends first stays, with how many there are besides', async () => {
  const b = await bench(13);
  await b.press('enter');
  await b.waitFor('Side valve: glue setting, 10 min left, until 08:10, and 2 more waits');
  expect(order(b)).toEqual(['Side']);
});

test('what a wait asks for stands there for as long as it lasts', async () => {
  const soak = step('soak', {
    ask: [{ key: 'wet', kind: 'yes-no', label: 'Wet' }],
    wait: { minutes: '10.0', label: 'wet swab', meanwhile: 'Keep the swab wet.' },
  });
  const entries = begun({}, [{ kind: 'answer', step: 'soak', place: 'job', key: 'wet', value: true }]);
  const b = openBench({ model: pump([soak, asks.end]), entries });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('Wait. Keep the swab wet.');
  await b.press('enter');
  await b.waitFor('Do not wait for wet swab');
  expect(b.screen()).toContain('Wait. Keep the swab wet.');
  expect(b.screen()).not.toContain('Nothing to do but wait');
});

test('the page of ways on keeps to the same order', async () => {
  const b = await bench(40, [glued('d', 25)]);
  await b.press('enter');
  await b.waitFor('Nothing to do but wait.');
  expect(order(b)).toEqual(['Side', 'Spare', 'Lower', 'Upper']);
  const ways = [...b.screen().matchAll(/Do not wait for glue setting \((\w+) valve\)/g)].map((m) => m[1]);
  expect(ways).toEqual(['Side', 'Spare', 'Lower', 'Upper']);
});
