/** What a new job on a known rotor takes over; the rotor is invented, the expectations are read off its readings. */
import { expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { slot } from '../../src/engine/journal/ledger.js';
import { State } from '../../src/engine/state/state.js';
import { shelfOf, takenOver, takeOverDrafts } from '../../src/life/take-over.js';
import { pump } from '../screens/pump.js';
import { Job, model } from '../shipped/good-job.js';

const first = new Job().run().state;

/** A new job with what was taken over, by somebody else. */
function begun(taken: ReturnType<typeof takenOver>): State {
  const head = { kind: 'job', name: 'Second', procedure: 'regrease-in-place', version: '1', hash: 'h', by: 'XY' };
  const entries = [head, ...takeOverDrafts(taken, 'XY')].map(
    (d, i) => ({ ...d, seq: i + 1, at: '2028-01-03T08:00:00.000Z' }) as Entry,
  );
  return new State(model, entries, Date.parse('2028-01-03T08:00:00Z'));
}

test('sizes, cage, seals and limits come over, each with the job that it is from', () => {
  const taken = takenOver(model, [{ job: 'first', state: first }]);
  const state = begun(taken);
  const value = (key: string, place: string) => {
    const v = state.values.get(key, place);
    return v.known ? v.value : undefined;
  };
  const before = (key: string, place: string) => {
    const v = first.values.get(key, place);
    return v.known ? v.value : 'unknown there';
  };
  for (const [key, place] of [
    ['rotor', 'job'],
    ['machine', 'job'],
    ['top_speed', 'job'],
    ['bearing_size', 'a'],
    ['bearing_size', 'b'],
    ['cage', 'a'],
    ['open_limit', 'b'],
    ['seal_kind', 'a.front'],
    ['seal_rubber', 'b.back'],
  ] as const)
    expect({ key, place, value: value(key, place) }).toEqual({ key, place, value: before(key, place) });
  const entry = state.ledger.steps.get(slot('make', 'a'))?.answers.get('cage')?.entry;
  expect(entry).toMatchObject({
    by: 'XY',
    from: { job: 'first', name: first.ledger.job?.name, at: first.entries.at(-1)?.at },
  });
  // What is of the day is asked: the room, which bearings, what got in, how many balls there are.
  for (const [key, place] of [
    ['ambient', 'job'],
    ['ends', 'job'],
    ['got_in', 'a'],
    ['isolated', 'job'],
  ] as const)
    expect({ key, known: state.values.get(key, place).known }).toEqual({ key, known: false });
  expect(state.values.get('balls_seen', 'a')).toMatchObject({ value: 0, origin: { from: 'otherwise' } });
  expect(state.view('machine', 'job')?.status).toBe('done');
  // Whether it is this rotor is looked at each time.
  expect(state.values.get('shaft_number', 'a').known).toBe(false);
  expect(state.view('size', 'a')?.status).not.toBe('done');
});

test('one line for what is the same at several places; all of it fits on one screen', () => {
  const taken = takenOver(model, [{ job: 'first', state: first }]);
  expect(taken.length).toBeLessThanOrEqual(16);
  const seals = taken.filter((t) => t.step === 'seal-make');
  expect(seals.flatMap((t) => t.where.split(', ')).length).toBe(4);
  expect(seals.length).toBeLessThan(4);
});

const small = pump(
  [
    {
      id: 'cage',
      phase: 'work',
      at: 'valve',
      title: 'Cage',
      do: 'Say what it is.',
      why: 'It is a test.',
      ask: [
        { key: 'cage', kind: 'text', label: 'Cage' },
        { key: 'fate', kind: 'text', label: 'Fate' },
      ],
    },
  ],
  { life: { rotor: 'cage', did: 'Oiled', keeps: [{ keys: ['cage'], when: "fate != 'replaced'" }] } },
);
function job(at: string, cages: readonly [string, string], fates: readonly [string, string]): State {
  const answers = ['a', 'b'].flatMap((place, i) => [
    { kind: 'answer', step: 'cage', place, key: 'cage', value: cages[i] },
    { kind: 'answer', step: 'cage', place, key: 'fate', value: fates[i] },
  ]);
  const head = { kind: 'job', name: `Of ${at}`, procedure: 'pump', version: '1.0.0', hash: 'hash' };
  const entries = [head, ...answers].map((e, i) => ({ ...e, by: 'AP', seq: i + 1, at: `${at}T08:00:00.000Z` }));
  return new State(small, entries as Entry[], Date.parse(`${at}T08:00:00Z`));
}

test('each figure comes from the latest job that knows it; of what was replaced since nothing older comes over', () => {
  const jobs = [
    { job: 'j1', state: job('2026-01-05', ['brass', 'brass'], ['kept', 'kept']) },
    { job: 'j3', state: job('2028-01-05', ['steel', 'peek'], ['replaced', 'kept']) },
    { job: 'j2', state: job('2027-01-05', ['brass', 'steel'], ['kept', 'kept']) },
  ];
  const drafts = (list: typeof jobs) =>
    takenOver(small, list)
      .flatMap((t) => t.drafts)
      .flatMap((d) => (d.kind === 'answer' ? [[d.place, d.value, d.from?.job]] : []));
  expect(drafts(jobs)).toEqual([['b', 'peek', 'j3']]);
  expect(drafts([jobs[0]!, jobs[2]!])).toEqual([
    ['a', 'brass', 'j2'],
    ['b', 'steel', 'j2'],
  ]);
});

test('a second regreasing knows the grease of the first as its old one, and its dose and base stand in the life', () => {
  const taken = takenOver(model, [{ job: 'first', state: first }]);
  const state = begun(taken);
  const grease = first.values.get('new_thickener', 'job');
  expect(grease.known).toBe(true);
  for (const place of ['a', 'b'])
    expect(state.values.get('old_thickener', place)).toMatchObject({
      known: true,
      value: grease.known && grease.value,
    });
  expect(taken.find((t) => t.step === 'history')?.says.join()).toMatch(/Thickener of the old grease|Lithium/);
  // What got in since then is of the day.
  expect(state.view('history', 'a')?.question?.key).toBe('got_in');
  expect(model.procedure.life?.trend?.map((t) => t.key)).toEqual([
    ...['end_rise', 'dose_given', 'coast_mean', 'stage_rises'],
  ]);
});

test('the shelf of the shop: grease and instruments of its latest jobs, whichever rotor, as they were typed', () => {
  const later = { name: 'Later', at: '2027-01-01T08:00:00.000Z' };
  const entries = first.entries.map((e) => ({ ...e, at: e.kind === 'job' ? e.at : later.at }) as Entry);
  const second = new State(model, entries, Date.parse(later.at));
  const shelf = shelfOf(model, [
    { job: 'first', state: first },
    { job: 'second', state: second },
  ]);
  expect(shelf.map((s) => [s.from.job, s.step])).toEqual(
    ['second', 'first'].flatMap((j) => ['kit', 'grease-kind', 'grease-figures'].map((s) => [j, s])),
  );
  // Read off the file of the shipped job.
  expect(shelf[0]?.texts).toEqual({ instrument_numbers: 'TB-1 to TB-4 (invented)' });
  expect(shelf[1]?.texts).toMatchObject({
    grease_name: 'Practice grease, invented, batch 0',
    new_thickener: 'lithium-complex',
    nlgi: '2',
    grease_density: '0.90',
  });
});
