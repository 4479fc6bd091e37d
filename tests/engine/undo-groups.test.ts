/** What one key takes back or brings back together, and which of several stops keeps a reading on record. */
import { describe, expect, it } from 'vitest';
import { lastTakenBackGroup, lastUndoable, lastUndoableGroup } from '../../src/engine/actions/undo.js';
import type { Draft } from '../../src/engine/journal/entry.js';
import { Bench, modelFrom } from './pump.js';

const undo = { do: 'undo' } as const;
const redo = { do: 'redo' } as const;
const seqs = (entries: readonly { readonly seq: number }[]): number[] => entries.map((e) => e.seq);
const note = (text: string): Draft => ({ kind: 'note', place: 'job', text, by: 'AP' });
const together = (text: string): Draft => ({ ...note(text), joined: true });

describe('what one key takes back', () => {
  // 1 the job, 2 alone, 3 to 5 by one key.
  const noted = (): Bench => new Bench().add(note('a'), note('b'), together('c'), together('d'));

  it('is all that one key recorded, the latest first, and no more', () => {
    const b = noted();
    expect(seqs(lastUndoableGroup(b.state))).toEqual([5, 4, 3]);
    b.do(undo);
    expect(seqs(lastUndoableGroup(b.state))).toEqual([2]);
  });

  it('passes by what stays: word for the next, the pace, a signature refused', () => {
    const b = noted().do({ do: 'handover', text: 'Mind the lid' }).do({ do: 'pace', pace: 'brisk' });
    b.add({ kind: 'refuse', step: 'witness', place: 'job', reason: 'too dark', initials: 'ZZ', by: 'AP' });
    expect([lastUndoable(b.state)?.seq, seqs(lastUndoableGroup(b.state))]).toEqual([5, [5, 4, 3]]);
  });

  it('comes back by one key too, one group after the other', () => {
    const b = noted().do(undo).do(undo);
    // 6 to 8 took back 5 to 3, 9 took back 2.
    expect(seqs(lastTakenBackGroup(b.state))).toEqual([9]);
    b.do(redo);
    expect(seqs(lastTakenBackGroup(b.state))).toEqual([8, 7, 6]);
    b.do(redo);
    expect(lastTakenBackGroup(b.state)).toEqual([]);
    expect(seqs(lastUndoableGroup(b.state))).toEqual([5, 4, 3]);
    b.do(undo);
    expect(seqs(lastTakenBackGroup(b.state))).toEqual([16, 15, 14]);
  });

  it('is nothing that came before the last thing recorded, whatever a journal says of it', () => {
    const b = noted().do(undo).add(note('e'));
    expect(lastTakenBackGroup(b.state)).toEqual([]);
    b.add({ kind: 'undo', of: 9, by: 'AP', joined: true });
    expect(seqs(lastTakenBackGroup(b.state))).toEqual([10]);
  });
});

const model = modelFrom(`
procedure: stops
version: 1.0.0
title: Stops
summary: Invented.
places: []
phases: [ { id: work, title: Work } ]
branches:
  - { id: rattle, at: job, title: It rattles, mark: It rattled., reopens: [lock] }
steps:
  - id: room
    phase: work
    at: job
    title: Room
    do: Look.
    why: So.
    ask:
      - { key: calm, kind: yes-no, label: Calm }
      - { key: big, kind: yes-no, label: Big }
  - id: rattle-stop
    phase: work
    at: job
    branch: rattle
    title: Rattle
    do: Find it.
    why: It breaks.
    ask: [ { key: rattle_gone, kind: yes-no, label: Rattle gone } ]
    mark: "Rattle gone: {rattle_gone}"
    gates: [ { id: quiet, at: enter, must: calm, say: Wait until it is calm., overrule: never } ]
  - id: lock
    phase: work
    at: job
    title: Lock out
    do: Lock it.
    why: It kills.
    ask: [ { key: locked, kind: yes-no, label: Locked out } ]
    gates:
      - { id: locked, must: locked, when: big, say: Lock it first., overrule: never }
      - { id: lit, must: calm, say: Wait until it is calm., overrule: never }
  - id: bore
    phase: work
    at: job
    title: Bore
    do: Measure.
    why: So.
    ask:
      - { key: bore, kind: quantity, quantity: length, unit: mm, label: Bore, limits: [5, 200] }
      - { key: stroke, kind: quantity, quantity: length, unit: mm, label: Stroke, limits: [5, 500] }
    gates: [ { id: small, must: swept <= 100.0, say: Too wide., overrule: never } ]
calcs:
  - { calc: cylinder, at: job, with: { bore: bore, stroke: stroke }, gives: { swept: swept, advice: swept_advice } }
`);
const room = (calm: string, big: string): Bench => new Bench(model).answer('room', 'job', { calm, big });

describe('a reading stays on record', () => {
  it('when it stops a step that is not its own', () => {
    const b = new Bench(model).answer('room', 'job', { calm: 'yes', big: 'yes' });
    b.do({ do: 'raise', branch: 'rattle', place: 'job' }).correct('room', 'job', 'calm', 'no');
    expect(b.status('rattle-stop', 'job')).toBe('stopped');
    expect(b.try(undo)).toBe(
      '“Calm: no” stops the work and stays on record; answer again, or correct it with a reason.',
    );
  });

  it('when it is one of several things that stop the work', () => {
    const b = room('no', 'yes').do({ do: 'raise', branch: 'rattle', place: 'job' });
    expect(b.status('rattle-stop', 'job')).toBe('stopped');
    expect(b.try(undo)).toBe(
      '“It rattles” stops the work and stays on record; do what it asks, or correct the reading that stops it.',
    );
    // The step itself has two stops, and the answer is one of them.
    const c = room('no', 'yes').answer('lock', 'job', { locked: 'no' });
    expect(c.state.view('lock', 'job')?.gates.map((g) => g.gate.id)).toEqual(['locked', 'lit']);
    expect(c.try(undo)).toMatch(/^“Locked out: no” stops the work and stays on record/);
  });

  it('when the calculator refuses what the gate asks of it, and not while a figure is only missing', () => {
    const b = room('yes', 'yes').answer('lock', 'job', { locked: 'yes' }).answer('bore', 'job', { bore: '160' });
    expect(b.try(undo), 'the stroke is missing').toBeUndefined();
    b.answer('bore', 'job', { bore: '160', stroke: '50' });
    expect(b.status('bore', 'job')).toBe('stopped');
    expect(b.try(undo)).toMatch(/^“Stroke: 50 mm” stops the work and stays on record; answer again/);
  });

  it('only where the condition of the stop holds', () => {
    const b = room('yes', 'no').answer('lock', 'job', { locked: 'no' });
    expect(b.status('lock', 'job')).toBe('done');
    expect(b.try(undo)).toBeUndefined();
    const c = room('yes', 'yes').answer('lock', 'job', { locked: 'no' });
    expect(c.try(undo)).toMatch(/^“Locked out: no” stops the work/);
    // What only opened the way to it goes back.
    expect(c.answer('lock', 'job', { locked: 'yes' }).try(undo)).toBeUndefined();
  });

  it('not while the step that it will stop was not begun', () => {
    const b = room('no', 'yes');
    expect(b.status('lock', 'job')).toBe('open');
    expect([b.try(undo), b.try(undo)]).toEqual([undefined, undefined]);
    expect(b.value('calm', 'job')).toBeUndefined();
  });

  it('not when it stands beside the stop: a note is taken back', () => {
    const b = room('yes', 'yes').answer('lock', 'job', { locked: 'no' }).add(note('a'));
    expect(b.try(undo)).toBeUndefined();
    expect(b.status('lock', 'job')).toBe('stopped');
  });
});
