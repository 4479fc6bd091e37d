/** What the procedure writes for the first page and the tag, filled in with the job's values. Pure. */

import type { State } from '../engine/state/state.js';
import { fillIn } from '../engine/values/texts.js';
import { DAY } from '../units/kinds.js';
import { figuresOfKey } from './figures.js';
import { saidLines, saidRows } from './said.js';
import type { Due, DueLook, Front, Said } from './sheet-data.js';

/** Where nobody asked how long it runs, the day is told for these. */
const USUAL_DAYS = [24, 8] as const;

function positive(state: State, key: string): number | undefined {
  const found = state.values.get(key, 'job');
  return found.known && typeof found.value === 'number' && found.value > 0 ? found.value : undefined;
}

/** Initials of whoever recorded a value. */
function setBy(state: State, key: string): { by: string } | undefined {
  const from = state.model.keys.get(key)?.from;
  const given = from?.by === 'question' ? state.view(from.step.id, 'job')?.answered : undefined;
  const by = given?.find((a) => a.question.key === key)?.given.entry.by;
  return by === undefined ? undefined : { by };
}

function dueOf(state: State, led: State): Due | undefined {
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
    ...setBy(state, spec.hours),
    ...(spec.first && early !== undefined && early < hours ? { first: look(early, spec.first.say) } : {}),
    why: saidLines(state, spec.why, { led, whole: true }),
  };
}

/**
 * @param led the state by which work is led: what it warns of is told before all of it is sure
 * @param unusual what the journal itself shows
 */
export function frontOf(state: State, led: State, unusual: readonly Said[]): Front {
  const front = state.model.procedure.sheet?.front;
  const barred = saidLines(state, front?.barred, { led });
  // Nobody plans the next look of what may not run.
  const due = barred.length ? undefined : dueOf(state, led);
  const verdict = saidLines(state, front?.verdict, { led })[0]?.text;
  return {
    barred,
    known: (front?.known_by ?? []).flatMap((key) => figuresOfKey(state, key)).filter((f) => f.known),
    ...(verdict ? { verdict } : {}),
    rows: saidRows(state, front?.rows, { led }),
    unusual: [...saidLines(state, front?.unusual, { led }), ...unusual],
    ...(due ? { due } : {}),
    watch: saidLines(state, front?.watch, { led, whole: true }),
    instruments: saidRows(state, front?.instruments, { led }),
    tag: saidRows(state, front?.tag, { led }),
  };
}
