/** What was filled in before a late start is nobody's work; what somebody else did is not the apprentice's. Pure. */
import type { Entry } from '../engine/journal/entry.js';
import { FILLED_BY, sameInitials } from '../engine/journal/initials.js';
import { entriesOf, type State } from '../engine/state/state.js';
import { fillIn } from '../engine/values/texts.js';

export const isFilled = (e: Entry): boolean => e.by === FILLED_BY;

/** Whose practice it is. */
export const apprenticeOf = (state: State): string => state.ledger.job?.apprentice ?? state.ledger.job?.by ?? '';
export const isOwn = (state: State, e: Entry): boolean => sameInitials(e.by, apprenticeOf(state));

/** When it was made and all before a late start was done; ISO. */
export const setUpAt = ({ entries }: State): string =>
  (entries[entries.findLastIndex(isFilled) + 1] ?? entries[0])?.at ?? '';

export interface Helper {
  readonly initials: string;
  /** Steps at a place in which something was answered, said beforehand or confirmed. */
  readonly steps: number;
  /** Of those, by title; none of what was filled in before a late start. */
  readonly titles: readonly string[];
}

/** Who else worked in it, in the order in which they came. */
export function helpersOf(state: State): Helper[] {
  const by = new Map<string, Map<string, string>>();
  for (const e of entriesOf(state, 'answer', 'done', 'predict')) {
    if (isOwn(state, e)) continue;
    const steps = by.get(e.by) ?? new Map<string, string>();
    const title = fillIn(state.values, state.model.steps.get(e.step)?.title ?? e.step, e.place);
    by.set(e.by, steps.set(`${e.step}@${e.place}`, title));
  }
  return [...by].map(([initials, steps]) => ({
    initials,
    steps: steps.size,
    titles: initials === FILLED_BY ? [] : [...new Set(steps.values())],
  }));
}
