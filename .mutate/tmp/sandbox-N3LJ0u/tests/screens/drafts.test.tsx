/** What is typed and not confirmed stays with its question and its place, whatever comes up in between. */
// @ts-nocheck

import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep } from './bench.js';
import { asks, begun, bore, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const tint = {
  key: 'tint',
  kind: 'choice',
  label: 'Tint',
  options: ['red', 'blue'].map((value) => ({ value, label: value })),
};
const model = pump([
  step('tint', { at: 'valve', ask: [{ ...tint }] }),
  step('gap', { at: 'valve', ask: [{ ...bore, key: 'gap', label: 'Gap' }] }),
  asks.end,
]);
async function bench(before?: Bench): Promise<Bench> {
  const entries =
    before?.kept.entries ??
    begun({}, [
      { kind: 'answer', step: 'tint', place: 'b', key: 'tint', value: 'red' },
      { kind: 'operator', initials: 'AP', place: 'job' },
    ]);
  const b = await onStep({ model, entries, drafts: before?.kept.drafts });
  open.push(b);
  return b;
}
const at = async (b: Bench, place: string): Promise<void> => {
  if (!b.screen().includes(`${place} · Work`)) await b.press('tab');
  await b.waitFor(`${place} · Work`);
};
const gap = (b: Bench, place: string): unknown =>
  b.kept.entries.findLast((e) => e.kind === 'answer' && e.key === 'gap' && e.place === place);

test('a figure typed and left before Enter is there when its question comes, after others were answered', async () => {
  const b = await bench();
  await at(b, 'Lower valve');
  await b.press('8', ',', '9');
  expect(b.kept.drafts).toHaveLength(1);
  b.session.press({ name: 'ctrl', char: 'c' });
  const again = await bench(b);
  await at(again, 'Upper valve');
  // A choice that is moved through and taken, then a figure of the same name at the other place.
  await again.press('down', 'up', '1');
  await again.waitFor('Do gap now.');
  expect(again.screen()).not.toContain('8,9');
  await again.press('7', 'enter');
  expect(gap(again, 'a')).toMatchObject({ value: 7 });
  await at(again, 'Lower valve');
  await again.waitFor('> 8,9');
  await again.press('5', 'enter');
  expect(gap(again, 'b')).toMatchObject({ value: 8.95 });
  expect(again.kept.drafts).toEqual([]);
});

test('two fields keep what was typed in each', async () => {
  const b = await bench();
  await at(b, 'Upper valve');
  await b.press('1');
  await b.waitFor('Do gap now.');
  await b.press('1', '1');
  await at(b, 'Lower valve');
  await b.press('2', '2');
  const again = await bench(b);
  await at(again, 'Upper valve');
  await again.waitFor('> 11');
  await at(again, 'Lower valve');
  await again.waitFor('> 22');
  // A field that is emptied by hand stays empty.
  await again.press('backspace', 'backspace');
  expect(again.kept.drafts.map((d) => d.text)).toEqual(['11\n']);
  const third = await bench(again);
  await at(third, 'Lower valve');
  expect(third.screen()).not.toContain('22');
});
