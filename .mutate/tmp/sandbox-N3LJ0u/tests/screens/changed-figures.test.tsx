/** What a correction moves: each figure once for its place, a list with its unit once. */
// @ts-nocheck

import { afterEach, expect, test } from 'vitest';
import { unitOnce } from '../../src/screens/pages/changed-figures.js';
import { type Bench, onStep } from './bench.js';
import { asks, begun, bore, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

test('a list of one unit says it once, at its end', () => {
  expect(unitOnce(['210 h', '61 h'])).toBe('210, 61 h');
  expect(unitOnce(['9800 rpm', '11\u00a0200 rpm'])).toBe('9800, 11\u00a0200 rpm');
  expect(unitOnce(['1.70 ± 0.09 mL', '-1 mL'])).toBe('1.70 ± 0.09, -1 mL');
  expect(unitOnce(['20 %', '-5 °C'])).toBe('20 %, -5 °C');
  expect(unitOnce(['1 h 30 min', '2 h 30 min'])).toBe('1 h 30 min, 2 h 30 min');
  expect(unitOnce(['45 min', '1 h'])).toBe('45 min, 1 h');
  expect(unitOnce(['12 mm2/s', '14 mm2/s'])).toBe('12, 14 mm2/s');
  expect(unitOnce(['1', '2'])).toBe('1, 2');
  expect(unitOnce(['10 mm'])).toBe('10 mm');
});

async function corrected(): Promise<string> {
  const model = pump(
    [
      step('gap', { at: 'valve', ask: [{ ...bore, key: 'gap', label: 'Gap' }] }),
      step('set', { show: ['reaches', 'lengths'] }),
      asks.end,
    ],
    {
      facts: [
        { key: 'reach', at: 'valve', label: 'Reach', quantity: 'length', is: 'gap * 2.0' },
        // Handed on without saying that it is a length.
        { key: 'reach_here', at: 'valve', label: 'Reach', type: 'double', is: 'gap > 0.0 ? reach : 100.0' },
        { key: 'reach_told', at: 'valve', label: 'As told', quantity: 'length', is: 'reach' },
        { key: 'many', at: 'valve', label: 'Counts', type: 'double', is: 'gap > 13.0 ? 1.0 : 0.0' },
        { key: 'reaches', at: 'job', label: 'Reaches', over: 'valve', list: 'reach_here', type: 'list<double>' },
        {
          key: 'lengths',
          at: 'job',
          label: 'Lengths',
          over: 'valve',
          list: 'reach',
          type: 'list<double>',
          quantity: 'length',
        },
        { key: 'counted', at: 'job', label: 'Counted', over: 'valve', list: 'many', type: 'list<double>' },
      ],
    },
  );
  const given = (place: string, value: number) => ({ kind: 'answer', step: 'gap', place, key: 'gap', value });
  const b = await onStep({ model, entries: begun({}, [given('a', 10), given('b', 12)]), rows: 60 });
  open.push(b);
  await b.press('m');
  await b.press(/(\d) {2}Correct an earlier reading/.exec(b.screen())?.[1] ?? '');
  await b.press('1', '14', 'enter', 'misread', 'enter');
  return (await b.waitFor('to correct it; Esc')).replaceAll('\u00a0', ' ').replace(/ +/g, ' ');
}

test('a correction tells a list with its unit, also where the list only hands figures on', async () => {
  const screen = await corrected();
  expect(screen).toContain('Gap 12 mm → 14 mm');
  expect(screen).toContain('Reaches 20, 24 mm → 20, 28 mm');
  expect(screen).toContain('Lengths 20.0 ± 0.2, 24.0 ± 0.2 mm → 20.0 ± 0.2, 28.0 ± 0.2 mm');
  // What compares with a length is none.
  expect(screen).toContain('Counted 0, 0 → 0, 1');
});

test('a figure is told once for its place', async () => {
  const screen = await corrected();
  expect(screen.match(/Reach \(Lower valve\) 24.0 ± 0.2 mm → 28.0/g)).toHaveLength(1);
  expect(screen).not.toContain('As told');
  expect(screen).not.toContain('(Upper valve)');
});
