/** How steps, places and values are told, on paper as in a debrief. Pure. */
import { partsOf } from '../../procedure/questions/index.js';
import type { Answer } from '../journal/entry.js';
import type { StepView } from '../steps/board.js';
import { fillIn, showValue } from '../values/texts.js';
import type { State } from './state.js';

/** What belongs to one place. */
export interface AtPlace {
  /** Its id: 'job', 'a', 'a.front'. */
  readonly place: string;
  /** Its name in this job, as it is printed; empty for the job as a whole. */
  readonly where: string;
}
export interface Who {
  readonly at: string;
  readonly by: string;
}
export interface OfStep extends AtPlace {
  readonly step: string;
  readonly title: string;
}

export const whereOf = (state: State, place: string): AtPlace => ({
  place,
  where: place === 'job' ? '' : state.values.placeLabel(place),
});

/** The name of a key, with {key} in it replaced. */
export function partLabel(state: State, key: string, place: string): string {
  const info = state.model.keys.get(key);
  const from = info?.from;
  const part = from?.by === 'question' ? from.part : undefined;
  const label =
    from?.by === 'question' && part !== undefined
      ? `${from.question.label}, ${part + 1} of ${partsOf(from.question).length}`
      : (info?.label ?? key);
  return fillIn(state.values, label, place);
}

/** A value in words, booleans and series included. */
export const textOf = (state: State, key: string, value: Answer, plusMinus?: number | readonly number[]): string =>
  showValue(state.model, key, value, plusMinus) || '(left empty)';

export const ofStep = (state: State, view: Pick<StepView, 'step' | 'place'>): OfStep => ({
  ...whereOf(state, view.place),
  step: view.step.id,
  title: fillIn(state.values, view.step.title, view.place),
});

/** So many seconds, in the unit that a person counts such a time in. */
export const lasting = (seconds: number): string =>
  seconds < 120
    ? `${seconds} s`
    : seconds < 7200
      ? `${Math.round(seconds / 60)} min`
      : `${Math.round(seconds / 3600)} h`;
