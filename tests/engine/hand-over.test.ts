/** What is handed over from entry to entry says at each of them what the engine says that keeps or copies everything. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { replay } from '../../src/engine/replay/replay.js';
import { State } from '../../src/engine/state/state.js';
import { StopLog, stopsOf } from '../../src/engine/state/stops.js';
import { modelOf } from '../../src/procedure/model.js';
import { size } from '../setup/size.js';
import { Job } from '../shipped/good-job.js';
import { type Bench, pump, START } from './pump.js';
import { onward, snapshot, spreadNumbers, walked } from './walk.js';

const stopsNow = (state: State) =>
  state.board.stopped().map((v) => [v.step.id, v.place, v.gates.map((g) => g.gate.id)]);

/** Work with answers, corrections, overrules, events, waits, and now and then an undo or its undo. */
function worked(numbers: readonly number[]): Bench {
  const bench = walked([]);
  for (const n of numbers) {
    if (n % 13 === 5) bench.try({ do: 'undo' });
    else if (n % 13 === 6) bench.try({ do: 'redo' });
    else onward(bench, n, { corrections: true, overrules: true, branches: true });
  }
  return bench;
}

describe('handed over from entry to entry', () => {
  it('each state of any work says what one from its journal alone says', () => {
    let undone = 0;
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const { entries } = worked(spreadNumbers(seed, 90));
        let handed: State | undefined;
        entries.forEach((entry, i) => {
          const now = Date.parse(entry.at) + (i % 4 ? 0 : 600_000);
          const journal = entries.slice(0, i + 1);
          handed = new State(pump, journal, now, { before: handed, spent: true });
          // What is looked at differs from entry to entry, and so does what there is to hand over.
          if (i % 3) expect(stopsNow(handed)).toEqual(stopsNow(new State(pump, journal, now)));
          // What is next, before and after all that is behind it was looked at.
          const first = pump.places.map((p) => handed?.next(p.id));
          if (i % 4 === 0) expect(first).toEqual(pump.places.map((p) => handed?.available(p.id)[0]));
          if (i % 5 === 0) expect(snapshot(handed)).toEqual(snapshot(new State(pump, journal, now)));
          if (entry.kind === 'undo') undone++;
        });
        const end = Date.parse(entries.at(-1)!.at);
        const last = new State(pump, entries, end, { before: handed, spent: true });
        expect(snapshot(last)).toEqual(snapshot(new State(pump, entries, end)));
      }),
      { numRuns: size(12, 1_200) },
    );
    expect(undone).toBeGreaterThan(size(12, 1_200));
  });

  it('the last one is nobody else’s: what comes after it in copies leaves it as it is', () => {
    const { entries } = worked(spreadNumbers(29, 60));
    const handed = new State(pump, entries.slice(0, -1), START, { before: new State(pump, [], START), spent: true });
    const was = snapshot(handed);
    const more = new State(pump, entries, START, { before: handed });
    expect(snapshot(more)).toEqual(snapshot(new State(pump, entries, START)));
    expect(snapshot(handed)).toEqual(was);
  });

  it('an entry that was changed in between is no beginning: nothing is taken over', () => {
    const { entries } = worked(spreadNumbers(7, 40));
    const before = new State(pump, entries.slice(0, 20), START);
    void before.views;
    const other = entries.map((e, i) => (i === 19 ? { ...e, by: 'QQ' } : e));
    const state = new State(pump, other, START, { before, spent: true });
    expect(snapshot(state)).toEqual(snapshot(new State(pump, other, START)));
  });

  const bent = (): Job =>
    new Job()
      .before(
        'refit-back',
        'a',
        { raise: 'dose-wrong', at: 'a' },
        { step: 'dose-as-set', at: 'a', answers: { dose_fault: 'uncounted' } },
        { step: 'put-right', at: 'a', rows: [{ moved: 'taken-out', out_mass: '0.09 g' }] },
      )
      .before('cause', 'a', { raise: 'put-away', at: 'a' }, { step: 'put-away', at: 'a', answers: { kept: 'film' } });

  it.each<[string, () => Job]>([
    ['the whole practice job', () => new Job()],
    ['the same with two events', bent],
  ])('%s is judged entry by entry as by the living engine', (_, make) => {
    const job = make();
    // A model of its own: what a calculator or an expression came to last is kept with the model.
    const { procedure, hash, tables } = job.model;
    const own = modelOf(procedure, hash, tables, calculators);
    const log = new StopLog();
    let living: State | undefined;
    let entries = 0;
    const outcome = replay(job.model, job.file, {}, (then) => {
      log.add(then);
      living = new State(own, then.entries, then.now, { before: living });
      expect(stopsNow(then)).toEqual(stopsNow(living));
      if (++entries % 40 === 0) {
        expect(snapshot(then)).toEqual(snapshot(living));
        expect(snapshot(then)).toEqual(snapshot(new State(own, then.entries, then.now)));
      }
    });
    expect(outcome.ok ? '' : outcome.message).toBe('');
    expect(entries).toBe(outcome.state.entries.length);
    expect(snapshot(outcome.state)).toEqual(snapshot(new State(own, outcome.state.entries, outcome.state.now)));
    expect(log.lines).toEqual(stopsOf(outcome.state));
  });

  it('somebody else who is the first in the morning finds what a new start of the guide would ask of them', () => {
    const { model, file } = new Job();
    const { entries } = replay(model, file).state;
    for (const share of [0.3, 0.5, 0.7]) {
      const evening = entries.slice(0, Math.round(entries.length * share));
      const now = Date.parse(evening.at(-1)!.at) + 14 * 3_600_000;
      const come = {
        seq: evening.length + 1,
        at: new Date(now).toISOString(),
        kind: 'operator',
        by: 'BX',
        initials: 'BX',
      };
      const journal = [...evening, come as (typeof entries)[number]];
      const before = new State(model, evening, now);
      void before.views;
      expect(snapshot(new State(model, journal, now, { before }))).toEqual(snapshot(new State(model, journal, now)));
    }
  });

  it('jobs that begin alike go on from where the first stood, as if each began anew', () => {
    const dosed = (): Job => new Job().answer('dose', 'a', { dose_set: '2.5 mL' });
    const overruled = dosed();
    overruled.step('dose', 'a').overrule = { gate: 'dose-near', reason: 'looked empty', initials: 'MN' };
    const stained = new Job().unraise('emergency', 'job').answer('white-cloth', 'b', { cloth: 'stained' });
    const leaking = new Job().answer('run-in-accept', 'job', { leak: 'yes' });
    // Each leaves where it stood, and none may spoil what another goes on from.
    for (const job of [bent(), dosed(), overruled, stained, leaking, new Job().answer('cause', 'a', {}), new Job()]) {
      const whole = replay(job.model, job.file);
      const onward = job.run();
      expect(onward.ok ? '' : onward.message).toBe(whole.ok ? '' : whole.message);
      expect(onward.ok ? onward.warnings : onward.item).toEqual(whole.ok ? whole.warnings : whole.item);
      expect(onward.state.entries).toEqual(whole.state.entries);
      expect(snapshot(onward.state)).toEqual(snapshot(whole.state));
    }
  });
});
