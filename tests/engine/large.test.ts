/** Long journals: the work grows with their number, counted in steps of work. `npm run bench` tells the times. */
import { expect, it } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import type { Model } from '../../src/procedure/model.js';
import { Bench, built, pump } from './pump.js';

function long(rows: number): Entry[] {
  const bench = built(new Bench()).answer('witness', 'job', { looks: 'yes' });
  bench.do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
  const out = [...bench.entries];
  for (let i = 0; i < rows; i++)
    for (const [key, value] of [['leak', 9] as const, ['noise', false] as const])
      out.push({
        kind: 'answer',
        step: 'run',
        place: 'job',
        by: 'AP',
        key,
        value,
        seq: out.length + 1,
        at: new Date(bench.now + i * 60_000).toISOString(),
      });
  return out;
}

/** The procedure, with each evaluation of a condition counted. */
function counting(): { model: Model; runs: () => number } {
  let count = 0;
  const model: Model = {
    ...pump,
    expression: (text) => {
      const e = pump.expression(text);
      return {
        ...e,
        run: (values) => {
          count += 1;
          return e.run(values);
        },
      };
    },
  };
  return { model, runs: () => count };
}

/** Entries that count how often a field of one of them is read. */
function watched(entries: readonly Entry[]): { list: Entry[]; reads: () => number } {
  let count = 0;
  const list = entries.map(
    (e) =>
      new Proxy(e, {
        get(target, name) {
          count += 1;
          return Reflect.get(target, name);
        },
      }),
  );
  return { list, reads: () => count };
}

function workOn(rows: number): { reads: number; runs: number } {
  const { list, reads } = watched(long(rows));
  const { model, runs } = counting();
  const state = new State(model, list, Date.parse('2026-03-02T12:00:00Z'));
  expect(state.views.length).toBeGreaterThan(0);
  return { reads: reads(), runs: runs() };
}

it('ten times as many entries are ten times the work and no more conditions', () => {
  const few = workOn(1000);
  const many = workOn(10_000);
  expect(new State(pump, long(10_000), 0).values.get('rows_run', 'job')).toMatchObject({ known: true, value: 10_000 });
  expect(many.reads).toBeLessThan(11 * few.reads);
  expect(many.runs).toBe(few.runs);
});

it('one entry more costs a few conditions, and of the others a look at the log that it is in', () => {
  const { list, reads } = watched(long(10_000));
  const { model, runs } = counting();
  const now = Date.parse('2026-03-02T12:00:00Z');
  const before = new State(model, list.slice(0, -2), now);
  void before.views;
  const [read, run] = [reads(), runs()];
  void new State(model, list, now, { before }).views;
  expect(reads() - read).toBeLessThan(read / 2);
  expect(runs() - run).toBeLessThan(run);
});
