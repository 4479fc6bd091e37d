/** What was seen and stops the work does not go away because another answer is changed. */
import { describe, expect, it } from 'vitest';
import { Bench, modelFrom } from './pump.js';

const model = modelFrom(`
procedure: closing
version: 1.0.0
title: Closing
summary: Invented.
places: [ { id: side, name: Side, instances: [ { id: a, label: Left }, { id: b, label: Right } ] } ]
phases: [ { id: work, title: Work } ]
steps:
  - id: plan
    phase: work
    at: job
    title: Plan
    do: Choose.
    why: So.
    ask:
      - { key: driven, kind: yes-no, label: It can be driven }
      - { key: careful, kind: yes-no, label: Slowly }
    gates: [ { id: slow, must: careful || hot_ahead, say: Go slowly., overrule: with-reason } ]
  - id: watch
    phase: work
    at: job
    title: Watch
    when: driven
    do: Read off.
    why: Heat kills.
    repeat: { until: "rows_watch >= 3.0", most: 5 }
    ask: [ { key: heat, kind: quantity, quantity: temperature, unit: degC, label: Heat, limits: [-50, 300] } ]
    gates:
      - { id: cool, at: enter, must: "!all_heat.exists(h, h > 70.0)", say: Too hot. Find out why., overrule: never }
      - { id: warm, at: enter, must: "!all_heat.exists(h, h < 0.0)", say: Too cold., overrule: with-reason }
  - id: ends
    phase: work
    at: job
    title: End
    do: Look.
    why: So.
    ask: [ { key: ended, kind: yes-no, label: Ended } ]
facts:
  - { key: hot_ahead, at: job, label: Hot, type: bool, is: "all_heat.exists(h, h > 90.0)" }
`);
const watched = (heat: string): Bench =>
  new Bench(model).answer('plan', 'job', { driven: 'yes', careful: 'yes' }).answer('watch', 'job', { heat });
const other = {
  do: 'correct',
  step: 'plan',
  place: 'job',
  key: 'driven',
  text: 'no',
  reason: 'the drive tripped',
} as const;

describe('a stop that nobody may overrule', () => {
  it('stays when another answer is corrected so that its step would be asked no more', () => {
    const b = watched('75');
    expect(b.status('watch', 'job')).toBe('stopped');
    expect(b.try(other)).toBe(
      '“Watch” stops the work and would be asked no more: Too hot. Find out why. First do what it says, or correct the reading that stops it.',
    );
    expect(b.status('watch', 'job')).toBe('stopped');
  });

  it('lets a misread reading be corrected, and then the other answer too', () => {
    const b = watched('75');
    const [reading] = b.entries.filter((e) => e.kind === 'answer' && e.key === 'heat');
    const read = {
      do: 'correct',
      step: 'watch',
      place: 'job',
      key: 'heat',
      of: reading!.seq,
      reason: 'misread',
    } as const;
    expect(b.try({ ...read, text: '25' })).toBeUndefined();
    expect(b.try(other)).toBeUndefined();
    expect(b.status('watch', 'job')).toBe('not-needed');
  });

  it('stays when the other answer is given again, where its own step is stopped', () => {
    const b = watched('95');
    b.do({ do: 'correct', step: 'plan', place: 'job', key: 'careful', text: 'no', reason: 'in fact at once' });
    const heat = b.entries.find((e) => e.kind === 'answer' && e.key === 'heat')!;
    // The plan is stopped too as soon as nothing speaks for going fast.
    b.do({ do: 'correct', step: 'watch', place: 'job', key: 'heat', of: heat.seq, text: '80', reason: 'misread' });
    expect(b.status('plan', 'job')).toBe('stopped');
    expect(b.try({ do: 'answer', step: 'plan', place: 'job', key: 'driven', text: 'no' })).toMatch(
      /“Watch” stops the work/,
    );
    expect(b.try({ do: 'answer', step: 'plan', place: 'job', key: 'careful', text: 'yes' })).toBeUndefined();
  });

  it('hinders nothing else: a stop with a reason, a step that stays', () => {
    expect(watched('-5').try(other)).toBeUndefined();
    expect(watched('20').try(other)).toBeUndefined();
    const b = watched('75');
    expect(b.try({ ...other, key: 'careful' })).toBeUndefined();
    expect(b.state.board.own(model.steps.get('watch')!, 'job').status).toBe('stopped');
  });
});
