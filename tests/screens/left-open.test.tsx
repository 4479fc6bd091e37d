/** A guide that stands open over a night: what is asked first of whoever comes back is asked before any key counts. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const lock = step('lock', { hazard: true, caution: ['Live parts kill.'] });
const own = step('own-lock', {
  hazard: true,
  caution: ['Live parts kill.'],
  anew: { each: 'sitting', after: ['lock'] },
  ask: [{ key: 'own', kind: 'yes-no', label: 'My own lock hangs' }],
});
const model = pump([lock, own, asks.choice, asks.danger, asks.end]);
const locked = [
  { kind: 'caution', step: 'lock', place: 'job' },
  { kind: 'done', step: 'lock', place: 'job' },
];
async function bench(more: readonly Record<string, unknown>[] = []): Promise<Bench> {
  const b = await onStep({ model, entries: begun({}, [...locked, ...more]) });
  open.push(b);
  return b;
}
const red = { kind: 'answer', step: 'colour', place: 'job', key: 'colour', value: 'red' };
const ticks = (b: Bench): boolean => b.stack.pages.some((p) => p.time?.());

test('the first key after a night answers nothing, and the own lock stands there', async () => {
  const b = await bench();
  await b.waitFor('Blue');
  b.clock.now += 14 * 3_600_000;
  await b.press('1');
  await b.waitFor('Live parts kill.');
  expect(b.kept.entries).toHaveLength(3);
  await b.waitFor('Nothing was recorded for 14 h: this comes first, then what stood here.');
  await b.press('9');
  await b.waitFor('My own lock hangs');
  await b.press('1', '9');
  await b.waitFor('Blue');
  await b.press('1');
  expect(b.kept.entries.slice(3)).toMatchObject([
    { kind: 'caution', step: 'own-lock' },
    { kind: 'answer', step: 'own-lock', key: 'own', value: true },
    { kind: 'done', step: 'own-lock' },
    { kind: 'answer', step: 'colour', value: 'red' },
  ]);
});

test('a danger that stood there over night is not confirmed by the first key', async () => {
  const b = await bench([red]);
  await b.waitFor('Hot steam');
  b.clock.now += 14 * 3_600_000;
  await b.press('9');
  await b.waitFor('Live parts kill.');
  expect(b.kept.entries).toHaveLength(4);
});

test('the screen changes by itself when the hour is over, not before; a step chosen out of turn gives way too', async () => {
  const b = await bench([red]);
  await b.waitFor('Hot steam');
  b.desk().pinned = { step: 'danger', place: 'job' };
  b.clock.now += 59 * 60_000;
  expect(ticks(b)).toBe(false);
  b.clock.now += 2 * 60_000;
  expect(ticks(b)).toBe(true);
  b.stack.changed();
  await b.waitFor('Live parts kill.');
  await b.waitFor('Nothing was recorded for 1 h 01 min');
  // Nothing more changes until something is recorded.
  b.clock.now += 60_000;
  expect(ticks(b)).toBe(false);
});

test('a clock that was set back while the guide stood open counts as a long pause', async () => {
  const b = await bench();
  await b.waitFor('Blue');
  b.clock.now -= 3 * 3_600_000;
  await b.press('1');
  await b.waitFor('Live parts kill.');
  await b.waitFor('How long nothing was recorded is not known: this comes first');
  expect(b.kept.entries).toHaveLength(3);
});

test('a step that has to be begun in time is stopped by the first key after that time', async () => {
  const wet = step('wet', { ask: [{ key: 'wet', kind: 'yes-no', label: 'It is wet' }] });
  const soon = step('soon', {
    fresh: { after: 'wet', minutes: '10.0', say: 'Wet it again.' },
    ask: [{ key: 'soon', kind: 'yes-no', label: 'It went on' }],
  });
  const b = await onStep({
    model: pump([wet, soon, asks.end]),
    entries: begun({}, [{ kind: 'answer', step: 'wet', place: 'job', key: 'wet', value: true }]),
  });
  open.push(b);
  await b.waitFor('It went on');
  b.clock.now += 20 * 60_000;
  await b.press('1');
  await b.waitFor('Wet it again.');
  expect(b.kept.entries).toHaveLength(2);
});
