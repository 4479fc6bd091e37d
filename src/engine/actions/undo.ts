/** What may be taken back without a word, and what stays on record. Pure. */
import type { Gate } from '../../procedure/schema.js';
import type { Entry } from '../journal/entry.js';
import { certainStops } from '../state/certain-stop.js';
import { withDrafts } from '../state/impact.js';
import type { State } from '../state/state.js';
import type { StepView } from '../steps/board.js';
import { labelAt, showValue } from '../values/texts.js';

const stands = (state: State, e: Entry): boolean =>
  !state.takenBack(e) && !['undo', 'handover', 'refuse', 'pace'].includes(e.kind) && !(e.kind === 'note' && e.clock);

/** What an undo takes back: the last entry that stands. Word for whoever comes next, a signature that was refused and what the guide saw of the clock are no step and stay. */
export const lastUndoable = (state: State): Entry | undefined => state.entries.findLast((e) => stands(state, e));

/** All that one key recorded together, the latest first; empty when there is nothing to take back. */
export function lastUndoableGroup(state: State): readonly Entry[] {
  const group: Entry[] = [];
  for (const e of [...state.entries].reverse()) {
    if (!stands(state, e)) continue;
    group.push(e);
    if (!e.joined) break;
  }
  return group;
}

/** The undos of one key, the latest first, that can be taken back together. */
export function lastTakenBackGroup(state: State): readonly Extract<Entry, { kind: 'undo' }>[] {
  const last = lastTakenBack(state);
  if (!last) return [];
  const group = [last];
  for (const e of state.entries.slice(0, last.seq - 1).reverse()) {
    if (e.kind !== 'undo' || !group.at(-1)?.joined) break;
    group.push(e);
  }
  return group;
}

/** The undo that can itself be taken back: nothing but taking back and bringing back came after it. */
function lastTakenBack(state: State): Extract<Entry, { kind: 'undo' }> | undefined {
  const undos = new Set(state.entries.flatMap((e) => (e.kind === 'undo' ? [e.seq] : [])));
  for (const e of [...state.entries].reverse()) {
    if (e.kind !== 'undo') return undefined;
    if (!state.takenBack(e) && !undos.has(e.of)) return e;
  }
  return undefined;
}

/** A stop that nobody can overrule, seen by what is known and not by whether its step is the next one. */
function stops(state: State, gate: Gate, place: string): boolean {
  if (gate.overrule !== 'never') return false;
  if (gate.when && state.values.holds(gate.when, place) === false) return false;
  const v = state.values.evaluate(gate.must, place);
  return v.known ? v.value !== true : v.refusal !== undefined;
}

/** What counts only until it is answered stops nothing while its step is still to ask it. */
const waitsForAnswer = ({ model, values }: State, { step, place, wants }: StepView, gate: Gate): boolean =>
  wants === 'question' &&
  model.expression(gate.must).names.some((key) => {
    if (!step.ask?.some((q) => q.key === key)) return false;
    const v = values.get(key, place);
    return v.known && v.origin.from === 'otherwise';
  });

/** A step whose event was taken back is there no more. */
const released = (after: State, { step, place }: StepView, gate: Gate): boolean =>
  (after.view(step.id, place)?.status ?? 'not-needed') === 'not-needed' || !stops(after, gate, place);

/**
 * Why an entry can't simply be taken back: it is what stops the work, and a stop that vanished with its reading would
 * leave no reason behind.
 * @returns one sentence; undefined when it may be taken back
 */
export function undoRefusal(state: State, last: Entry): string | undefined {
  if (last.kind !== 'answer' && last.kind !== 'correct' && last.kind !== 'raise') return undefined;
  const own = 'step' in last ? state.view(last.step, last.place) : undefined;
  const holding = state.views
    .filter((v) => v === own || v.status === 'stopped')
    .flatMap((view) =>
      (view.step.gates ?? [])
        .filter((g) => stops(state, g, view.place) && !waitsForAnswer(state, view, g))
        .map((gate) => ({ view, gate })),
    );
  // Asked at each frame, and a journal without one of its entries is folded from its beginning.
  const certain = own ? certainStops(state, own) : [];
  if (!holding.length && !certain.length) return undefined;
  const after = withDrafts(state, [{ kind: 'undo', of: last.seq, by: state.ledger.operator }]);
  const then = own && after.view(own.step.id, own.place);
  const left = then ? certainStops(after, then) : [];
  const lifts = certain.some((c) => !left.some((l) => l.gate === c.gate));
  if (!lifts && !holding.some(({ view, gate }) => released(after, view, gate))) return undefined;
  if (last.kind === 'raise') {
    const { title } = state.model.procedure.branches!.find((b) => b.id === last.branch)!;
    return `“${title}” stops the work and stays on record; do what it asks, or correct the reading that stops it.`;
  }
  const label = labelAt(state.values, last.key, last.place);
  const { repeat, ask = [] } = state.model.steps.get(last.step)!;
  // Of a whole row the last answer need not be the one that stops.
  if (repeat && ask.length > 1 && !lifts)
    return 'This reading stops the work and stays on record; correct it with a reason.';
  return `“${label}: ${showValue(state.model, last.key, last.value, last.plusMinus)}” stops the work and stays on record; ${repeat ? '' : 'answer again, or '}correct it with a reason.`;
}
