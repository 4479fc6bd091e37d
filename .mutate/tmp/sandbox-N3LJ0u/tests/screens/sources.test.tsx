/** Where a number comes from: only what is published is cited, all else says openly what it is. */
// @ts-nocheck

import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const fact = (key: string, is: string, source?: { tag: string; text: string }) => ({
  key,
  at: 'job',
  label: `Figure ${key}`,
  quantity: 'length',
  is,
  ...(source ? { source } : {}),
});
const shown = ['whole', 'memory', 'habit', 'cited', 'ours', 'bare'];
const model = () =>
  pump([asks.quantity, step('look', { show: shown })], {
    facts: [
      fact('memory', 'bore * 2.0', { tag: 'M', text: 'THE REMEMBERED BOOK' }),
      fact('habit', 'bore * 3.0', { tag: 'CP', text: 'THE HABIT' }),
      fact('cited', 'bore * 4.0', { tag: 'P', text: 'Invented Handbook, table 3' }),
      fact('ours', 'bore * 5.0', { tag: 'shop', text: 'weighed on our scale' }),
      fact('bare', 'bore * 6.0'),
      fact('whole', 'memory + habit + cited + ours + bare'),
    ],
  });

async function behind(line: number): Promise<Bench> {
  const b = await onStep({ model: model(), entries: begun(), rows: 40 });
  open.push(b);
  await b.press('1', '0', 'enter');
  await b.waitFor('Do look now.');
  await b.press('n');
  await b.waitFor('Which figure?');
  await b.press(String(line));
  await b.waitFor('With these numbers');
  return b;
}
const source = (b: Bench): string => b.screen().split('Source')[1]?.split('─')[0]?.replace(/\s+/g, ' ').trim() ?? '';

test.each([
  [2, 'usual, verify'],
  [3, 'common practice, no source'],
  [4, 'Invented Handbook, table 3 [published]'],
  [5, 'the shop’s own figure: weighed on our scale'],
  [6, 'the procedure’s own rule'],
])('figure %i says: %s', async (line, says) => {
  const b = await behind(line);
  expect(source(b)).toBe(says);
  expect(b.screen()).not.toMatch(/REMEMBERED|HABIT/);
});

test('each input says on what evidence it stands', async () => {
  const b = await behind(1);
  const flat = b.screen().replace(/\s+/g, ' ');
  expect(flat).toMatch(/Figure memory \S+ ± \S+ mm a rule of the procedure; usual, verify/);
  expect(flat).toMatch(/Figure habit \S+ ± \S+ mm a rule of the procedure; common practice, no source/);
  expect(flat).toMatch(/Figure cited \S+ ± \S+ mm a rule of the procedure; published/);
  expect(flat).toMatch(/Figure ours \S+ ± \S+ mm a rule of the procedure; the shop’s own/);
});
