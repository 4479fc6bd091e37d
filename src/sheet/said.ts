/** Lines that the procedure writes for the sheet, filled in with the job's values. Pure. */

import { related } from '../engine/journal/ledger.js';
import { lacksOf } from '../engine/state/found.js';
import type { State } from '../engine/state/state.js';
import { whereOf } from '../engine/state/told.js';
import { fillIn, keysNamedIn, showKey } from '../engine/values/texts.js';
import type { Said, SaidRow } from './sheet-data.js';

export interface WrittenLine {
  readonly at?: string | undefined;
  readonly when?: string | undefined;
  readonly once?: string | undefined;
  readonly until?: string | undefined;
  readonly say: string;
}
export interface How {
  /** The state by which work is led and conditions are judged: what counts meanwhile warns before it is sure. */
  readonly led?: State | undefined;
  /** Left out where any value in it is not known, not only where all are. */
  readonly whole?: boolean;
}

const placesAt = (state: State, at: string): readonly string[] =>
  at === 'job' ? ['job'] : state.values.below(at, 'job');

/** Whether a step is done at a place and all that comes before it still stands; undefined where it is not called for. */
function stands(state: State, step: string, place: string): boolean | undefined {
  const home = state.values.enclosing(state.model.steps.get(step)?.at ?? 'job', place);
  const at = state.views.findIndex((v) => v.step.id === step && v.place === home);
  const view = state.views[at];
  if (!view || view.status === 'not-needed') return undefined;
  return state.views
    .slice(0, at + 1)
    .every((v) => v.status === 'done' || v.status === 'not-needed' || !related(v.place, view.place));
}

/** A line at one place; none where its conditions do not hold or nothing of it is known. */
export function saidAt(
  state: State,
  line: WrittenLine,
  place: string,
  { led = state, whole }: How = {},
): Said | undefined {
  const { values } = state;
  if (line.when && led.values.holds(line.when, place) !== true) return undefined;
  if (line.once !== undefined && stands(state, line.once, place) !== true) return undefined;
  if (line.until !== undefined && stands(state, line.until, place) !== false) return undefined;
  const keys = keysNamedIn(line.say);
  const homeOf = (key: string): string | undefined => values.enclosing(state.model.keys.get(key)?.at ?? 'job', place);
  const known = (key: string): boolean => {
    const home = homeOf(key);
    return home !== undefined && values.get(key, home).known;
  };
  if (keys.length && !(whole ? keys.every(known) : keys.some(known))) return undefined;
  const shown = (key: string): string => {
    const home = homeOf(key) ?? place;
    if (values.get(key, home).known) return showKey(values, key, home, true) || '(left empty)';
    const lacks = lacksOf(state, key, home);
    return lacks === 'unknown' ? 'not known' : lacks;
  };
  return { ...whereOf(state, place), text: fillIn(values, line.say, place, shown), keys };
}

export const saidLines = (state: State, lines: readonly WrittenLine[] = [], how?: How): Said[] =>
  lines.flatMap((line) => placesAt(state, line.at ?? 'job').flatMap((p) => saidAt(state, line, p, how) ?? []));

export const saidRows = (
  state: State,
  lines: readonly (WrittenLine & { readonly heading: string })[] = [],
  how?: How,
): SaidRow[] =>
  lines.flatMap((line) =>
    placesAt(state, line.at ?? 'job').flatMap((p) => {
      const one = saidAt(state, line, p, how);
      return one ? [{ ...one, heading: line.heading }] : [];
    }),
  );
