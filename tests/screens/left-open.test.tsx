/** A guide that stands open over a night: what is asked first of whoever comes back is asked before any key counts. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep, openBench } from './bench.js';
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
/** What the guide does every few seconds. */
function ticks(b: Bench): boolean {
  const other = b.stack.pages.some((p) => p.time?.());
  if (other) b.stack.changed();
  return other;
}

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

const poured = step('pour', {
  ask: [{ key: 'mins', kind: 'number', label: 'Minutes', limits: [1, 90] }],
  wait: { minutes: 'mins', label: 'oil settling' },
});
const waiting = (): { lead: number } & Parameters<typeof openBench>[0] => {
  const set = {
    lead: 0,
    model: pump([poured, asks.choice]),
    entries: begun({}, [{ kind: 'answer', step: 'pour', place: 'job', key: 'mins', value: 10 }]),
    app: { lead: () => set.lead },
  };
  return set;
};
const hour = 3_600_000;
/** The clock is set, and no time passes. */
const setBy = (b: Bench, of: { lead: number }, ms: number): void => {
  b.clock.now += ms;
  of.lead += ms;
};

test('a clock that is set forward ends no wait: it is told, kept, and the wait goes on', async () => {
  const of = waiting();
  const b = await onStep(of);
  open.push(b);
  await b.waitFor('oil settling, 10 min left, until 08:10');
  b.clock.now += 120_000;
  setBy(b, of, hour);
  // A key that comes before the guide has looked finds the wait still there.
  await b.press('tab');
  await b.waitFor('oil settling, 8 min left');
  expect(ticks(b)).toBe(true);
  await b.waitFor('oil settling, 8 min left, until 09:10');
  await b.waitFor(
    'The clock of this computer was set forward by 1 h: waits go by the time that passed. Is it right now?',
  );
  expect(b.kept.entries.slice(2)).toMatchObject([{ kind: 'note', clock: { gained: hour } }]);
  ticks(b);
  expect(b.kept.entries).toHaveLength(3);
  b.clock.now += 7 * 60_000;
  ticks(b);
  await b.waitFor('oil settling, 1 min left');
  b.clock.now += 61_000;
  ticks(b);
  await b.waitFor('Blue');
  // It is no step: what is taken back is the reading before it.
  await b.press('u');
  await b.waitFor('Take back “Minutes: 10”?');
});

test('a computer that slept over the wait has let it pass', async () => {
  const of = waiting();
  const b = await onStep(of);
  open.push(b);
  await b.waitFor('oil settling, 10 min left');
  b.clock.now += hour / 2;
  ticks(b);
  await b.waitFor('Blue');
  expect(b.kept.entries).toHaveLength(2);
});

test('set back while it is open: what has passed is not lost, and setting it right again ends nothing early', async () => {
  const of = waiting();
  const b = await onStep(of);
  open.push(b);
  await b.waitFor('oil settling, 10 min left');
  b.clock.now += 240_000;
  setBy(b, of, -16 * hour);
  ticks(b);
  await b.waitFor('oil settling, 6 min left, until 16:10');
  await b.waitFor('The clock of this computer was set back by 16 h: waits go by the time that passed.');
  b.clock.now += 60_000;
  setBy(b, of, 16 * hour);
  ticks(b);
  await b.waitFor('oil settling, 5 min left, until 08:10');
  expect(b.kept.entries).toHaveLength(4);
});

test('opened by a clock that was set back: the wait counts anew from then and comes to its end by itself', async () => {
  const b = openBench({ ...waiting(), at: '2026-03-01T16:00:00Z' });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('oil settling, 10 min left, until 16:10');
  expect(b.kept.entries.slice(2)).toMatchObject([{ kind: 'note', clock: {} }]);
  await b.press('enter');
  b.clock.now += 11 * 60_000;
  ticks(b);
  await b.waitFor('Blue');
});

test('who may only look writes nothing of it down', async () => {
  const b = openBench({ ...waiting(), at: '2026-03-01T16:00:00Z', readOnly: 'It is open elsewhere.' });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('10 min left, counted anew once something is recorded (the clock of this computer was set back)');
  expect(b.kept.entries).toHaveLength(2);
});

test('where the time since the computer was started is not told, the clock is believed', async () => {
  const b = await onStep({ ...waiting(), app: { lead: () => Number.NaN } });
  open.push(b);
  await b.waitFor('oil settling, 10 min left');
  b.clock.now += 11 * 60_000;
  ticks(b);
  await b.waitFor('Blue');
  expect(b.kept.entries).toHaveLength(2);
});
