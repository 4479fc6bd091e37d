/** Taking back: allowed, but never for the reading that stops the work; and nothing vanishes from the sheet. */
import { describe, expect, it } from 'vitest';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { Bench, modelFrom } from './pump.js';

const model = modelFrom(`
procedure: stops
version: 1.0.0
title: Stops
summary: Invented.
places: [ { id: side, name: Side, instances: [ { id: a, label: Left }, { id: b, label: Right } ] } ]
phases: [ { id: work, title: Work } ]
branches:
  - { id: rattle, at: side, title: It rattles, mark: It rattled., reopens: [lock] }
steps:
  - id: rattle-stop
    phase: work
    at: side
    branch: rattle
    title: Rattle
    do: Find it.
    why: It breaks.
    ask: [ { key: rattle_gone, kind: yes-no, label: Rattle gone } ]
    mark: "Rattle gone: {rattle_gone}"
    gates: [ { id: gone, at: enter, must: calm, say: Wait until it is calm., overrule: never } ]
  - id: calm-down
    phase: work
    at: job
    title: Calm
    do: Look.
    why: So.
    ask: [ { key: calm, kind: yes-no, label: Calm } ]
  - id: lock
    phase: work
    at: job
    title: Lock out
    do: Lock it.
    why: It kills.
    ask:
      - { key: locked, kind: yes-no, label: Locked out }
      - { key: note_of, kind: text, label: By whom, optional: true }
    gates: [ { id: locked, must: locked, say: Lock it first., overrule: never } ]
  - id: tidy
    phase: work
    at: job
    title: Tidy
    do: Tidy.
    why: So.
    ask: [ { key: tidied, kind: yes-no, label: Tidied } ]
    gates: [ { id: tidied, must: tidied, say: Tidy first., overrule: with-reason } ]
  - id: watch
    phase: work
    at: job
    title: Watch
    do: Read off.
    why: Heat kills.
    repeat: { until: "rows_watch >= 2.0", most: 5 }
    ask: [ { key: heat, kind: quantity, quantity: temperature, unit: degC, label: Heat, limits: [-50, 300] } ]
    gates: [ { id: cool, at: enter, must: "!all_heat.exists(h, h > 70.0)", say: Too hot., overrule: never } ]
`);
const undo = { do: 'undo' } as const;
const begun = (): Bench => new Bench(model).answer('calm-down', 'job', { calm: 'no' });

describe('undo', () => {
  it('can be taken back itself, one after the other, until something else is recorded', () => {
    const b = begun().answer('lock', 'job', { locked: 'yes', note_of: 'AP' });
    const redo = { do: 'redo' } as const;
    expect(b.try(redo)).toMatch(/nothing to bring back/);
    const before = b.value('note_of', 'job');
    b.do(undo).do(undo);
    expect([b.value('note_of', 'job'), b.value('locked', 'job')]).toEqual([undefined, undefined]);
    b.do(redo);
    expect([b.value('note_of', 'job'), b.value('locked', 'job')]).toEqual([undefined, true]);
    b.do(redo);
    expect(b.value('note_of', 'job')).toBe(before);
    expect(b.try(redo)).toMatch(/nothing to bring back/);
    b.do(undo).do(redo).do(undo);
    expect(b.value('note_of', 'job')).toBeUndefined();
    expect(sheetOf(b.state).undone).toBe(1);
    b.answer('lock', 'job', { note_of: 'MN' });
    expect(b.try(redo)).toMatch(/nothing to bring back/);
  });

  it('of a step leaves word for whoever comes next where it is', () => {
    const b = begun().answer('lock', 'job', { locked: 'yes' }).do({ do: 'handover', text: 'Mind the lid' }).do(undo);
    expect(b.state.ledger.handover?.text).toBe('Mind the lid');
    expect(b.value('locked', 'job')).toBeUndefined();
  });

  it('takes back what stops nothing, and what a stop with a reason holds on', () => {
    const b = begun();
    expect(b.try(undo)).toBeUndefined();
    b.answer('calm-down', 'job', { calm: 'no' }).answer('lock', 'job', { locked: 'yes', note_of: 'AP' });
    b.answer('tidy', 'job', { tidied: 'no' });
    expect(b.status('tidy', 'job')).toBe('stopped');
    expect(b.try(undo)).toBeUndefined();
  });

  it('leaves the answer that stops the work on record; it is answered again or corrected', () => {
    const b = begun().answer('lock', 'job', { locked: 'no' });
    const stays = /“Locked out: no” stops the work and stays on record; answer again, or correct it with a reason/;
    // The stop is seen before the step's other question is answered, and after.
    expect(b.try(undo)).toMatch(stays);
    b.answer('lock', 'job', { note_of: 'AP' });
    expect(b.status('lock', 'job')).toBe('stopped');
    expect(b.try(undo), 'the answer beside it').toBeUndefined();
    expect(b.try(undo)).toMatch(stays);
    b.answer('lock', 'job', { note_of: '', locked: 'yes' });
    expect(b.try(undo), 'the answer that opened it').toBeUndefined();
    b.do({ do: 'correct', step: 'lock', place: 'job', key: 'locked', text: 'yes', reason: 'was locked by then' });
    expect(sheetOf(b.state).corrections).toHaveLength(1);
  });

  it('is free while what is still to be asked may be answered either way; of a row it says no answer that is not it', () => {
    const drive = modelFrom(`
procedure: drive
version: 1.0.0
title: Drive
summary: Invented.
places: []
phases: [ { id: work, title: Work } ]
steps:
  - id: plan
    phase: work
    at: job
    title: Plan
    do: Bolt it down.
    why: So.
    ask:
      - { key: by_hand, kind: yes-no, label: Driven by hand }
      - { key: fit, kind: yes-no, label: Bolted down, when: "!by_hand", otherwise: false }
    gates: [ { id: fit, must: by_hand || fit, say: Not fit., overrule: never } ]
  - id: log
    phase: work
    at: job
    title: Log
    do: Read it.
    why: So.
    repeat: { until: rows_log >= 9.0, most: 9 }
    ask:
      - { key: heat, kind: quantity, quantity: temperature, unit: degC, label: Heat, limits: [0, 99], plus_minus: 1 }
      - { key: loud, kind: yes-no, label: Loud }
    gates: [ { id: hot, at: enter, must: "rows_log == 0.0 || last(all_heat) < 70.0", say: Hot., overrule: never } ]
`);
    const b = new Bench(drive).answer('plan', 'job', { by_hand: 'no' });
    expect(b.try(undo)).toBeUndefined();
    b.answer('plan', 'job', { by_hand: 'no', fit: 'yes' }).answer('log', 'job', { heat: '75', loud: 'no' });
    expect(b.try(undo)).toBe('This reading stops the work and stays on record; correct it with a reason.');
  });

  it('leaves a reading of a log, and an event, that stop the work', () => {
    const b = begun().answer('lock', 'job', { locked: 'yes', note_of: '' }).answer('tidy', 'job', { tidied: 'yes' });
    b.answer('watch', 'job', { heat: '75' });
    expect(b.try(undo)).toMatch(/“Heat: 75 °C” stops the work and stays on record; correct it with a reason/);
    const c = begun();
    c.do({ do: 'raise', branch: 'rattle', place: 'a' });
    expect(c.try(undo)).toMatch(/“It rattles” stops the work and stays on record/);
  });
});

it('the sheet lists what was taken back, with value, time and initials', () => {
  const b = begun().answer('lock', 'job', { locked: 'yes', note_of: 'Kim' }).do(undo);
  b.answer('lock', 'job', { note_of: 'Robin' });
  const given = b.entries.find((e) => e.kind === 'answer' && e.value === 'Kim')!;
  const back = b.entries.find((e) => e.kind === 'undo')!;
  const sheet = sheetOf(b.state);
  expect(sheet.takenBack).toEqual([
    {
      place: 'job',
      where: '',
      title: 'Lock out',
      what: 'By whom',
      text: 'Kim',
      at: given.at,
      by: 'AP',
      back: { at: back.at, by: 'AP' },
    },
  ]);
  for (const text of [toMarkdown(sheet), toHtml(sheet)]) {
    expect(text).toContain('Kim');
    expect(text).toContain('Taken back');
  }
});
