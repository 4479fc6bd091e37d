/** Amounts of one job that are held against each other are in one currency. */
import { expect, it } from 'vitest';
import { showKey } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { Bench, modelFrom } from './pump.js';

const model = modelFrom(`
procedure: prices
version: 1.0.0
title: Prices
summary: Invented.
places: [ { id: side, name: Side, instances: [ { id: a, label: Left }, { id: b, label: Right } ] } ]
phases: [ { id: work, title: Work } ]
sheet: { headline: [ spare, work_cost ], figures: [], decisions: [], groups: [] }
steps:
  - id: price
    phase: work
    at: job
    title: Prices
    do: Ask.
    why: So.
    ask:
      - { key: spare, kind: quantity, quantity: money, unit: "", label: Price of the spare, limits: [0, 100000] }
      - { key: work_cost, kind: quantity, quantity: money, unit: "", label: Cost of the work, limits: [0, 100000] }
`);
const at = { step: 'price', place: 'job' } as const;

it('another currency is refused with the one to use; a bare figure is taken', () => {
  const b = new Bench(model).answer('price', 'job', { spare: '640 JPY' });
  expect(b.try({ do: 'answer', ...at, key: 'work_cost', text: '280 EUR' })).toBe(
    'Cost of the work: “Price of the spare” was given in JPY; type this amount in JPY too.',
  );
  expect(b.try({ do: 'answer', ...at, key: 'work_cost', text: '280 jpy' })).toBeUndefined();
  expect(b.try({ do: 'correct', ...at, key: 'spare', text: '640 EUR', reason: 'misread' })).toMatch(/given in JPY/);
  expect(b.try({ do: 'correct', ...at, key: 'spare', text: '641', reason: 'misread' })).toBeUndefined();
});

it('the currency stands beside the amount', () => {
  const b = new Bench(model).answer('price', 'job', { spare: '€ 640', work_cost: '280 EUR' });
  expect(showKey(b.state.values, 'spare', 'job')).toBe('640 EUR');
  expect(sheetOf(b.state).headline.map((f) => f.text)).toEqual(['640 EUR', '280 EUR']);
});
