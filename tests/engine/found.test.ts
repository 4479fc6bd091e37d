/** What a record tells of a value that nobody gave: why it is not known, and which known ones are no finding. */
import { describe, expect, it } from 'vitest';
import { found, lacksOf, silenceOf } from '../../src/engine/state/found.js';
import { Bench, finished, measured, modelFrom, prepared, pumpText, readyToFill } from './pump.js';

const one = (): Bench => measured(prepared(new Bench(), 'one'), 'a');
const gated = modelFrom(
  pumpText
    .replace('label: Area of the lid,', 'label: Area of the lid, when: has_outlet,')
    .replace('with: { bore: bore,', 'when: has_outlet, with: { bore: bore,'),
);
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
    ['what is not known', prepared, 'bore', 'a', undefined],
    ['what there is not', prepared, 'nope', 'a', undefined],
    ['what is gathered from places', prepared, 'any_dropped', 'job', undefined],
  ])('%s', (_, bench, key, place, silence) => {
    expect(silenceOf(bench().state, key, place)).toBe(silence);
  });

  it('nor what counts until its step is reached', () => {
    const { state } = prepared();
    const wear = (s: typeof state) => s.values.get('wear', 'a.inlet').known;
    expect([wear(state), wear(found(state)), wear(found(found(state)))]).toEqual([true, false, false]);
    expect(found(state)).toBe(found(state));
    expect(found(state).ledger).toBe(state.ledger);
  });
});
