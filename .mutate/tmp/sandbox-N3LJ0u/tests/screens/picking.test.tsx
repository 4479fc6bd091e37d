/** The foot names the keys that work: digits where nothing is highlighted, Enter once something is. */
// @ts-nocheck

import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep, openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
async function bench(...steps: Record<string, unknown>[]): Promise<Bench> {
  const b = await onStep({ model: pump([...steps, asks.end]), entries: begun() });
  open.push(b);
  return b;
}
const foot = (b: Bench): string => (b.screen().split('─').at(-1) ?? '').replace(/\s+/g, ' ');

test('a page of ways on names its digits, and Enter only once an arrow has highlighted one', async () => {
  const glue = step('glue', { at: 'valve', wait: { minutes: '20.0', label: 'glue setting' } });
  const b = await bench(glue);
  await b.press('enter');
  await b.waitFor('nothing more to do here now');
  expect(foot(b)).toContain('1-3 pick');
  expect(foot(b)).not.toContain('Enter');
  await b.press('enter');
  await b.waitFor('Nothing is picked yet');
  await b.press('down');
  await b.waitFor('Enter select');
  expect(foot(b)).toContain('1-3 pick Enter select');
  await b.press('enter');
  await b.waitFor('Lower valve · Work');
});

test('so do the ways on of a stop', async () => {
  const b = await bench(asks.gated);
  await b.press('2');
  await b.waitFor('STOP');
  expect(foot(b)).toMatch(/^ ?1-\d pick u undo/);
  await b.press('down');
  await b.waitFor('Enter select');
});

test.each([
  ['choice', '1-2 pick', 'Enter select'],
  ['yesNo', '2 no', 'Enter select'],
  ['series', '1-2 add', 'Enter add it'],
  ['table', '0-9 type it', 'Enter select'],
] as const)('and the question of kind %s', async (kind, before, after) => {
  const b = await bench(asks[kind]);
  await b.waitFor(before);
  expect(foot(b)).not.toContain('Enter');
  await b.press('down');
  await b.waitFor(after);
});

test('a size that was typed whole is taken by Enter, a part of several is not', async () => {
  const b = await bench(asks.table);
  await b.press('6');
  expect(foot(b)).not.toContain('Enter');
  await b.press('004');
  await b.waitFor('Enter select');
});

test('and a page from which something begins', async () => {
  const practices = () => [
    { id: 'one', title: 'Rotor One', procedure: 'pump' },
    { id: 'two', title: 'Rotor Two', procedure: 'pump' },
  ];
  const b = openBench({ model: pump([asks.choice]), app: { practices } });
  open.push(b);
  await b.ready();
  await b.press('2');
  await b.waitFor('Which invented rotor?');
  expect(foot(b)).toContain('1-2 pick');
  expect(foot(b)).not.toContain('Enter');
  await b.press('down');
  await b.waitFor('Enter select');
});
