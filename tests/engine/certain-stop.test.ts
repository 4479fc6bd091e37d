/** A stop that holds whatever is still to be answered is told at once, and no doubt about its value comes before it. */
import { describe, expect, it } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import { certainStops } from '../../src/engine/state/certain-stop.js';
import { Bench, modelFrom } from './pump.js';

const reading = (key: string, more = '') =>
  `{ key: ${key}, kind: quantity, quantity: temperature, unit: degC, label: "${key}", plausible: [10, 60], limits: [-50, 300]${more} }`;
const sound =
  '{ key: sound, kind: choice, label: Sound, options: [ { value: smooth, label: Smooth }, { value: rough, label: Rough } ] }';
const procedure = (hazard: boolean): string => `
procedure: certain
version: 1.0.0
title: Certain
summary: Invented.
places: [ { id: side, name: Side, instances: [ { id: a, label: Left }, { id: b, label: Right } ] } ]
phases: [ { id: work, title: Work } ]
branches: [ { id: spike, at: job, title: Spike, mark: It got hot. } ]
steps:
  - id: plan
    phase: work
    at: job
    title: Plan
    do: Choose.
    why: So.
    ask: [ { key: driven, kind: yes-no, label: It can be driven } ]
  - id: log
    phase: work
    at: job
    title: Log
    when: driven
    do: Read off.
    why: Heat kills.
    hazard: ${hazard}
    caution: [ "WARNING: It hurts: keep away." ]
    repeat: { until: "rows_log >= 3.0", most: 5 }
    ask:
      - ${reading('left', ', near: "20.0"')}
      - ${reading('right', ', near: "20.0"')}
      - ${sound}
    gates:
      - { id: cool, at: enter, must: "rows_log == 0.0 || max(last(all_left), last(all_right)) < 70.0 || rows_log_at_spike >= rows_log", say: "Switch off. Left {last_left}.", overrule: never }
      - { id: apart, at: enter, must: "rows_log == 0.0 || last(all_left) - last(all_right) < 25.0", say: Too far apart., overrule: never }
      - { id: noise, at: enter, must: "!all_sound.exists(s, s == 'rough')", say: It is rough., overrule: never }
      - { id: cold, at: enter, must: "rows_log == 0.0 || last(all_left) > 5.0", say: Too cold., overrule: with-reason }
      - { id: frozen, at: enter, must: "rows_log == 0.0 || last(all_left) > -20.0", say: Frozen., at_once: true, overrule: with-reason }
  - id: volts
    phase: work
    at: job
    title: Volts
    do: Measure.
    why: It kills.
    hazard: ${hazard}
    caution: [ "WARNING: It hurts: keep away." ]
    ask:
      - { key: volts, kind: quantity, quantity: voltage, unit: V, label: Volts, plausible: [0, 1], limits: [0, 1000] }
      - { key: locked, kind: yes-no, label: Locked, otherwise: false }
      - { key: words, kind: text, label: Words, optional: true }
    gates:
      - { id: dead, must: volts < 10.0, say: "{volts}: step back.", overrule: never }
      - { id: lock, must: locked, say: Lock it., overrule: never }
  - id: cooled
    phase: work
    at: job
    branch: spike
    title: Cooled
    do: Wait.
    why: So.
    ask: [ { key: cold, kind: yes-no, label: Cold } ]
facts:
  - { key: last_left, at: job, label: Left, quantity: temperature, is: last(all_left) }
`;
const model = modelFrom(procedure(true));
const calm = modelFrom(procedure(false));

const driven = (of = model): Bench =>
  new Bench(of).answer('plan', 'job', { driven: 'yes' }).do({ do: 'caution', step: 'log', place: 'job' });
const spike = (b: Bench): Bench =>
  b.do({ do: 'raise', branch: 'spike', place: 'job', text: '' }).answer('cooled', 'job', { cold: 'yes' });
const unusual = (b: Bench, step: string, key: string, text: string): string | undefined => {
  const p = propose(b.state, { do: 'answer', step, place: 'job', key, text }, 'AP');
  if (!p.ok) throw new Error(p.message);
  return p.unusual;
};
const told = (b: Bench, step = 'log'): string[] =>
  certainStops(b.state, b.state.board.own(b.state.model.steps.get(step)!, 'job')).map((s) => s.says);

describe('a reading that stops a dangerous log', () => {
  it('is not doubted before the stop is told, in the first row and in later ones', () => {
    const b = driven();
    expect(unusual(b, 'log', 'left', '76')).toBeUndefined();
    b.answer('log', 'job', { left: '22', right: '21', sound: 'smooth' });
    expect(unusual(b, 'log', 'left', '76')).toBeUndefined();
    b.answer('log', 'job', { left: '22' });
    expect(unusual(b, 'log', 'right', '76')).toBeUndefined();
  });
  it('is still doubted where it stops nothing, or only what may be overruled', () => {
    const b = driven();
    expect(unusual(b, 'log', 'left', '65')).toMatch(/Read it once more/);
    expect(unusual(b, 'log', 'left', '-9')).toMatch(/Read it once more/);
  });
  it('is told before the rest of its row, by what is known', () => {
    const b = driven().answer('log', 'job', { left: '76' });
    expect(told(b)).toEqual(['Switch off. Left 76 °C.']);
    expect(b.state.view('log', 'job')).toMatchObject({ wants: 'question', status: 'open' });
    b.answer('log', 'job', { right: '22' });
    expect(told(b)).toEqual(['Switch off. Left 76 °C.', 'Too far apart.']);
    b.answer('log', 'job', { sound: 'smooth' });
    expect(b.status('log', 'job')).toBe('stopped');
    expect(told(b)).toEqual([]);
  });
  it('is not told while another answer may still let it go', () => {
    const b = driven().answer('log', 'job', { left: '50' });
    expect(told(b)).toEqual([]);
    expect(told(driven().answer('log', 'job', { left: '-9' }))).toEqual([]);
  });
  it('is told as early where it may be overruled and says that it cannot wait; the reason is given once the row is whole', () => {
    const b = driven().answer('log', 'job', { left: '-25' });
    expect(told(b)).toEqual(['Frozen.']);
    expect(unusual(driven(), 'log', 'left', '-25')).toMatch(/Read it once more/);
    b.answer('log', 'job', { right: '22', sound: 'smooth' });
    expect(b.status('log', 'job')).toBe('stopped');
    expect(told(b)).toEqual([]);
  });
  it('stays on record: no undo lifts it, a correction with its reason does', () => {
    const b = driven().answer('log', 'job', { left: '76' });
    expect(b.try({ do: 'undo' })).toBe('“left: 76 °C” stops the work and stays on record; correct it with a reason.');
    b.correct('log', 'job', 'left', '26');
    expect(told(b)).toEqual([]);
    b.answer('log', 'job', { right: '22', sound: 'smooth' });
    expect(b.status('log', 'job')).toBe('open');
    expect(b.try({ do: 'undo' })).toBeUndefined();
  });
  it('lets an undo pass that takes away nothing of it', () => {
    const b = driven().answer('log', 'job', { left: '76', right: '60' });
    expect(told(b)).toEqual(['Switch off. Left 76 °C.']);
    expect(b.try({ do: 'undo' })).toBeUndefined();
    expect(told(b)).toEqual(['Switch off. Left 76 °C.']);
  });
  it('is not hidden by another answer that asks its step no more', () => {
    const b = driven().answer('log', 'job', { left: '76' });
    expect(
      b.try({ do: 'correct', step: 'plan', place: 'job', key: 'driven', text: 'no', reason: 'the drive tripped' }),
    ).toBe(
      '“Log” stops the work and would be asked no more: Switch off. Left 76 °C. First do what it says, or correct the reading that stops it.',
    );
  });
  it('counts as read before the event that was reported for it, though its row was ended later', () => {
    const b = driven().answer('log', 'job', { left: '76', right: '60' });
    spike(b).answer('log', 'job', { sound: 'smooth' });
    expect(b.value('rows_log_at_spike', 'job')).toBe(1);
    expect(b.status('log', 'job')).toBe('open');
    // Read after the event it counts anew.
    b.answer('log', 'job', { left: '76', right: '60', sound: 'smooth' });
    expect(b.status('log', 'job')).toBe('stopped');
  });
  it('with a figure missing at the event is none that was read before it', () => {
    const b = driven().answer('log', 'job', { left: '76' });
    spike(b).answer('log', 'job', { right: '60', sound: 'smooth' });
    expect(b.value('rows_log_at_spike', 'job')).toBe(0);
    expect(b.status('log', 'job')).toBe('stopped');
  });
});

describe('a reading that stops a dangerous step', () => {
  const dead = (of = model): Bench =>
    new Bench(of).answer('plan', 'job', { driven: 'no' }).do({ do: 'caution', step: 'volts', place: 'job' });
  it('is told at once, and what only counts until it is answered stops nothing', () => {
    const b = dead();
    expect(told(b, 'volts')).toEqual([]);
    expect(unusual(b, 'volts', 'volts', '230')).toBeUndefined();
    expect(unusual(b, 'volts', 'volts', '5')).toMatch(/Read it once more/);
    b.answer('volts', 'job', { volts: '0' });
    expect(told(b, 'volts')).toEqual([]);
  });
  it('is told while the rest is asked', () => {
    expect(told(dead().answer('volts', 'job', { volts: '230' }), 'volts')).toEqual(['230 V: step back.']);
  });
  it('answered again with what stops it all the same is doubted once more', () => {
    const b = dead().answer('volts', 'job', { volts: '230', locked: 'yes', words: '' });
    expect(b.status('volts', 'job')).toBe('stopped');
    expect(unusual(b, 'volts', 'volts', '231')).toMatch(/Read it once more/);
  });
});

it('where nothing can hurt, a value that is unusual is doubted first', () => {
  const b = driven(calm);
  expect(unusual(b, 'log', 'left', '76')).toMatch(/Read it once more/);
  b.answer('log', 'job', { left: '76' });
  expect(told(b)).toEqual([]);
});
