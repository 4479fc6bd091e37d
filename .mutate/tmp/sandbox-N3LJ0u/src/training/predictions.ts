/** Every prediction of a job, judged by what the guide knew when it was made. Pure. */
// @ts-nocheck

import type { Entry } from '../engine/entry.js';
import type { State } from '../engine/state.js';
import { fillIn, showValue } from '../engine/texts.js';
import { expectedOf, workedSolution } from './expected.js';
import { type Judgement, judgePrediction } from './judge-prediction.js';
import { stateAfter } from './trap-outcomes.js';

type Predicted = Extract<Entry, { kind: 'predict' }>;

export interface JudgedPrediction extends Judgement {
  readonly step: string;
  readonly key: string;
  readonly place: string;
  readonly title: string;
  readonly label: string;
  readonly where: string;
  readonly typed: string;
  /** The guide's figure with its uncertainty. */
  readonly actual: string;
  readonly worked: readonly string[];
}

export function judgedPredictions(state: State): JudgedPrediction[] {
  return state.entries.flatMap((e, i) =>
    e.kind === 'predict' && !state.ledger.undone.has(e.seq) ? [judgeEntry(state, e, i)] : [],
  );
}

function judgeEntry(state: State, e: Predicted, index: number): JudgedPrediction {
  const typed = e.typed ?? String(e.value);
  // Later corrections do not make a good prediction bad.
  const early = stateAfter(state, index);
  const then = early.values.get(e.key, e.place).known ? early : state;
  const expected = expectedOf(then, e.key, e.place);
  const step = state.model.steps.get(e.step);
  return {
    ...judgePrediction(typed, expected),
    step: e.step,
    key: e.key,
    place: e.place,
    title: fillIn(then.values, step?.title ?? e.step, e.place),
    label: fillIn(then.values, state.model.keys.get(e.key)?.label ?? e.key, e.place),
    where: e.place === 'job' ? '' : state.values.placeLabel(e.place),
    typed,
    actual: expected.value === undefined ? '' : showValue(state.model, e.key, expected.value, expected.plusMinus),
    worked: workedSolution(then, e.key, e.place),
  };
}
