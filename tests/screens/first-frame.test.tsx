/** The frame that is written before ink is there, against the one that ink draws of the same page. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep, openBench, textOf } from './bench.js';
import { asks, begun, pump } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const trimmed = (lines: readonly string[]): string =>
  lines
    .map((l) => l.trimEnd())
    .join('\n')
    .trimEnd();

function same(b: Bench): void {
  const lines = textOf(b.stack).split('\n');
  expect(trimmed(lines)).toBe(trimmed(b.screen().split('\n')));
  expect(lines).toHaveLength(b.stack.room.rows - 1);
}

const sizes = [
  [80, 24],
  [40, 12],
  [120, 40],
] as const;

for (const [cols, rows] of sizes)
  for (const ascii of [false, true])
    test(`is the same at ${cols} by ${rows}, ascii ${ascii}`, async () => {
      const model = pump([asks.choice, asks.text]);
      const b = openBench({ model, cols, rows, ascii, entries: begun(), byInk: true });
      open.push(b);
      await b.ready();
      same(b);
      await b.press('?');
      await b.waitFor('keys');
      same(b);
      await b.press('esc');
      b.stack.say('Something is to be told here, long enough to take two lines on most terminals, if not three.');
      await b.waitFor('Something');
      same(b);
      await b.press('down');
      same(b);
    });

test('is the same on a step, in a list with marks and in a long list', async () => {
  const model = pump([asks.choice, asks.text]);
  const b = await onStep({ model, entries: begun(), cols: 120, rows: 30, byInk: true });
  open.push(b);
  same(b);
  await b.press('m');
  same(b);
  await b.press('down', 'down');
  same(b);
});
