/** Whatever takes a while says so, and how long a wait still takes and when it ends stands on the screen. */
// @ts-nocheck

import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep, openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

test('a job that takes long to open says so, and nothing is left of it then', async () => {
  const model = pump([asks.quantity]);
  let go = (): void => undefined;
  const slow = new Promise<void>((resolve) => {
    go = resolve;
  });
  const b = openBench({
    model,
    entries: begun(),
    app: {
      basisOf: async () => {
        await slow;
        return { model };
      },
    },
  });
  open.push(b);
  await b.ready();
  await b.waitFor('Bench job');
  await b.press('1');
  await b.waitFor('One moment …');
  go();
  await b.waitFor('go on');
  expect(b.screen()).not.toContain('One moment');
});

test('what is quick says nothing of it', async () => {
  const b = await onStep({ model: pump([asks.quantity, step('last', {})]), entries: begun() });
  open.push(b);
  await b.press('1', '0', 'enter');
  await b.waitFor('Do last now.');
  expect(b.screen()).not.toContain('One moment');
});

test('a wait shows how long is left, to the end of it, and the time of day at which it ends', async () => {
  const b = await onStep({
    model: pump([step('glue', { physical: true, wait: { minutes: '90.0', label: 'glue' } }), step('last', {})]),
    entries: begun(),
  });
  open.push(b);
  await b.press('enter');
  await b.waitFor('glue, 1 h 30 min left, until 09:30');
  await b.pass(61);
  await b.waitFor('glue, 29 min left, until 09:30');
  await b.pass(28.5);
  await b.waitFor('glue, 30 s left, until 09:30');
  await b.pass(0.5);
  await b.waitFor('Do last now.');
});
