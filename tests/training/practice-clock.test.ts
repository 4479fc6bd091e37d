/** Time that is let pass in practice: kept in the job's own entries, and never in real work. */
import { describe, expect, it } from 'vitest';
import { PracticeClock } from '../../src/commands/practice-clock.js';
import type { Draft, Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { phaseTimes } from '../../src/training/phase-times.js';
import { modelOfRotor, rotorNamed } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const MINUTE = 60_000;
const START = Date.parse('2026-03-02T08:00:00Z');
const rotor = rotorNamed('quiet-one');
const model = modelOfRotor(rotor);

const job = (practice: string | undefined, minutes: number): Entry[] => [
  {
    seq: 1,
    at: new Date(START + minutes * MINUTE).toISOString(),
    kind: 'job',
    name: 'Job',
    procedure: rotor.procedure,
    version: '1.0.0',
    hash: 'x',
    by: 'AP',
    ...(practice ? { practice } : {}),
  },
];
const answer = (step: string, key: string): Draft => ({ kind: 'answer', step, place: 'job', key, value: 1, by: 'AP' });

describe('the clock', () => {
  it('is the computer’s in real work, whatever is asked of it', () => {
    const clock = new PracticeClock(() => START);
    clock.begin(job(undefined, 90));
    clock.knows(model);
    clock.pass(30);
    clock.before([answer('run-in-log', 'log_stage')]);
    expect(clock.now()).toBe(START);
  });
  it('notes when a key was pressed by the computer’s clock, however much time was let pass', () => {
    let wall = START;
    const clock = new PracticeClock(() => wall);
    clock.begin(job('quiet-one', 0));
    clock.worksOn();
    clock.pass(200);
    wall += 3 * MINUTE;
    expect(clock.noted({ by: 'LK' })).toEqual({ by: 'LK', keys: 3, touched: '2026-03-02T08:03:00.000Z' });
    clock.begin(job(undefined, 0));
    expect(clock.noted({ by: 'LK' })).toEqual({ by: 'LK' });
  });
  it('notes no key before the one before it, on a laptop whose clock is behind or is put back meanwhile', () => {
    let wall = START - 180 * MINUTE;
    const clock = new PracticeClock(() => wall);
    clock.begin(job('quiet-one', 0));
    clock.worksOn({ touched: new Date(START).toISOString() });
    wall += 5 * MINUTE;
    expect(clock.noted({})).toEqual({ keys: 5, touched: '2026-03-02T08:05:00.000Z' });
    wall -= 60 * MINUTE;
    expect(clock.noted({})).toEqual({ keys: 5, touched: '2026-03-02T08:05:00.000Z' });
    wall += MINUTE;
    expect(clock.noted({})).toEqual({ keys: 6, touched: '2026-03-02T08:06:00.000Z' });
  });
  it('lets time pass in practice, and goes on from there when the job is opened again', () => {
    const clock = new PracticeClock(() => START);
    clock.begin(job('quiet-one', 0));
    clock.pass(15);
    expect(clock.now()).toBe(START + 15 * MINUTE);
    clock.end();
    expect(clock.now()).toBe(START);
    clock.begin(job('quiet-one', 15));
    expect(clock.now()).toBe(START + 15 * MINUTE);
  });
  it('gives a reading of a log its five minutes, once a row', () => {
    const clock = new PracticeClock(() => START);
    clock.begin(job('quiet-one', 0));
    clock.knows(model);
    clock.before([answer('machine', 'machine')]);
    expect(clock.now()).toBe(START);
    clock.before([answer('run-in-log', 'log_stage')]);
    clock.before([answer('run-in-log', 'temp_a')]);
    expect(clock.now()).toBe(START + 5 * MINUTE);
  });
  it('is set back to the computer’s by the next real job', () => {
    const clock = new PracticeClock(() => START);
    clock.begin(job('quiet-one', 500));
    clock.begin(job(undefined, 0));
    expect(clock.now()).toBe(START);
  });
});

describe('the time that each phase took', () => {
  const { state, entries } = walk(model, rotor, planFor(rotorNamed('quiet-one'), 'caught'));
  it('adds up to the whole, breaks apart', () => {
    const times = phaseTimes(state);
    const whole = (Date.parse(entries.at(-1)!.at) - Date.parse(entries[0]!.at)) / MINUTE;
    expect(times.phases.reduce((n, p) => n + p.minutes, 0) + times.away).toBeCloseTo(whole, 6);
    expect(times.phases.map((p) => p.phase)).toEqual(model.procedure.phases.map((p) => p.id));
  });
  it('is in the run-in a minute to the first reading, five to each other, and a second for each entry besides', () => {
    const rows = state.values.completeRows('run-in-log', 'job').length;
    const runIn = phaseTimes(state).phases.find((p) => p.phase === 'run-in');
    // A reading is three entries, the first of which is made when its five minutes are over.
    const seconds = runIn?.entries ?? 0;
    expect(runIn?.minutes).toBeCloseTo(1 + 5 * (rows - 1) + seconds / 60, 6);
  });
  it('leaves a night out', () => {
    const night = entries.map((e, i) =>
      i < 100 ? e : { ...e, at: new Date(Date.parse(e.at) + 16 * 60 * MINUTE).toISOString() },
    );
    const times = phaseTimes(new State(model, night, state.now));
    expect(times.away).toBeGreaterThan(16 * 60);
    expect(times.away).toBeLessThan(16 * 60 + 25);
  });
});
