/** A wait that is over: told, and rung where somebody wished it. */
// @ts-nocheck

import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep } from './bench.js';
import { begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const glue = step('glue', { at: 'valve', physical: true, wait: { minutes: '30.0', label: 'glue' } });

async function bench(trouble?: string) {
  const rung = { count: 0, on: false };
  const b = await onStep({
    model: pump([glue, step('last', {})]),
    entries: begun(),
    app: {
      bell: {
        on: () => rung.on,
        turn: async (on) => {
          if (!trouble) rung.on = on;
          return trouble;
        },
        ring: () => {
          rung.count += 1;
        },
      },
    },
  });
  open.push(b);
  const look = (): void => {
    for (const p of b.session.pages) p.time?.();
    b.session.changed();
  };
  return { b, rung, look };
}

test('it is off at first, and what has finished waiting is told all the same', async () => {
  const { b, rung, look } = await bench();
  await b.press('m');
  await b.waitFor('Bell when a wait is over: off');
  await b.press('esc');
  await b.waitFor('Do glue now.');
  await b.press('enter');
  await b.waitFor('Next: Lower valve');
  look();
  await b.press('1', 'enter');
  await b.waitFor('Nothing to do but wait.');
  look();
  await b.pass(31);
  look();
  await b.waitFor('Finished waiting: glue (Upper valve); glue (Lower valve).');
  expect(rung.count).toBe(0);
});

test('turned on in the menu it sounds once to be heard, and once when a wait is over', async () => {
  const { b, rung, look } = await bench();
  await b.press('m', 'up', 'enter');
  await b.waitFor('Bell when a wait is over: on');
  // The line that was picked stays the one that is picked, although its words have changed.
  expect(b.screen()).toMatch(/▸ +Bell when a wait is over: on/);
  expect(rung).toEqual({ count: 1, on: true });
  await b.press('esc', 'enter');
  await b.waitFor('Next: Lower valve');
  look();
  await b.pass(31);
  look();
  look();
  await b.waitFor('Finished waiting: glue');
  expect(rung.count).toBe(2);
});

test('a wait that was cut short does not ring', async () => {
  const { b, rung, look } = await bench();
  rung.on = true;
  await b.press('enter');
  await b.waitFor('Next: Lower valve');
  look();
  await b.press('u');
  look();
  expect(rung.count).toBe(0);
  expect(b.screen()).not.toContain('Finished waiting');
});

test('a wish that can not be kept is told', async () => {
  const { b, rung } = await bench('This setting could not be saved: the disk is full.');
  await b.press('m', 'up', 'enter');
  await b.waitFor('the disk is full');
  expect(rung).toEqual({ count: 0, on: false });
});
