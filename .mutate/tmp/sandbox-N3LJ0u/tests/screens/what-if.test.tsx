/** Several values tried together: before and after, and the journal as it was. */
// @ts-nocheck

import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep } from './bench.js';
import { begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const quantity = (key: string, label: string) => ({
  key,
  kind: 'quantity',
  quantity: 'length',
  unit: 'mm',
  label,
  limits: [1, 500],
});
const model = () =>
  pump(
    [
      step('sizes', { ask: [quantity('bore', 'Bore'), quantity('stroke', 'Stroke')] }),
      step('choose', {
        decision: true,
        rests_on: ['reach'],
        ask: [quantity('chosen', 'Length chosen')],
        gates: [{ id: 'long', must: 'chosen <= reach', say: 'Longer than it reaches.', overrule: 'never' }],
      }),
      step('last', {}),
    ],
    {
      facts: [
        { key: 'reach', at: 'job', label: 'Reach', quantity: 'length', is: 'bore + stroke' },
        { key: 'twice', at: 'job', label: 'Twice the bore', quantity: 'length', is: 'bore * 2.0' },
        { key: 'mark', at: 'job', label: 'Mark', quantity: 'length', is: 'chosen / 2.0' },
      ],
      sheet: { figures: [{ key: 'reach' }, { key: 'twice' }, { key: 'mark' }] },
    },
  );

test('two trial values add up, what was decided stays, and nothing is recorded', async () => {
  const b = await onStep({ model: model(), entries: begun() });
  open.push(b);
  await b.press('1', '0', 'enter');
  await b.press('2', '0', 'enter');
  await b.press('2', '4', 'enter');
  await b.waitFor('Do last now.');
  const before = b.kept.entries;

  await b.press('m', '4');
  await b.waitFor('Which value would you change?');
  await b.press('S', 't', 'r', 'enter');
  await b.waitFor('What if it were');
  await b.press('3', '0', 'enter');
  await b.waitFor('Stroke 20 mm → 30 mm');
  await b.waitFor('Reach 30 mm → 40 mm');
  await b.waitFor('Left as it was decided: Length chosen 24 mm.');
  await b.waitFor('These stay as they are');
  expect(b.screen().replace(/\s+/g, ' ')).toMatch(/These stay as they are Twice the bore 20 mm Mark 12 mm/);

  await b.press('enter');
  await b.waitFor('Tried so far');
  await b.press('esc', 'C', 'h', 'o', 's', 'enter');
  await b.press('3', '6', 'enter');
  await b.waitFor('Length chosen 24 mm → 36 mm');
  await b.waitFor('Reach 30 mm → 40 mm');
  await b.waitFor('Mark 12 mm → 18 mm');

  // One more makes it too long for the reach: it says what would stop.
  await b.press('enter', 'esc', 'B', 'o', 'r', 'e', 'enter');
  await b.press('2', 'enter');
  await b.waitFor('Reach 30 mm → 32 mm');
  await b.waitFor('Title of choose: stopped. Longer than it reaches.');

  await b.press('enter', 'esc');
  await b.waitFor('Clear and start again');
  await b.press('2');
  expect(b.screen()).not.toContain('Tried so far');
  await b.press('esc', 'esc');
  await b.waitFor('Do last now.');
  expect(b.kept.entries).toBe(before);
});
