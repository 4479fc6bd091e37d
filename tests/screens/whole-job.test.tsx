/** The whole job at one look, on the shipped procedure. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { replay } from '../../src/engine/replay/replay.js';
import { replaySchema } from '../../src/engine/replay/replay-file.js';
import { ahead, phaseRows } from '../../src/engine/state/ahead.js';
import { State } from '../../src/engine/state/state.js';
import { onStep } from './bench.js';
import { shippedModel } from './walk-job.js';

const file = replaySchema.parse(
  parse(readFileSync(new URL('../../procedures/practice/college-30kw.replay.yaml', import.meta.url), 'utf8')),
);

/** The practice job up to the first entry of a step. */
async function upTo(step: string) {
  const model = await shippedModel();
  const done = replay(model, file);
  if (!done.ok) throw new Error(done.message);
  const at = done.state.entries.findIndex((e) => 'step' in e && e.step === step);
  const entries = done.state.entries.slice(0, at).map((e) => (e.kind === 'job' ? { ...e, name: 'Bench job' } : e));
  return { model, entries };
}

test.each([
  [80, 24],
  [60, 20],
  [120, 40],
])('phases with both bearings side by side, at %i by %i', async (cols, rows) => {
  const { model, entries } = await upTo('white-cloth');
  const b = await onStep({ model, entries, cols, rows, at: entries.at(-1)?.at });
  await b.press('esc', 'o');
  const screen = await b.waitFor('To come:');
  expect(screen).toMatch(/Drive end +Non-drive/);
  expect(screen).toMatch(/\d+ of \d+/);
  await b.press('1');
  await b.waitFor('read ahead');
  b.end();
});

test('what is done and what is to come add up, and a wait counts', async () => {
  const { model, entries } = await upTo('white-cloth');
  const state = new State(model, entries, Date.parse(entries.at(-1)?.at ?? ''));
  const rows = phaseRows(state);
  const a = ahead(state);
  const sum = (of: (c: (typeof rows)[number]['cells'][number]) => number): number =>
    rows.flatMap((r) => r.cells).reduce((n, c) => n + of(c), 0);
  expect(sum((c) => c.total)).toBe(a.total);
  expect(sum((c) => c.done)).toBe(a.done);
  expect(rows[0]?.cells.every((c) => c.status === 'done' || c.status === 'none')).toBe(true);
  // The second bearing has just been washed: its solvent dries.
  expect(a.waits).toBeGreaterThan(0);
  expect(a.holds).toBeGreaterThan(0);
});

test('at the end nothing is left', async () => {
  const model = await shippedModel();
  const done = replay(model, file);
  expect(ahead(done.state)).toMatchObject({ waits: 0, openWaits: 0, logs: [], holds: 0, work: 0 });
  expect(ahead(done.state).done).toBe(ahead(done.state).total);
});
