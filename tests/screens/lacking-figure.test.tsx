/** Work of the hands whose figure can't be worked out is told at the step and on the sheet. */
import { expect, test } from 'vitest';
import { sheetOf } from '../../src/sheet/sheet.js';
import { onStep } from './bench.js';
import { asks, begun, bore, pump, step } from './pump.js';

const asked = step('size', {
  ask: [bore, { ...bore, key: 'gap', label: 'Gap', limits: [0, 500], plausible: [0, 500] }],
});
const fill = step('fill', { physical: true, do: 'Pour {oil} in.', rests_on: ['oil'], show: ['oil'] });
const facts = [{ key: 'oil', at: 'job', label: 'Oil to pour', quantity: 'volume', is: 'bore / gap' }];
const answers = (gap: number) => [
  { kind: 'answer', step: 'size', place: 'job', key: 'bore', value: 20 },
  { kind: 'answer', step: 'size', place: 'job', key: 'gap', value: gap },
];
const told = 'Not known: Oil to pour. This work rests on it: do not go by a guess.';

test('a figure that is divided by nought', async () => {
  const b = await onStep({ model: pump([asked, fill, asks.end], { facts }), entries: begun({}, answers(0)) });
  await b.waitFor(told);
  await b.press('enter');
  await b.waitFor('Last word');
  const unusual = sheetOf(b.desk().state).front.unusual.map((u) => u.text);
  expect(unusual).toContain('DONE WITHOUT ITS FIGURE: Title of fill. Not known then: Oil to pour.');
  b.end();
});

test('one that is known needs no word', async () => {
  const b = await onStep({ model: pump([asked, fill, asks.end], { facts }), entries: begun({}, answers(2)) });
  await b.waitFor('Pour 10.0 mL in.');
  expect(b.screen()).not.toContain('Not known');
  await b.press('enter');
  await b.waitFor('Last word');
  expect(
    sheetOf(b.desk().state)
      .front.unusual.map((u) => u.text)
      .join(),
  ).not.toContain('WITHOUT');
  b.end();
});
