/** A job from elsewhere with an answer that its question could not have had: said on the bench, and asked again. */
// @ts-nocheck

import { expect, test } from 'vitest';
import { onStep } from './bench.js';
import { asks, begun, pump } from './pump.js';

test('the bench names the answer that does not count until it is given again', async () => {
  const forged = { kind: 'answer', step: 'bore', place: 'job', key: 'bore', value: 5000 };
  const b = await onStep({ model: pump([asks.quantity, asks.end]), entries: begun({}, [forged]) });
  await b.waitFor('A recorded answer does not fit its question and does not count: Bore: 5000 mm');
  await b.waitFor('(it is not from 1 mm to 500 mm)');
  await b.press('10', 'enter');
  await b.waitFor('Last word');
  expect(b.screen()).not.toContain('does not fit');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'answer', key: 'bore', value: 10 });
  b.end();
});
