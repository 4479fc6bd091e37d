/** Who signed, who overruled, and whether it still stands. */
import type { Entry } from '../engine/journal/entry.js';
import { FILLED_BY, sameInitials } from '../engine/journal/initials.js';
import { slot } from '../engine/journal/ledger.js';
import type { Of, Row } from '../engine/journal/ledger-shape.js';
import { standingOf } from '../engine/state/overruled.js';
import { apartWords, ownFigure } from '../engine/state/own-figure.js';
import { entriesOf, namesOf, State } from '../engine/state/state.js';
import type { StopLine } from '../engine/state/stops.js';
import { type OfStep, ofStep, partLabel, textOf } from '../engine/state/told.js';
import { vouchWords } from '../engine/state/vouch.js';
import { fillIn } from '../engine/values/texts.js';
import type { Head, Overrule, RefusedSignature, Signature } from './sheet-data.js';

/** The step and place that an entry names; a step that the procedure no longer has keeps its id as title. */
export function stepOfEntry(state: State, e: { readonly step: string; readonly place: string }): OfStep {
  const step = state.model.steps.get(e.step);
  if (step) return ofStep(state, { step, place: e.place });
  return { place: e.place, where: e.place === 'job' ? '' : e.place, step: e.step, title: e.step };
}

/** What was signed keeps its words: a stop that was overruled later is no part of them. */
function asSigned(state: State, e: Of<'sign'>): State {
  const overruled = entriesOf(state, 'overrule').some((o) => o.step === e.step && o.place === e.place);
  if (!overruled) return state;
  return new State(state.model, state.entries.slice(0, e.seq), Date.parse(e.at), state.options);
}

/** Both figures, as they were when it was signed, where the own one was further off than the hold point allows. */
function apartOf(state: State, e: Of<'sign'>): string | undefined {
  const step = state.model.steps.get(e.step);
  if (!e.own || !step?.hold?.near) return undefined;
  const then = new State(state.model, state.entries.slice(0, e.seq), Date.parse(e.at), state.options);
  const read = ownFigure(then, step, e.place, e.own);
  return read?.ok && read.apart ? apartWords(read.apart) : undefined;
}

/** In practice that began late: nobody's work, which nobody vouches for. */
export const isFilledIn = (state: State, e: Pick<Entry, 'by'>): boolean =>
  state.ledger.job?.practice !== undefined && state.ledger.job.from !== undefined && e.by === FILLED_BY;
const recorded =
  (state: State) =>
  (e: Entry): boolean =>
    !isFilledIn(state, e);

export function signaturesOf(state: State): Signature[] {
  const mentor = state.ledger.job?.mentor;
  const signs = entriesOf(state, 'sign').filter(recorded(state));
  return signs.map((e) => {
    const before = state.entries[e.seq - 2];
    const after = before ? Math.round((Date.parse(e.at) - Date.parse(before.at)) / 1000) : -1;
    const step = state.model.steps.get(e.step);
    const apart = apartOf(state, e);
    const says = step ? vouchWords(asSigned(state, e), step, e.place, e.role === 'mentor' ? 'mentor' : 'self') : '';
    return {
      ...stepOfEntry(state, e),
      at: e.at,
      by: e.by,
      role: e.role === 'mentor' ? 'witnessed' : 'self-checked',
      initials: e.initials,
      hands: e.by,
      ...(e.own ? { own: e.own } : {}),
      ...(apart ? { apart: `${apart} ${e.reason ? `Reason given: ${e.reason}` : 'No reason was given'}.` } : {}),
      ...(e.role === 'mentor' && step?.hold?.own && !e.own ? { noOwn: true as const } : {}),
      ...(after >= 0 ? { after } : {}),
      says,
      ...(e.role === 'mentor' && mentor && !sameInitials(e.initials, mentor) ? { insteadOf: mentor } : {}),
      ...(state.ledger.noWitness.includes(e) ? { invalid: true } : {}),
      stands: state.view(e.step, e.place)?.signed?.seq === e.seq,
    };
  });
}

export const refusalsOf = (state: State): RefusedSignature[] =>
  entriesOf(state, 'refuse').map((e) => ({
    ...stepOfEntry(state, e),
    at: e.at,
    by: e.by,
    initials: e.initials,
    reason: e.reason,
  }));

/** Figures of one reading of a log, each with its name. */
const readingOf = (state: State, place: string, row: Row | undefined): string =>
  [...(row?.values() ?? [])]
    .filter((g) => typeof g.value === 'number')
    .map((g) => `${partLabel(state, g.entry.key, place)} ${textOf(state, g.entry.key, g.value, g.plusMinus)}`)
    .join(', ');

/** The reading of a log at which somebody went on against a stop, and the one that followed. */
function readingsAt(state: State, e: Of<'overrule'>): Pick<Overrule, 'reading' | 'next'> {
  const rows = state.ledger.steps.get(slot(e.step, e.place))?.rows ?? [];
  const at = rows.findLastIndex((row) => [...row.values()].some((g) => g.first.seq < e.seq));
  const [reading, next] = [readingOf(state, e.place, rows[at]), readingOf(state, e.place, rows[at + 1])];
  return reading ? { reading, ...(next ? { next } : {}) } : {};
}

/** `stops`: those that were met, with their sentences as they stood then. */
export function overrulesOf(state: State, stops: readonly StopLine[]): Overrule[] {
  const overrules = entriesOf(state, 'overrule').filter(recorded(state));
  return overrules.map((e) => {
    const step = state.model.steps.get(e.step);
    const wait = e.gate === 'wait' && step?.wait ? `Waiting time for ${step.wait.label} was cut short.` : undefined;
    const say = step?.gates?.find((g) => g.id === e.gate)?.say;
    const met = stops.findLast((s) => s.step === e.step && s.place === e.place && s.gate === e.gate && s.seq < e.seq);
    return {
      ...stepOfEntry(state, e),
      at: e.at,
      by: e.by,
      gate: e.gate,
      says: wait ?? met?.says ?? (say ? fillIn(state.values, say, e.place) : e.gate),
      reason: e.reason,
      initials: e.initials,
      now: standingOf(state, e),
      ...readingsAt(state, e),
    };
  });
}

/** Everybody whose initials stand in the journal, with the part they took. */
export function peopleOf(state: State): Head['people'] {
  const job = state.ledger.job;
  const count = new Map<string, number>();
  const own = state.entries.filter(recorded(state));
  for (const e of own) count.set(e.by, (count.get(e.by) ?? 0) + 1);
  const vouched = entriesOf(state, 'sign', 'refuse', 'overrule').filter(recorded(state));
  const signers = vouched.map((e) => e.initials);
  const all = new Set([...count.keys(), ...signers, job?.apprentice, job?.mentor].filter((x) => x !== undefined));
  const overruled = new Set(vouched.flatMap((e) => (e.kind === 'overrule' ? [e.initials] : [])));
  const signed = (role: 'self' | 'mentor') =>
    new Set(vouched.flatMap((e) => (e.kind === 'sign' && e.role === role ? [e.initials] : [])));
  const [checked, witnessed] = [signed('self'), signed('mentor')];
  const names = namesOf(state);
  return [...all].map((initials) => {
    const name = names.get(initials);
    const roles = [
      initials === job?.mentor ? 'mentor' : undefined,
      initials === job?.apprentice ? 'apprentice' : undefined,
      witnessed.has(initials) && initials !== job?.mentor ? 'witness' : undefined,
      initials !== job?.apprentice && count.has(initials) && initials !== job?.mentor ? 'technician' : undefined,
      !count.has(initials) && !witnessed.has(initials) && overruled.has(initials) ? 'overruled a stop' : undefined,
      !count.has(initials) && checked.has(initials) ? 'signed a self-check' : undefined,
    ].filter((r) => r !== undefined);
    return {
      initials,
      ...(name ? { name } : {}),
      role: roles.join(', ') || 'named',
      entries: count.get(initials) ?? 0,
    };
  });
}
