/**
 * The same work as it would stand with what the rotor really is: readings that were false by a trap, or typed otherwise
 * than they showed, are set to the truth, and everything that hangs on them is worked out anew. Pure.
 */
import type { Entry } from '../engine/journal/entry.js';
import { State } from '../engine/state/state.js';
import { readAnswer } from '../procedure/questions/index.js';
import type { Misread } from './misread.js';
import type { Typed } from './rotor-file.js';
import type { TrapOutcome } from './trap-outcomes.js';

/** Key and place to what is true of it. */
type Truths = ReadonlyMap<string, Typed>;
const slotOf = (key: string, place: string): string => `${key}@${place}`;

/** What is true where the readings were not. Empty where every reading was. */
export function truthsOf(misread: readonly Misread[], outcomes: readonly TrapOutcome[]): Truths {
  const truths = new Map<string, Typed>();
  for (const m of misread)
    if (m.row === undefined && m.shownTyped !== undefined) truths.set(slotOf(m.key, m.place), m.shownTyped);
  for (const { trap, fellAt } of outcomes)
    if (fellAt) for (const [key, typed] of Object.entries(trap.truth ?? {})) truths.set(slotOf(key, trap.at), typed);
  return truths;
}

/** @returns undefined where nothing of it was false */
export function trueState(state: State, truths: Truths): State | undefined {
  if (truths.size === 0) return undefined;
  let changed = false;
  const entries = state.entries.map((e): Entry => {
    if (e.kind !== 'answer' && e.kind !== 'correct') return e;
    const typed = truths.get(slotOf(e.key, e.place));
    const question = state.model.steps.get(e.step)?.ask?.find((q) => q.key === e.key);
    if (typed === undefined || !question) return e;
    const read = readAnswer(question, typed, state.model.tables, undefined);
    if (!read.ok || JSON.stringify(read.value) === JSON.stringify(e.value)) return e;
    changed = true;
    return { ...e, value: read.value };
  });
  return changed ? new State(state.model, entries, state.now, state.options) : undefined;
}
