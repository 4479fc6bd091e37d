/** Long journals stay quick. Bounds are wide for slow machines; `node tests/engine/speed.mjs` tells the real times. */
import { expect, it } from 'vitest';
import type { Entry } from '../../src/engine/entry.js';
import { State } from '../../src/engine/state.js';
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
const took = (work: () => unknown): number => {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 5; i++) {
    const begun = performance.now();
    work();
    best = Math.min(best, performance.now() - begun);
  }
  return best;
};

it('20 000 entries are folded and shown in well under half a second, and time grows with their number', () => {
  const few = long(1000);
  const many = long(10_000);
  const time = (entries: Entry[]) => took(() => new State(pump, entries, Date.parse(entries.at(-1)!.at)).views);
  const [short, whole] = [time(few), time(many)];
  expect(new State(pump, many, 0).values.get('rows_run', 'job')).toMatchObject({ known: true, value: 10_000 });
  expect(whole).toBeLessThan(300);
  expect(whole).toBeLessThan(40 * Math.max(short, 0.5));
});

it('one entry more costs little', () => {
  const entries = long(10_000);
  const now = Date.parse(entries.at(-1)!.at);
  const before = new State(pump, entries.slice(0, -2), now);
  void before.views;
  expect(took(() => new State(pump, entries, now, { before }).views)).toBeLessThan(60);
});
