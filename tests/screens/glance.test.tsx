/** What stands where a job is opened again: who comes in the morning learns what was gone on against, before what waits. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const model = pump([
  asks.gated,
  step('dose', {
    decision: true,
    ask: [{ key: 'dose', kind: 'number', label: 'Strokes', limits: [1, 90] }],
  }),
  step('glue', {
    ask: [{ key: 'mins', kind: 'number', label: 'Minutes', limits: [1, 90] }],
    wait: { minutes: 'mins', label: 'glue setting' },
  }),
  asks.end,
]);
const at = (of: string, more: Record<string, unknown>) => ({ step: of, place: 'job', ...more });

test('what a stop says first stands where everything stands', async () => {
  const entries = begun({}, [at('gated', { kind: 'answer', key: 'tight', value: false })]);
  const b = openBench({ model, entries });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('go on');
  expect(b.screen().replace(/\s+/g, ' ')).toContain('STOP Whole job, Title of gated: Tighten it first.');
});

test('of a job that is later than the clock both times are told with their days', async () => {
  const clock = Date.parse('2026-03-01T08:00:00Z');
  const entries = begun({}, [at('dose', { kind: 'answer', key: 'dose', value: 9 })]).map((e) => ({
    ...e,
    at: '2026-03-02T09:30:00Z',
  }));
  const b = openBench({ model, entries, app: { now: () => clock } });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('go on');
  expect(b.screen().replace(/\s+/g, ' ')).toContain(
    'Last worked on Mon 09:30 by AP: later than this laptop’s clock (Sun 08:00).',
  );
});

test.each([
  [24, 80],
  [20, 60],
])('in %i rows of %i columns an overruled stop and a changed decision stand before the waits', async (rows, cols) => {
  const entries = begun({}, [
    at('gated', { kind: 'answer', key: 'tight', value: false }),
    at('gated', { kind: 'overrule', gate: 'tight', reason: 'no key here', initials: 'RK' }),
    at('dose', { kind: 'answer', key: 'dose', value: 9 }),
    at('dose', { kind: 'correct', key: 'dose', of: 4, value: 7, reason: 'misread' }),
    at('glue', { kind: 'answer', key: 'mins', value: 40 }),
  ]);
  const b = openBench({ model, entries, rows, cols });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('go on');
  const screen = b.screen().replace(/\s+/g, ' ');
  expect(screen).toMatch(/Gone on against a stop by RK: Title of gated \(Whole job\), no key here/);
  expect(screen).toMatch(/Changed by AP: Strokes: 9 → 7 \(Whole job\), misread/);
  expect(screen.indexOf('Gone on against')).toBeLessThan(screen.indexOf('glue setting, 40 min left'));
});
