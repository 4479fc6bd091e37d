/** In the brisk pace: what was read at another place in this sitting is said shorter here. What hurts never is. */
import type { StepView } from '../../engine/steps/board.js';
import { fillIn } from '../../engine/values/texts.js';
import { type Desk, isBrisk } from '../desk.js';
import { firstSentence } from '../words/blocks.js';

/** The same step, done at another place in this sitting with the same words. */
export function readBefore(desk: Desk, view: StepView): StepView | undefined {
  if (!isBrisk(desk)) return undefined;
  const { state } = desk;
  const text = (place: string): string => fillIn(state.values, view.step.do, place);
  return state.views.find(
    (v) =>
      v.step === view.step &&
      v.place !== view.place &&
      (v.status === 'done' || v.status === 'waiting') &&
      (v.ledger?.seq ?? 0) >= state.sitting &&
      text(v.place) === text(view.place),
  );
}

/** What to do, in one sentence where it was read before and nothing can hurt or be spoilt. */
export function shorterOnce(desk: Desk, view: StepView, text: string, more: string): string {
  const { hazard, physical } = view.step;
  const first = firstSentence(text);
  if (hazard || physical || first === text.trim() || !readBefore(desk, view)) return text;
  return `${first} ${more} w`;
}

/** What to do, as it stands in the procedure: for who knows the job nothing that title and questions say as well. */
export const toDo = (desk: Desk, { step }: StepView): string => (isBrisk(desk) ? (step.brief ?? step.do) : step.do);
