/** What readings that were typed otherwise than shown did to the figures that decide, such as the dose. Pure. */
import type { State } from '../engine/state/state.js';
import { labelAt, showValue } from '../engine/values/texts.js';
import { isList } from '../guards/guards.js';
import { showQuantity } from '../units/show.js';
import { expectedOf } from './expected.js';
import type { Expected } from './judge-prediction.js';
import type { Misread, PutRight } from './misread.js';
import { sameFigure } from './predictions.js';
import { phaseOf } from './stands.js';
import { trueState, truthsOf } from './truth.js';

export interface Effect {
  /** Order of the phase that asks for it, from 0. */
  readonly phase: number;
  readonly label: string;
  /** Name of its place; empty for the whole job. */
  readonly where: string;
  /** As it stands by what was typed, and as it would by what was shown; in words. */
  readonly made: string;
  readonly instead: string;
  /** Share of what it should be by which it is too much, below 0 too little; of numbers only. */
  readonly off?: number;
}
export interface Effects {
  /** For each misread one what it did by itself, in the same order. */
  readonly each: readonly (readonly Effect[])[];
  /** What several of them did. */
  readonly together: readonly Effect[];
}

/** What a reading that was put right had made of those figures while it stood as it was typed at first. */
export function effectsBefore(state: State, { key, place, first }: PutRight): Effect[] {
  const then = trueState(state, new Map([[`${key}@${place}`, first]]));
  return then
    ? decided(then)
        .filter((d) => {
          const is = expectedOf(state, d.key, d.place);
          return is.value !== undefined && !sameFigure(is, d.was);
        })
        .map((d) => effect(then, state, d))
    : [];
}

interface Decided {
  readonly phase: number;
  readonly key: string;
  readonly place: string;
  readonly was: Expected;
}

/** What an apprentice is to expect is what decides: each such figure and verdict that stands. */
function decided(state: State): Decided[] {
  const keys = new Map([...state.model.steps.values()].flatMap((s) => s.predict?.map((key) => [key, s.id]) ?? []));
  return [...keys].flatMap(([key, step]) => {
    const at = state.model.keys.get(key)?.at;
    return state.model.places.flatMap(({ id, kind }) => {
      if (kind !== at || !state.values.takesPart(id)) return [];
      const was = expectedOf(state, key, id);
      return was.value === undefined ? [] : [{ phase: phaseOf(state, step), key, place: id, was }];
    });
  });
}

/** The job is folded once more with what was shown, and where that moves anything, once for each reading. */
export function effectsOf(state: State, misread: readonly Misread[]): Effects {
  const corrected = (some: readonly Misread[]): State | undefined => trueState(state, truthsOf(some, []));
  const none: Effects = { each: misread.map(() => []), together: [] };
  const right = corrected(misread);
  if (!right) return none;
  const moved = (to: State | undefined, { key, place, was }: Decided): boolean => {
    const is = to && expectedOf(to, key, place);
    return is?.value !== undefined && !sameFigure(is, was);
  };
  const changed = decided(state).filter((d) => moved(right, d));
  if (!changed.length) return none;
  const singly = misread.length > 1 ? misread.map((m) => corrected([m])) : [right];
  const of = (d: Decided): number[] => singly.flatMap((s, i) => (moved(s, d) ? [i] : []));
  return {
    each: misread.map((_, i) =>
      changed.filter((d) => of(d).length === 1 && of(d)[0] === i).map((d) => effect(state, right, d)),
    ),
    together: changed.filter((d) => of(d).length !== 1).map((d) => effect(state, right, d)),
  };
}

function effect(state: State, right: State, { phase, key, place, was }: Decided): Effect {
  const is = expectedOf(right, key, place);
  const words = (x: Expected): string =>
    x.value === undefined ? '' : showValue(state.model, key, x.value, x.plusMinus).replace(/ ± [\d.]+/g, '');
  return {
    phase,
    label: labelAt(state.values, key, place),
    where: place === 'job' ? '' : state.values.placeLabel(place),
    made: words(was),
    instead: words(is),
    ...offBy(figure(was), figure(is)),
    ...pushedOut(state, key, place, was, is),
  };
}

/** Of a travel of the plunger what matters is the dose that it pushes out. */
function pushedOut(state: State, key: string, place: string, was: Expected, is: Expected): Partial<Effect> {
  const from = state.model.keys.get(key)?.from;
  if (from?.by !== 'calc' || from.use.calc !== 'syringe' || from.result !== 'travel') return {};
  const doses = state.values.evaluate(from.use.with.doses ?? '', place);
  const [set, wrong, right] = [doses.known ? doses.value : undefined, was.value, is.value].map(numbers);
  if (!set?.length || set.length !== wrong?.length || set.length !== right?.length) return {};
  const words = (volumes: readonly number[]): string =>
    volumes.map((v) => showQuantity(Number(v.toFixed(2)), 'volume')).join(', ');
  const given = set.map((dose, i) => (dose * (wrong[i] ?? 0)) / (right[i] ?? 1));
  return {
    label: 'Grease that goes in',
    made: words(given),
    instead: words(set),
    ...offBy(given[0] ?? 0, set[0] ?? 0),
  };
}
const numbers = (value: unknown): readonly number[] =>
  isList(value) ? value.filter((v): v is number => typeof v === 'number') : [];

/** One figure, also where it stands alone in a list. */
function figure({ value }: Expected): number {
  const one = isList(value) && value.length === 1 ? value[0] : value;
  return typeof one === 'number' ? one : Number.NaN;
}
const offBy = (was: number, is: number): Pick<Effect, 'off'> =>
  Number.isFinite(was / is) ? { off: was / is - 1 } : {};
