/** What became of each trap of a practice rotor. Pure: the journal is looked at as it stood after each entry. */
import type { Entry } from '../engine/journal/entry.js';
import { State, type StateOptions } from '../engine/state/state.js';
import { fillIn } from '../engine/values/texts.js';
import { isFilled, isOwn } from './filled.js';
import type { PracticeRotor } from './practice-rotor.js';
import type { Trap } from './rotor-file.js';

export type TrapEnd =
  | 'caught'
  /** Fallen into first, and put right in time. */
  | 'caught-late'
  | 'fell'
  /** The work did not come so far, or went another way. */
  | 'not-met';

export interface TrapOutcome {
  readonly trap: Trap;
  readonly end: TrapEnd;
  /** Name of its place; empty for the whole job. */
  readonly where: string;
  /** Entry after which it was first fallen into. */
  readonly fellAt: Entry | undefined;
  /** Initials of somebody else than the apprentice whose entry brought this end. */
  readonly by?: string;
  /** Fallen into, and it can still be put right until that step is done; its title. */
  readonly openUntil?: string;
}

/** Entries that can't change what a condition says. */
const idle: ReadonlySet<Entry['kind']> = new Set([
  'note',
  'handover',
  'operator',
  'procedure',
  'caution',
  'predict',
  'picture',
  'name',
]);

export function trapOutcomes(state: State, rotor: PracticeRotor): TrapOutcome[] {
  const filled = state.entries.findLastIndex(isFilled);
  const begun = filled < 0 ? undefined : stateAfter(state, filled);
  // What was seen through before the apprentice began is nobody's.
  const traps = rotor.file.traps.filter((t) => !begun || rotor.holds(t.caught, begun, t.at) !== true);
  // Who saw it through is asked only where others worked in it.
  const shared = state.entries.slice(filled + 1).some((e) => !idle.has(e.kind) && !isOwn(state, e));
  const fellAt = new Map<string, Entry>();
  const caughtAt = new Map<string, Entry>();
  const sealed = new Set<string>();
  let then: State | undefined;
  for (const [i, entry] of state.entries.entries()) {
    if (idle.has(entry.kind)) continue;
    then = stateAfter(state, i, then && { before: then, spent: true });
    for (const trap of traps) {
      if (sealed.has(trap.id)) continue;
      const fell = rotor.holds(trap.fell, then, trap.at) === true;
      if (fell && !fellAt.has(trap.id)) fellAt.set(trap.id, entry);
      if (shared && !caughtAt.has(trap.id) && rotor.holds(trap.caught, then, trap.at) === true)
        caughtAt.set(trap.id, entry);
      if (trap.too_late !== undefined && fell && isDone(then, trap)) sealed.add(trap.id);
    }
  }
  return traps.map((trap) => {
    const first = fellAt.get(trap.id);
    const fell = sealed.has(trap.id) || rotor.holds(trap.fell, state, trap.at) === true;
    const caught = rotor.holds(trap.caught, state, trap.at) === true;
    const end: TrapEnd = fell ? 'fell' : caught ? (first ? 'caught-late' : 'caught') : first ? 'fell' : 'not-met';
    const where = trap.at === 'job' ? '' : state.values.placeLabel(trap.at);
    const brought = end === 'fell' ? first : end === 'not-met' ? undefined : caughtAt.get(trap.id);
    const by = shared && brought && !isOwn(state, brought) ? { by: brought.by } : {};
    const last = sealed.has(trap.id) || state.finished ? undefined : state.model.steps.get(trap.too_late ?? '');
    const open = end === 'fell' && last ? { openUntil: fillIn(state.values, last.title, trap.at) } : {};
    return { trap, end, where, fellAt: first, ...by, ...open };
  });
}

/** The job as it stood after entry number `index` (from 0). `from`: one that stood earlier, to save work. */
export function stateAfter(state: State, index: number, from: Pick<StateOptions, 'before' | 'spent'> = {}): State {
  const entries = state.entries.slice(0, index + 1);
  const at = Date.parse(entries.at(-1)?.at ?? '');
  return new State(state.model, entries, Number.isNaN(at) ? state.now : at, { ...state.options, ...from });
}

/** True once the step is done at the trap's place, around it or below it. */
export function isDone(state: State, trap: Trap): boolean {
  const ledger = [...state.ledger.steps];
  const touched = ledger.some(([id, s]) => id.startsWith(`${trap.too_late}@`) && s.last !== undefined);
  if (!touched) return false;
  return state.views.some(
    (v) =>
      v.step.id === trap.too_late &&
      (v.status === 'done' || v.status === 'waiting') &&
      (v.place === trap.at ||
        v.place.startsWith(`${trap.at}.`) ||
        trap.at.startsWith(`${v.place}.`) ||
        v.place === 'job' ||
        trap.at === 'job'),
  );
}
