/** A job that is open in another window too: what stands here keeps up with it, and nothing is offered that can't be done. */
import { expect, test } from 'vitest';
import { onStep, openBench } from './bench.js';
import { asks, begun, pump } from './pump.js';

const red = { kind: 'answer', step: 'colour', place: 'job', key: 'colour', value: 'red' };
const why = 'This job is open in another window (AP), so it can only be looked at here.';

test('what the other window records stands here after the next look', async () => {
  const b = await onStep({ model: pump([asks.choice, asks.number, asks.end]), entries: begun(), readOnly: why });
  await b.waitFor('Title of colour');
  const { job } = b.desk();
  const more = begun({}, [red]);
  Object.assign(job, {
    reread: () => {
      const other = b.kept.entries !== more;
      b.kept.entries = more;
      return other;
    },
  });
  expect(b.stack.pages.some((p) => p.time?.())).toBe(true);
  b.stack.changed();
  await b.waitFor('Title of bolts');
  expect(b.stack.pages.some((p) => p.time?.())).toBe(false);
  b.end();
});

test('taking back is not offered there, and refused by its first key', async () => {
  const b = await onStep({ model: pump([asks.choice, asks.end]), entries: begun({}, [red]), readOnly: why });
  await b.waitFor('Title of end');
  expect(b.screen()).not.toContain('u undo');
  await b.press('u');
  await b.waitFor((s) => s.split('is open in another window').length > 2 && !s.includes('Take back'));
  b.end();
});

test('a name that an open job has is told at once', async () => {
  const b = openBench({ model: pump([asks.choice, asks.end]), entries: begun({}, [red]), at: '2026-03-02T12:49:00Z' });
  await b.ready();
  await b.press('2');
  await b.waitFor('Name of the job');
  await b.press(...'bench job'.split(''), 'enter');
  await b.waitFor('A job “Bench job” is open, last worked on 08:00');
  await b.waitFor('Go on with it from the first screen, or type another name, such as “Bench job 2”.');
  await b.press(' ', '2', 'enter');
  await b.waitFor('Your initials');
  b.end();
});
