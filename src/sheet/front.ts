/** What the procedure writes for the first page and the tag, filled in with the job's values. Pure. */
import { lacksOf } from '../engine/state/found.js';
import type { State } from '../engine/state/state.js';
import { fillIn, showKey } from '../engine/values/texts.js';
import { figuresOfKey, whereOf } from './figures.js';
import type { Due, DueLook, Front, Said, SaidRow } from './sheet-data.js';

interface Line {
  readonly at?: string | undefined;
  readonly when?: string | undefined;
  readonly say: string;
}
const DAY = 86_400_000;
/** Where nobody asked how long it runs, the day is told for these. */
const USUAL_DAYS = [24, 8] as const;

const keysIn = (text: string): string[] => [...text.matchAll(/\{([a-z][a-z0-9_]*)\}/g)].map((m) => m[1] ?? '');

function placesAt(state: State, at: string): readonly string[] {
  return at === 'job' ? ['job'] : state.values.below(at, 'job');
}

/**
 * A line at one place; none where its condition does not hold or nothing of it is known.
 * @param led the state by which the condition is judged
 */
function saidAt(state: State, line: Line, place: string, led = state): Said | undefined {
  const { values } = state;
  if (line.when && led.values.holds(line.when, place) !== true) return undefined;
  const keys = keysIn(line.say);
  const known = (key: string): boolean => {
    const home = values.enclosing(state.model.keys.get(key)?.at ?? 'job', place);
    return home !== undefined && values.get(key, home).known;
  };
  if (keys.length && !keys.some(known)) return undefined;
  const shown = (key: string): string => {
    const home = values.enclosing(state.model.keys.get(key)?.at ?? 'job', place) ?? place;
    if (values.get(key, home).known) return showKey(values, key, home, true) || '(left empty)';
    const lacks = lacksOf(state, key, home);
    return lacks === 'unknown' ? 'not known' : lacks;
  };
  return { ...whereOf(state, place), text: fillIn(values, line.say, place, shown), keys };
}

const said = (state: State, lines: readonly Line[] | undefined, led?: State): Said[] =>
  (lines ?? []).flatMap((line) => placesAt(state, line.at ?? 'job').flatMap((p) => saidAt(state, line, p, led) ?? []));

const rows = (state: State, lines: readonly (Line & { heading: string })[] | undefined): SaidRow[] =>
  (lines ?? []).flatMap((line) =>
    placesAt(state, line.at ?? 'job').flatMap((p) => {
      const one = saidAt(state, line, p);
      return one ? [{ ...one, heading: line.heading }] : [];
    }),
  );

function positive(state: State, key: string): number | undefined {
  const found = state.values.get(key, 'job');
  return found.known && typeof found.value === 'number' && found.value > 0 ? found.value : undefined;
}

function dueOf(state: State): Due | undefined {
  const spec = state.model.procedure.sheet?.front?.due;
  const last = state.entries.at(-1);
  if (!spec || !last) return undefined;
  const hours = positive(state, spec.hours);
  if (hours === undefined) return undefined;
  const own = spec.a_day === undefined ? undefined : positive(state, spec.a_day);
  const aDay = own !== undefined && own <= 24 ? [own] : USUAL_DAYS;
  const from = Date.parse(last.at);
  const look = (after: number, say: string | undefined): DueLook => ({
    hours: after,
    // Rounded down: a day early is the safe side.
    dates: aDay.map((a) => ({ aDay: a, at: new Date(from + Math.floor(after / a) * DAY).toISOString() })),
    ...(say ? { say: fillIn(state.values, say, 'job') } : {}),
  });
  const early = spec.first && positive(state, spec.first.hours);
  return {
    ...look(hours, spec.say),
    from: last.at,
    ...(spec.first && early !== undefined && early < hours ? { first: look(early, spec.first.say) } : {}),
    why: said(state, spec.why),
  };
}

/**
 * @param led the state by which work is led: what it warns of is told before all of it is sure
 * @param unusual what the journal itself shows
 */
export function frontOf(state: State, led: State, unusual: readonly Said[]): Front {
  const front = state.model.procedure.sheet?.front;
  const due = dueOf(state);
  const verdict = said(state, front?.verdict)[0]?.text;
  return {
    known: (front?.known_by ?? []).flatMap((key) => figuresOfKey(state, key)).filter((f) => f.known),
    ...(verdict ? { verdict } : {}),
    rows: rows(state, front?.rows),
    unusual: [...said(state, front?.unusual, led), ...unusual],
    ...(due ? { due } : {}),
    watch: said(state, front?.watch),
    instruments: rows(state, front?.instruments),
    tag: rows(state, front?.tag),
  };
}
