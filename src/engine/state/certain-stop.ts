/**
 * What stops the work whatever is still to be answered: it is told at once, not when its step or row is whole. Pure.
 */
import { kindOf } from '../../procedure/questions/index.js';
import type { Gate, Question } from '../../procedure/schema.js';
import type { Answer } from '../journal/entry.js';
import type { GateView, StepView } from '../steps/board.js';
import { withDrafts } from './impact.js';
import { stopWords } from './refusals.js';
import type { State } from './state.js';

export interface CertainStop {
  readonly gate: Gate;
  /** What the gate says, by what is known now. */
  readonly says: string;
}

/** Ways of answering the rest that are tried, at most. */
const MOST_TRIES = 12;

const none: readonly CertainStop[] = [];
const made = new WeakMap<State, Map<StepView, readonly CertainStop[]>>();

/** One that may be overruled only where it says so: its reason is given once all is answered. */
const isTold = (gate: Gate): boolean => gate.overrule === 'never' || gate.at_once === true;

/**
 * Stops of a dangerous step that is being answered, which nobody may overrule or which cannot wait: they hold with what it
 * has, in whichever way its other questions are answered. The worst is not waited for while somebody types.
 */
export function certainStops(state: State, view: StepView): readonly CertainStop[] {
  if (!view.step.hazard || view.wants !== 'question' || view.status === 'reopened') return none;
  let known = made.get(state);
  if (!known) {
    known = new Map();
    made.set(state, known);
  }
  let found = known.get(view);
  if (!found) {
    found = begun(state, view) ? tried(state, view) : none;
    known.set(view, found);
  }
  return found;
}

/** False where nothing that was answered can stop it: told without trying anything. */
function begun({ values }: State, { step, place, ledger }: StepView): boolean {
  const gates = (step.gates ?? []).filter(isTold);
  if (!gates.length || !ledger) return false;
  if (step.repeat) return values.completeRows(step.id, place).length < ledger.rows.length;
  return (
    ledger.answers.size > 0 &&
    gates.some((g) => {
      const v = g.at === 'leave' ? values.evaluate(g.must, place) : undefined;
      return v?.known === true && v.value !== true;
    })
  );
}

/** Answers that stand for all that a question can have, the likeliest first. */
function candidates(state: State, q: Question, { step, place, ledger }: StepView): readonly Answer[] {
  if (q.optional) return [''];
  const kind = kindOf(q);
  const all = kind.all?.(q, state.model.tables);
  if (all?.length) return all;
  const usual = 'plausible' in q && q.plausible ? q.plausible : kind.range?.(q);
  if (!usual || kind.type !== 'double') return [];
  const near = kind.bounds?.(q)?.near;
  const likely = near === undefined ? undefined : state.values.evaluate(near, place);
  const before = step.repeat ? ledger?.answers.get(q.key)?.value : undefined;
  const first = likely?.known ? likely.value : before;
  return typeof first === 'number' ? [first, ...usual] : usual;
}

/** The gates that hold once every question was answered in the way of this number; undefined where none can be made up. */
function heldBy(state: State, view: StepView, way: number) {
  const { step, place } = view;
  let then = state;
  let now = view;
  let ways = 0;
  for (const _ of step.ask!) {
    const rows = now.ledger!.rows.length;
    if (now.wants !== 'question' || (step.repeat && then.values.completeRows(step.id, place).length === rows)) break;
    const { key } = now.question!;
    const all = candidates(state, now.question!, view);
    if (!all.length) return undefined;
    ways = Math.max(ways, all.length);
    const value = all[way % all.length]!;
    then = withDrafts(then, [{ kind: 'answer', step: step.id, place, by: state.ledger.operator, key, value }]);
    now = then.board.own(step, place);
  }
  const sure = ({ gate, missing, refusal }: GateView): boolean =>
    isTold(gate) && !missing.length && refusal === undefined;
  return { ways, held: now.gates.filter(sure).map((g) => ({ gate: g.gate, says: stopWords(then, g, place) })) };
}

function tried(state: State, view: StepView): readonly CertainStop[] {
  const first = heldBy(state, view, 0);
  let held = first?.held ?? [];
  for (let way = 1; held.length && way < Math.min(first!.ways, MOST_TRIES); way++) {
    const other = heldBy(state, view, way)?.held ?? [];
    held = held.filter((h) => other.some((o) => o.gate === h.gate));
  }
  return held;
}
