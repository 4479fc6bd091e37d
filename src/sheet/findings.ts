/** What was found and done at each place, step by step, and the decisions among it. */

import { type Given, slot } from '../engine/journal/ledger.js';
import type { State } from '../engine/state/state.js';
import { ofStep, partLabel, textOf, whereOf } from '../engine/state/told.js';
import type { StepView } from '../engine/steps/board.js';
import { fillIn } from '../engine/values/texts.js';
import { keepsTyped } from '../procedure/model.js';
import { figureAt, saysMore } from './figures.js';
import { signaturesOf } from './people.js';
import type { AnswerLine, DecisionMade, Findings, Overrule, StepLine } from './sheet-data.js';

function answerLine(state: State, place: string, given: Given): AnswerLine {
  const key = given.entry.key;
  const text = textOf(state, key, given.value, given.plusMinus);
  // Of what is picked the label is told; its id would only be noise.
  const typed = keepsTyped(state.model.keys.get(key)) ? given.typed : undefined;
  return {
    key,
    label: partLabel(state, key, place),
    value: given.value,
    unit: state.model.keys.get(key)?.unit ?? '',
    ...(given.plusMinus === undefined ? {} : { plusMinus: given.plusMinus }),
    text,
    ...(typed && saysMore(typed, text) ? { typed } : {}),
    at: given.entry.at,
    by: given.entry.by,
    ...('from' in given.entry && given.entry.from ? { from: given.entry.from } : {}),
    corrected: given.entry.kind === 'correct',
  };
}

/** Answers that apply: one whose question no longer applies is not told as a finding. */
function answersOf(state: State, view: StepView): AnswerLine[] {
  return view.answered
    .filter((a) => !a.question.when || state.values.holds(a.question.when, view.place) !== false)
    .map((a) => answerLine(state, view.place, a.given));
}

const statusOf = (view: StepView): StepLine['status'] => {
  if (view.status === 'done' || view.status === 'waiting' || view.status === 'reopened') return view.status;
  return view.status === 'stopped' ? 'stopped' : 'unfinished';
};

const markOf = (state: State, view: StepView): { mark?: string } =>
  view.step.mark && (view.status === 'done' || view.status === 'waiting')
    ? { mark: fillIn(state.values, view.step.mark, view.place) }
    : {};

function stepLine(state: State, view: StepView): StepLine {
  const done = view.ledger?.done;
  return {
    ...ofStep(state, view),
    answers: view.step.repeat ? [] : answersOf(state, view),
    ...(done ? { confirmed: { at: done.at, by: done.by } } : {}),
    ...markOf(state, view),
    status: statusOf(view),
    ...(view.step.repeat ? { rows: state.values.completeRows(view.step.id, view.place).length } : {}),
  };
}

/** Steps that left a trace, in the order of the procedure. */
const touched = (view: StepView): boolean =>
  view.status !== 'not-needed' && Boolean(view.ledger?.last || view.answered.length);

export function findingsOf(state: State): Findings[] {
  const { procedure, places, order } = state.model;
  return places.flatMap((place) => {
    const views = state.views
      .filter((v) => v.place === place.id && touched(v))
      .sort((a, b) => (order.get(a.step.id) ?? 0) - (order.get(b.step.id) ?? 0));
    const phases = procedure.phases
      .map((phase) => ({
        title: phase.title,
        steps: views.filter((v) => v.step.phase === phase.id).map((v) => stepLine(state, v)),
      }))
      .filter((p) => p.steps.length > 0);
    return phases.length ? [{ ...whereOf(state, place.id), phases }] : [];
  });
}

/** The decisions that the procedure names for its sheet, wherever they were taken. */
export function decisionsOf(state: State, overruled: readonly Overrule[]): DecisionMade[] {
  const signatures = signaturesOf(state);
  const named = state.model.procedure.sheet?.decisions ?? [];
  return named.flatMap((id) =>
    state.views
      .filter((v) => v.step.id === id && touched(v))
      .map((view): DecisionMade => {
        const here = slot(id, view.place);
        const signature = signatures.findLast((s) => slot(s.step, s.place) === here && s.stands);
        const done = view.ledger?.done;
        return {
          ...ofStep(state, view),
          answers: answersOf(state, view),
          ...(done ? { confirmed: { at: done.at, by: done.by } } : {}),
          restsOn: (view.step.rests_on ?? []).map((k) => figureAt(state, k, view.place)),
          ...markOf(state, view),
          reopened: view.status === 'reopened',
          ...(signature ? { signature } : {}),
          overruled: overruled.filter((o) => slot(o.step, o.place) === here),
        };
      }),
  );
}
