/** Practice: choosing how to measure, being shown what the invented rotor shows, and the debrief. */
// @ts-nocheck

import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep } from './bench.js';
import { asks, begun, bore, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

test('a way of measuring is chosen first, shown by its reading and kept with the answer', async () => {
  const model = pump([asks.quantity]);
  const practice = {
    ways: () => [
      { way: 'outside', label: 'Calliper, outside jaws' },
      { way: 'inside', label: 'Calliper, inside jaws' },
    ],
    shows: (_s: string, _p: string, _k: string, _r: number, _state: unknown, way: string | undefined) =>
      way === 'inside' ? '12.4 mm' : '13.9 mm',
  };
  const b = await onStep({
    model,
    entries: begun({ practice: 'x' }),
    app: {
      basisOf: () => ({ model, practice }),
      debrief: () => [
        { text: 'Traps', as: 'head' },
        { text: 'Caught: the outside jaws', as: 'good' },
        { text: 'Fell for: the gap', as: 'bad' },
        { text: 'It would have ended badly.', as: 'more' },
      ],
    },
  });
  open.push(b);
  await b.waitFor('Bore: how do you go about it?');
  expect(b.screen()).not.toContain('12.4');
  await b.press('2');
  await b.waitFor('The invented rotor shows 12.4 mm');
  await b.press('12.4', 'enter');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'answer', value: 12.4, way: 'inside' });
  await b.waitFor('This job is finished.');
  await b.press('1');
  await b.waitFor('Caught: the outside jaws');
  await b.waitFor('It would have ended badly.');
});

test('what is optional is left empty with Enter, whatever its kind', async () => {
  const b = await onStep({
    model: pump([
      step('extra', {
        ask: [
          { ...bore, optional: true },
          {
            key: 'shade',
            kind: 'choice',
            label: 'Shade',
            optional: true,
            options: [
              { value: 'a', label: 'A' },
              { value: 'b', label: 'B' },
            ],
          },
        ],
      }),
      asks.end,
    ]),
    entries: begun(),
  });
  open.push(b);
  await b.waitFor('May be left empty');
  await b.press('enter');
  await b.waitFor('Shade');
  await b.press('enter');
  await b.waitFor('Last word');
});
