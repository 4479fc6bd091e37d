/** What a record tells of a value that nobody gave: why it is not known, and which known ones are no finding. */
import { describe, expect, it } from 'vitest';
import { found, lacksOf, silenceOf } from '../../src/engine/state/found.js';
import { Bench, built, finished, measured, modelFrom, prepared, pumpText, readyToFill } from './pump.js';

const one = (bench = new Bench()): Bench => measured(prepared(bench, 'one'), 'a');
const gated = modelFrom(
  pumpText
    .replace('label: Area of the lid,', 'label: Area of the lid, when: has_outlet,')
    .replace('with: { bore: bore,', 'when: has_outlet, with: { bore: bore,'),
);
const optional = modelFrom(
  pumpText
    .replace(
      'ask:\n      - key: heads',
      'ask:\n      - { key: cure, kind: number, label: Cure, limits: [0, 99], optional: true }\n      - key: heads',
    )
    .replace(
      '{ key: noise, kind: yes-no, label: Noise, when: "heads == \'two\'" }',
      '{ key: noise, kind: text, label: Noise, optional: true }',
    ),
);
const blank = (): Bench => new Bench(optional);
const logging = (): Bench => {
  const bench = blank().answer('start', 'job', { cure: '' });
  return built(bench)
    .answer('witness', 'job', { looks: 'yes' })
    .do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
};
const outlet = (has: string): Bench => {
  const b = prepared(new Bench(gated), 'one').answer('outlet-there', 'a', { has_outlet: has });
  return b.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
};

describe('a value is not known', () => {
  it.each<[string, () => Bench, string, string, string]>([
    ['a question that comes later', prepared, 'bore', 'a', 'not asked yet'],
    ['a figure worked out from it', prepared, 'swept', 'a', 'not asked yet'],
    ['a list of such figures', prepared, 'dues', 'job', 'not asked yet'],
    [
      'a question that does not apply',
      () => one().answer('oil-kind', 'job', { oil: 'thin' }),
      'noise',
      'job',
      'does not apply',
    ],
    ['one of a head that is left out', one, 'bore', 'b', 'does not apply'],
    ['one of a branch that was not raised', prepared, 'ring_found', 'a', 'does not apply'],
    ['a figure whose condition does not hold', () => outlet('no'), 'lid_area', 'a', 'does not apply'],
    ['one whose condition is open', () => prepared(new Bench(gated)), 'lid_area', 'a', 'not asked yet'],
    ['a calculation whose condition does not hold', () => outlet('no'), 'swept', 'a', 'does not apply'],
    ['one whose condition is open', () => prepared(new Bench(gated)), 'swept', 'a', 'not asked yet'],
    [
      'a calculation that was refused',
      () =>
        prepared()
          .answer('outlet-there', 'a', { has_outlet: 'no' })
          .answer('bore', 'a', { bore: '160', stroke: '50', lid: '80x60' }),
      'swept',
      'a',
      'unknown',
    ],
    ['what there is not', prepared, 'nope', 'a', 'unknown'],
    ['what lies below', prepared, 'bore', 'job', 'unknown'],
    ['an answer that nobody has to give', blank, 'cure', 'job', 'not asked yet'],
    [
      'one that was left out',
      () => blank().answer('start', 'job', { heads: 'two', cure: '' }),
      'cure',
      'job',
      'unknown',
    ],
    [
      'a list of a log of which one was left out',
      () => logging().answer('run', 'job', { leak: '2', noise: 'hum' }).answer('run', 'job', { leak: '1', noise: '' }),
      'all_noise',
      'job',
      'unknown',
    ],
  ])('%s', (_, bench, key, place, why) => {
    expect(lacksOf(bench().state, key, place)).toBe(why);
  });
});

describe('a known value is no finding', () => {
  const dropped = (): Bench => prepared().do({ do: 'raise', branch: 'ring-dropped', place: 'a' });
  it.each<[string, () => Bench, string, string, string | undefined]>([
    ['an event that nobody reported', prepared, 'event_ring_dropped', 'a', 'nothing reported yet'],
    ['one that was reported', dropped, 'event_ring_dropped', 'a', undefined],
    ['one at the other head', dropped, 'event_ring_dropped', 'b', 'nothing reported yet'],
    ['rows of a log not begun', prepared, 'rows_run', 'job', 'nothing reported yet'],
    ['rows of a log', finished, 'rows_run', 'job', undefined],
    ['what was answered', readyToFill, 'bore', 'a', undefined],
    ['what counts where nothing is asked', readyToFill, 'wear', 'a.inlet', undefined],
    ['the same at a head that is left out', one, 'wear', 'b.inlet', 'does not apply'],
    [
      'what was answered at a head that was left out then',
      () => readyToFill().correct('start', 'job', 'heads', 'one'),
      'bore',
      'b',
      undefined,
    ],
    ['what is not known', prepared, 'bore', 'a', undefined],
    ['what there is not', prepared, 'nope', 'a', undefined],
    ['what lies below', readyToFill, 'bore', 'job', undefined],
    ['what is gathered from places', prepared, 'any_dropped', 'job', undefined],
  ])('%s', (_, bench, key, place, silence) => {
    expect(silenceOf(bench().state, key, place)).toBe(silence);
  });

  const rules = {
    not_fell: '!event_ring_dropped',
    constant: '1.0 > 0.5',
    one_and_calm: "heads == 'one' && !event_ring_dropped",
    two_and_fell: "heads == 'two' && event_ring_dropped",
    log_or_fell: 'rows_run == 0.0 || event_ring_dropped',
    again: '!not_fell',
    thin_or_calm: "!event_ring_dropped || oil == 'thin'",
  };
  const ofValve = { unworn: 'wear == 0.0', unworn_and_calm: 'wear == 0.0 && !event_ring_dropped' };
  const facts = (at: string, of: Readonly<Record<string, string>>): string =>
    Object.entries(of)
      .map(([key, is]) => `  - { key: ${key}, at: ${at}, label: ${key}, type: bool, is: "${is}" }\n`)
      .join('');
  const ruled = modelFrom(pumpText.replace('facts:\n', `facts:\n${facts('head', rules)}${facts('valve', ofValve)}`));
  const calm = prepared(new Bench(ruled), 'one').state;
  const fell = prepared(new Bench(ruled), 'one').do({ do: 'raise', branch: 'ring-dropped', place: 'a' }).state;
  const left = one(new Bench(ruled)).state;
  const nothing = 'nothing reported yet';
  it.each<[string, typeof calm, string, string, string | undefined]>([
    ['follows from an event that nobody reported', calm, 'not_fell', 'a', nothing],
    ['follows from one that was reported', fell, 'not_fell', 'a', undefined],
    ['is a constant', calm, 'constant', 'a', undefined],
    ['hangs on the answer beside it too', calm, 'one_and_calm', 'a', undefined],
    ['is the same whatever was answered beside it', calm, 'two_and_fell', 'a', nothing],
    ['follows from a log not begun', calm, 'log_or_fell', 'a', nothing],
    ['follows from another rule', calm, 'again', 'a', nothing],
    ['is settled without what is not known', calm, 'thin_or_calm', 'a', nothing],
    ['is of a head that is left out', left, 'unworn', 'b.inlet', 'does not apply'],
    ['is of such a head and of no event', left, 'unworn_and_calm', 'b.inlet', nothing],
  ])('where its rule %s', (_, state, key, place, silence) => {
    expect(silenceOf(state, key, place)).toBe(silence);
  });

  it('nor what counts until its step is reached', () => {
    const { state } = new Bench();
    const name = (s: typeof state) => s.values.get('name_a', 'job').known;
    expect([name(state), name(found(state)), name(found(found(state)))]).toEqual([true, false, false]);
    expect(found(state)).toBe(found(state));
    expect(found(state).ledger).toBe(state.ledger);
    // What rests on nothing that counts meanwhile is the very same.
    const ready = readyToFill().state;
    const due = ready.values.get('oil_due', 'a');
    expect(found(ready).values.get('oil_due', 'a')).toBe(due);
  });
});
