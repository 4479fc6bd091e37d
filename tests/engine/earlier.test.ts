/** What a job reads of the finished one that it follows: which values, of which type, at which places. */
import { describe, expect, it } from 'vitest';
import type { Answer } from '../../src/engine/journal/entry.js';
import { derivation } from '../../src/engine/state/derivation.js';
import { carriedValues, earlierValues, followed } from '../../src/engine/state/earlier.js';
import { State } from '../../src/engine/state/state.js';
import { Bench, finished, measured, modelFrom, prepared, pump, pumpText } from './pump.js';

const again = modelFrom(`
procedure: pump-again
version: 1.0.0
title: Look at the pump again
summary: Invented.
follows:
  procedure: hand-pump
  again: true
  reads:
    old_oil: { key: oil, at: job, type: string, label: Oil then }
    old_bore: { key: bore, at: head, type: double, quantity: length, label: Bore then }
    old_leaks: { key: all_leak, at: job, type: list<double>, label: Leaks then }
    old_letters: { key: letters, at: head, type: list<string>, label: Letters then }
    old_outlet: { key: has_outlet, at: head, type: bool, label: Outlet then }
    look_number: { key: looks, at: job, type: double, label: Number, otherwise: 0 }
    lost: { key: lost, at: head, type: double, label: Lost }
    kept: { key: lost_too, at: job, type: string, label: Kept, otherwise: none }
    looked: { at: job, type: string, label: Looked, again: look_now, otherwise: never }
    seen: { at: job, type: string, label: Seen, again: look_now }
places:
  - { id: head, name: Head, instances: [ { id: a, label: Left head }, { id: b, label: Right head } ] }
phases: [ { id: look, title: Look } ]
steps:
  - id: look
    phase: look
    at: job
    title: Look
    do: Look.
    why: So.
    ask:
      - { key: look_now, kind: choice, label: Looks, options: [ { value: good, label: Good }, { value: bad, label: Bad } ] }
facts:
  - { key: bore_gone, at: head, label: Bore and wear, quantity: length, is: old_bore + 1.0 }
`);
const { procedure } = again;
const refusal = (...given: Parameters<typeof earlierValues>): string => {
  const read = earlierValues(...given);
  return read.ok ? 'read' : read.message;
};

describe('a job follows', () => {
  it('a finished job of the procedure that it names, or of its own', () => {
    expect(followed(procedure)).toEqual(['hand-pump', 'pump-again']);
    expect(followed({ ...procedure, follows: { ...procedure.follows!, again: false } })).toEqual(['hand-pump']);
    expect(followed(pump.procedure)).toEqual([]);
    const looked = new Bench(again).answer('look', 'job', { look_now: 'good' });
    expect([finished(), prepared(), looked].map((b) => earlierValues(procedure, b.state).ok)).toEqual([
      true,
      false,
      true,
    ]);
    expect(earlierValues(pump.procedure, finished().state).ok).toBe(false);
  });

  it('no other, in one sentence', () => {
    expect(refusal(pump.procedure, finished().state)).toBe(
      '“Overhaul a hand pump” follows no earlier job; open it on its own.',
    );
    const drill = modelFrom(pumpText.replace('procedure: hand-pump', 'procedure: drill'));
    expect(refusal(procedure, finished(new Bench(drill)).state)).toBe(
      '“Look at the pump again” follows a job of hand-pump, not of drill; choose another job.',
    );
    expect(refusal(procedure, new State(pump, [], 0))).toBe('The job “” is not finished yet; finish it first.');
    expect(refusal(procedure, prepared().state)).toBe('The job “Test” is not finished yet; finish it first.');
  });
});

describe('it reads', () => {
  it('what fits, with half widths, at the places that took part; and tells what was not known', () => {
    expect(earlierValues(procedure, finished().state)).toEqual({
      ok: true,
      values: new Map<string, Answer>([
        ['oil@job', 'thin'],
        ['bore@a', 40],
        ['bore@a±', 0.1],
        ['bore@b', 30],
        ['bore@b±', 0.1],
        ['all_leak@job', [2, 1, 0.5]],
        ['letters@a', ['x', 'y']],
        ['letters@b', ['x', 'y']],
        ['has_outlet@a', false],
        ['has_outlet@b', false],
      ]),
      // How it looked is no number, but there is a value for that.
      unknown: ['Lost, Left head', 'Lost, Right head'],
    });
    const sharp = modelFrom(pumpText.replace('plus_minus: 0.1 }', 'plus_minus: 0 }'));
    const exact = earlierValues(procedure, finished(new Bench(sharp)).state);
    expect(exact.ok && [exact.values.get('bore@a'), exact.values.has('bore@a±')]).toEqual([40, false]);
    const one = measured(prepared(new Bench(), 'one'), 'a').answer('oil-kind', 'job', { oil: 'thin' });
    one.done('fill', 'a').answer('screws', 'a', { screws: 4 }).done('glue', 'a').done('polish', 'a').wait(31);
    one.answer('badge', 'a', { letters: 'x,y' }).answer('witness', 'job', { looks: 'yes' });
    one.do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
    for (const leak of ['2', '1', '0.5']) one.answer('run', 'job', { leak });
    expect(earlierValues(procedure, one.state)).toMatchObject({ ok: true, unknown: ['Lost, Left head'] });
  });

  it('in a job of its own kind by its own keys', () => {
    const bench = new Bench(again).answer('look', 'job', { look_now: 'good' });
    const read = earlierValues(procedure, bench.state);
    expect(read.ok && [...read.values]).toEqual([
      ['looks@job', 0],
      ['lost_too@job', 'none'],
      ['looked@job', 'good'],
      ['seen@job', 'good'],
    ]);
    expect(read.ok && read.unknown.slice(0, 3)).toEqual(['Oil then', 'Bore then, Left head', 'Bore then, Right head']);
  });

  it('what a first entry carries, and counts what does not fit', () => {
    const carried = {
      'oil@job': 'thin',
      'bore@a': 40,
      'bore@a±': 0.5,
      'bore@b': '30',
      'bore@b±': -0.5,
      'all_leak@job': [1, 2],
      'letters@a': ['x', 2] as unknown as string[],
      'letters@b': 'x',
      'has_outlet@a': true,
      'has_outlet@b': 'no',
      'lost@a': Number.POSITIVE_INFINITY,
      'oil@job±': 0.5,
      'looked@job': 'good',
      'strange@job': 1,
    };
    const { values, unfit } = carriedValues(procedure, carried);
    expect([...values.keys()].join(' ')).toBe('oil@job bore@a bore@a± all_leak@job has_outlet@a looked@job');
    expect(unfit).toBe(8);
    expect(carriedValues(pump.procedure, { 'oil@job': 'thin' })).toEqual({ values: new Map(), unfit: 1 });
    expect(carriedValues(procedure, { 'bore@a±': 0 }).unfit).toBe(0);
  });

  it('and works with it: each with its width, or the value for what is not known', () => {
    const bench = new Bench(again);
    const earlier = new Map<string, Answer>([
      ['bore@a', 40],
      ['bore@a±', 0.5],
      ['bore@b', 30],
    ]);
    const state = new State(again, bench.entries, bench.now, { earlier });
    const told = (key: string, place: string) => {
      const { kind, shown, inputs } = derivation(state, key, place);
      return [kind, shown, inputs.map((i) => i.key)];
    };
    expect(told('old_bore', 'a')).toEqual(['earlier-job', '40.0 ± 0.5 mm', []]);
    expect(told('old_bore', 'b')).toEqual(['earlier-job', '30 mm', []]);
    expect(told('bore_gone', 'a')).toEqual(['rule', '41.0 ± 0.5 mm', ['old_bore']]);
    expect(told('kept', 'job')).toEqual(['assumed', 'none', []]);
    expect(told('old_oil', 'job')).toEqual(['unknown', 'not known yet', []]);
    expect(state.values.get('old_bore', 'a')).toMatchObject({ asOf: 0, origin: { from: 'earlier' } });
  });
});
