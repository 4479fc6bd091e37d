/**
 * What somebody with a plan does next on a practice rotor: takes the next thing that the guide wants, reads off what the
 * rotor shows, and decides by the plan. Pure; who asks keeps the entries and the time.
 */
import { type Action, gateSentence } from '../engine/actions/propose.js';
import type { State } from '../engine/state/state.js';
import type { StepView } from '../engine/steps/board.js';
import { showValue, suggestionOf } from '../engine/values/texts.js';
import type { Question } from '../procedure/schema.js';
import type { PracticeRotor } from './practice-rotor.js';
import type { PracticePlan, Typed } from './rotor-file.js';

export interface Played extends PracticePlan {
  readonly mentor?: string;
  /** Key to what is expected; the guide's own figure when left out. */
  readonly predict?: Readonly<Record<string, string>>;
}

/** What is done next at the step that is due; 'end' where the plan goes no further. */
export function nextMove(rotor: PracticeRotor, state: State, view: StepView, plan: Played, by: string): Action | 'end' {
  const { step, place } = view;
  const at = { step: step.id, place };
  if (plan.ends && rotor.holds(plan.ends, state, 'job') === true) return 'end';
  for (const r of plan.raise ?? [])
    if (rotor.holds(r.when, state, r.at) === true) return { do: 'raise', branch: r.branch, place: r.at };
  switch (view.wants) {
    case 'gate':
      return atGate(rotor, state, view, plan, by);
    case 'caution':
      return { do: 'caution', ...at };
    case 'predict': {
      const key = step.predict?.find((k) => !view.ledger?.predictions.some((p) => p.key === k)) ?? '';
      const v = state.values.get(key, place);
      const text = plan.predict?.[key] ?? (v.known ? showValue(state.model, key, v.value) : 'none given');
      return { do: 'predict', ...at, key, text };
    }
    case 'question':
      if (view.question) return answer(rotor, state, view, view.question, plan);
      break;
    case 'confirm':
      return { do: 'done', ...at };
    case 'sign':
      return { do: 'sign', ...at, initials: plan.mentor ?? by };
  }
  throw new Error(`${step.id}@${place} wants ${view.wants}`);
}

function answer(rotor: PracticeRotor, state: State, view: StepView, question: Question, plan: Played): Action {
  const { step, place } = view;
  const { key } = question;
  const row = step.repeat ? state.values.completeRows(step.id, place).length : 0;
  const offered = rotor.ways(step.id, place, key, state);
  const taken = state.entries.filter((e) => e.kind === 'answer' && e.key === key && e.way !== undefined).length;
  const planned = plan.ways?.[key]?.[taken];
  const way = offered.length ? (offered.find((o) => o.way === planned) ?? offered[0])?.way : undefined;
  const shown = rotor.typed(step.id, place, key, row, state, way);
  const text = (way === undefined ? undefined : shown) ?? decided(rotor, state, view, key, plan, row) ?? shown;
  const typed = text ?? suggestionOf(state.values, question, place) ?? (question.optional ? '' : undefined);
  if (typed === undefined) throw new Error(`${step.id}@${place}: nothing for ${key}`);
  return { do: 'answer', step: step.id, place, key, text: typed, ...(way === undefined ? {} : { way }) };
}

/** What the plan says, as it would be typed. */
function decided(
  rotor: PracticeRotor,
  state: State,
  { place }: StepView,
  key: string,
  plan: Played,
  row: number,
): Typed | undefined {
  const text = plan.answers?.[`${key}@${place}`] ?? plan.answers?.[key];
  const value = text === undefined ? undefined : rotor.evaluate(text, state, place, row);
  if (typeof value === 'number') {
    const unit = state.model.keys.get(key)?.unit;
    // Nobody types more figures than that; downward, since most bounds are upper ones.
    const rounded = Math.abs(value) < 100 ? Number(value.toFixed(2)) : Math.floor(value);
    return unit ? `${rounded} ${unit}` : String(rounded);
  }
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'string' ? value : undefined;
}

function atGate(rotor: PracticeRotor, state: State, view: StepView, plan: Played, by: string): Action | 'end' {
  const { step, place } = view;
  const gate = view.gates[0]?.gate;
  const how = gate && plan.gates?.[gate.id];
  if (how === 'end') return 'end';
  if (gate && how && 'raise' in how) return { do: 'raise', branch: how.raise, place };
  if (gate && how && 'overrule' in how) {
    const initials = plan.mentor ?? by;
    return { do: 'overrule', step: step.id, place, gate: gate.id, reason: how.overrule, initials };
  }
  // Nothing planned: the last question of the step that the plan or a way decides is answered once more.
  const question = (step.ask ?? []).findLast((q) => plan.ways?.[q.key] || plan.answers?.[q.key] !== undefined);
  if (!question || gate?.at === 'enter') throw new Error(`${step.id}@${place}: ${gateSentence(state, view)}`);
  return answer(rotor, state, view, question, plan);
}
