/** What an apprentice takes away from a practice job: caught, missed, expected, how long, gone on against advice. Pure. */
import type { EntryKind } from '../engine/journal/entry.js';
import { sameInitials } from '../engine/journal/initials.js';
import type { Of } from '../engine/journal/ledger-shape.js';
import { entriesOf, type State } from '../engine/state/state.js';
import { answeredAway, type StopLine } from '../engine/state/stops.js';
import { fillIn, labelAt } from '../engine/values/texts.js';
import { type WayTaken, waysTaken } from './careless-ways.js';
import { type Effect, effectsBefore, effectsOf } from './effects.js';
import { apprenticeOf, type Helper, helpersOf, isFilled, isOwn, setUpAt } from './filled.js';
import { type Misread, misreadings, type PutRight, putRight, readOff } from './misread.js';
import { type PhaseTime, phaseTimes } from './phase-times.js';
import type { PracticeRotor } from './practice-rotor.js';
import { type JudgedPrediction, judgedPredictions } from './predictions.js';
import { isBegun, reached, type Stands, standsAt } from './stands.js';
import { type TrapEnd, type TrapOutcome, trapOutcomes } from './trap-outcomes.js';
import { truthsOf } from './truth.js';

export interface DebriefTrap {
  readonly id: string;
  readonly title: string;
  readonly where: string;
  readonly end: TrapEnd;
  readonly wouldHave: string;
  readonly lesson: string;
  /** Same for traps that are the same in other clothes. */
  readonly skill: string;
  readonly cause?: { readonly seen: string; readonly takenFor: string; readonly was: string };
  /** When it was first fallen into, ISO. */
  readonly fellAt?: string;
  /** Initials of another than the apprentice who caught it or fell into it: no mark comes of it. */
  readonly by?: string;
  /** Fallen into, and still to be put right until that step is done; its title. */
  readonly openUntil?: string;
}
interface DebriefOverrule {
  readonly title: string;
  readonly where: string;
  readonly says: string;
  readonly reason: string;
  readonly initials: string;
  /** What it can cost, where somebody careful would not have gone on. */
  readonly careless?: string;
}
interface DebriefHold {
  readonly title: string;
  readonly where: string;
  readonly how: 'witnessed' | 'self-checked';
  readonly initials: string;
  /** A finding of the mentor's own was asked for, and none was given. */
  readonly noOwn?: true;
  /** What the mentor found before the guide's figures were shown. */
  readonly own?: string;
  /** What was changed since took the signature away. */
  readonly undone?: true;
  /** Seconds after the entry before it: how long it was looked at, at most. */
  readonly seconds: number;
}
interface DebriefRefusal {
  readonly title: string;
  readonly where: string;
  readonly reason: string;
  readonly initials: string;
  /** ISO instant. */
  readonly at: string;
  /** Seconds until it was signed after all. */
  readonly signedAfter?: number;
}
/** Also the shape of `rotorside debrief --json`. */
export interface Debrief {
  readonly debrief: 2;
  readonly job: string;
  readonly apprentice: string;
  readonly mentor?: string;
  /** Id of the practice rotor; absent for a job that was not on one. */
  readonly rotor?: string;
  readonly title?: string;
  readonly finished: boolean;
  /** Somebody did something in it; what the bench did before a late start left out. */
  readonly begun: boolean;
  /** At which step it stands, and whether a stop or a signature holds it there; absent where nothing can be done. */
  readonly stands?: Stands;
  /** Order of the phase in which it stands: what lies in earlier ones is behind, all of it when finished. */
  readonly reached: number;
  /** Phase at which the apprentice began, where it was not the first. */
  readonly from?: string;
  /** Its title. */
  readonly begunAt?: string;
  /** Harm was told as soon as it was done. */
  readonly atOnce?: true;
  /** Others who worked in it; none of what they did costs or brings a mark. */
  readonly helped: readonly Helper[];
  readonly done: number;
  readonly total: number;
  /** ISO instants of the first and the last entry; what was done before a late start lies between the first and the second. */
  readonly firstEntry: string;
  readonly setUp: string;
  readonly lastEntry: string;
  readonly traps: readonly DebriefTrap[];
  readonly predictions: readonly JudgedPrediction[];
  /** Ways of going about it that no trap here tells of: careful, or careless though nothing came of it. */
  readonly ways: readonly WayTaken[];
  /** Of so many marks for care: one for each trap met, each such way, each reading and each careless going on. */
  readonly care?: { readonly marks: number; readonly of: number; readonly readings: number };
  /** Readings that were typed otherwise than the invented rotor shows them. */
  readonly misread: readonly (Misread & {
    /** What it did by itself to the figures that decide. */
    readonly did: readonly Effect[];
  })[];
  /** Readings that were left empty where that is offered; none of them costs a mark. */
  readonly notTaken: readonly (Misread & { readonly did: readonly Effect[] })[];
  /** What several of them did to those figures. */
  readonly didTogether: readonly Effect[];
  /** Those that were typed otherwise at first and stand as it shows now. */
  readonly putRight: readonly (PutRight & { readonly did: readonly Effect[] })[];
  /** Traps of this rotor that lie before a late start. */
  readonly before: number;
  readonly phases: readonly PhaseTime[];
  /** Minutes of breaks. */
  readonly away: number;
  readonly overrules: readonly DebriefOverrule[];
  readonly answeredAway: readonly StopLine[];
  readonly holds: readonly DebriefHold[];
  /** Signatures that were asked for and refused. */
  readonly refusals: readonly DebriefRefusal[];
  /** Readings corrected on the way, each once; those of `putRight` left out. */
  readonly corrections: readonly string[];
  /** Minutes at the keys, what was let pass left out; where they were counted. */
  readonly keys?: number;
  readonly next?: { readonly id: string; readonly title: string; readonly why: string };
  /** What is due first by all practice of this person, and its ISO day; the title of the rotor that it was met on, where it is another. */
  readonly again?: { readonly skill: string; readonly due: string; readonly from?: string };
}

const byLuck = 'What it was, by luck: the way that you took can’t tell.';

/** True where all that the trap hides was typed as it is. */
function knownByLuck(state: State, { trap }: TrapOutcome): boolean {
  const hidden = Object.entries(trap.truth ?? {});
  const typed = hidden.map(([key]) => state.values.get(key, trap.at));
  return hidden.length > 0 && typed.every((v, i) => v.known && String(v.value) === String(hidden[i]?.[1]));
}

export const shownTrap = (t: TrapOutcome, state: State): DebriefTrap => ({
  id: t.trap.id,
  title: t.trap.title,
  where: t.where,
  end: t.end,
  wouldHave: t.trap.would_have,
  lesson: t.trap.lesson,
  skill: t.trap.skill ?? t.trap.id,
  ...(t.trap.seen && t.trap.taken_for && t.trap.was
    ? { cause: { seen: t.trap.seen, takenFor: knownByLuck(state, t) ? byLuck : t.trap.taken_for, was: t.trap.was } }
    : {}),
  ...(t.fellAt ? { fellAt: t.fellAt.at } : {}),
  ...(t.by === undefined ? {} : { by: t.by }),
  ...(t.openUntil === undefined ? {} : { openUntil: t.openUntil }),
});

/** @param rotor undefined when the job was not on a practice rotor, or when that rotor is no longer here */
export function debriefOf(
  state: State,
  rotor: PracticeRotor | undefined,
  others: readonly PracticeRotor[] = [],
): Debrief {
  const job = state.ledger.job;
  const { done, total } = state.progress;
  const times = phaseTimes(state);
  const titles = new Map(state.model.procedure.phases.map((p) => [p.id, p.title]));
  const traps = rotor ? trapOutcomes(state, rotor) : [];
  const all = rotor ? misreadings(state, rotor) : [];
  const own = all.filter((m) => sameInitials(m.by, apprenticeOf(state)));
  const misread = own.filter((m) => !m.empty);
  const notTaken = own.filter((m) => m.empty);
  const effects = effectsOf(state, misread);
  const right = rotor ? putRight(state, rotor, apprenticeOf(state)) : [];
  // What was left empty was not said to be otherwise, and what can still be put right is not given away.
  const truths = truthsOf(
    all.filter((m) => !m.empty),
    traps.filter((t) => t.openUntil === undefined),
  );
  const stands = standsAt(state);
  const shown = traps.map((t) => shownTrap(t, state));
  const next = rotor && nextFor(rotor, shown, others);
  const ways = rotor ? waysTaken(state, rotor, traps) : [];
  const overrules = live(state, 'overrule').map((e) => overruled(state, e, rotor));
  return {
    debrief: 2,
    job: job?.name ?? '',
    apprentice: apprenticeOf(state),
    ...(job?.mentor ? { mentor: job.mentor } : {}),
    ...(job?.practice ? { rotor: job.practice } : {}),
    ...(rotor ? { title: rotor.title } : {}),
    finished: state.finished,
    begun: isBegun(state),
    ...(stands ? { stands } : {}),
    reached: reached(state),
    ...(job?.from ? { from: job.from, begunAt: titles.get(job.from) ?? job.from } : {}),
    ...(job?.lessons === 'at-once' ? { atOnce: true as const } : {}),
    helped: helpersOf(state),
    done,
    total,
    firstEntry: state.entries[0]?.at ?? '',
    setUp: setUpAt(state),
    lastEntry: state.entries.at(-1)?.at ?? '',
    traps: shown,
    predictions: judgedPredictions(state, truths),
    ways,
    ...(rotor
      ? {
          care: careOf(shown, ways, {
            readings: readOff(state, rotor, apprenticeOf(state)),
            misread: misread.length,
            overruled: overrules.filter((o) => o.careless).length,
          }),
        }
      : {}),
    misread: misread.map((m, i) => ({ ...m, did: effects.each[i] ?? [] })),
    notTaken: notTaken.map((m) => ({ ...m, did: effectsOf(state, [m]).each[0] ?? [] })),
    didTogether: effects.together,
    putRight: right.map((p) => ({ ...p, did: effectsBefore(state, p) })),
    before: rotor && job?.from ? rotor.file.traps.length - traps.length : 0,
    phases: times.phases,
    away: times.away,
    overrules,
    answeredAway: answeredAway(state),
    holds: live(state, 'sign').map((e) => ({
      ...placed(state, e),
      how: e.role === 'mentor' ? 'witnessed' : 'self-checked',
      initials: e.initials,
      ...(e.role === 'mentor' && !e.own && state.model.steps.get(e.step)?.hold?.own ? { noOwn: true as const } : {}),
      ...(e.own ? { own: e.own } : {}),
      ...(state.views.some((v) => v.step.id === e.step && v.place === e.place && v.signed)
        ? {}
        : { undone: true as const }),
      seconds: secondsBefore(state, e.seq),
    })),
    refusals: live(state, 'refuse').map((e) => refused(state, e)),
    corrections: correctedOnes(state, right),
    ...(next ? { next } : {}),
  };
}

/** By name and place; what is told as put right is told there. */
function correctedOnes(state: State, told: readonly PutRight[]): string[] {
  const names = live(state, 'correct').flatMap((e) => {
    const label = labelAt(state.values, e.key, e.place);
    const { where } = placed(state, e);
    return told.some((p) => p.label === label && p.where === where) ? [] : [where ? `${label} (${where})` : label];
  });
  return [...new Set(names)];
}

/**
 * Late is half seen through. Whoever is careful has all of them, whatever was expected wrongly; a fault takes one and adds
 * none, so that two people on one rotor can be compared.
 */
function careOf(
  traps: readonly DebriefTrap[],
  ways: readonly WayTaken[],
  { readings, misread, overruled }: { readonly readings: number; readonly misread: number; readonly overruled: number },
): NonNullable<Debrief['care']> {
  const met = traps.filter((t) => t.end !== 'not-met' && t.by === undefined && t.openUntil === undefined);
  const seen = met.reduce((n, t) => n + (t.end === 'caught' ? 1 : t.end === 'caught-late' ? 0.5 : 0), 0);
  return {
    marks: seen + ways.filter((w) => !w.careless).length + readings - misread,
    of: met.length + ways.length + readings + overruled,
    readings,
  };
}

/** The same again after a fall; otherwise the one that the rotor names. */
function nextFor(
  rotor: PracticeRotor,
  traps: readonly DebriefTrap[],
  others: readonly PracticeRotor[],
): Debrief['next'] {
  const fallen = traps.find((t) => t.end === 'fell' && t.by === undefined && t.openUntil === undefined);
  if (fallen)
    return {
      id: rotor.id,
      title: rotor.title,
      why: `Once more, with an eye on this: ${fallen.lesson}`,
    };
  if (traps.some((t) => t.end === 'not-met'))
    return {
      id: rotor.id,
      title: rotor.title,
      why: 'You did not come as far as its trap.',
    };
  const next = others.find((r) => r.id === rotor.next);
  return next && { id: next.id, title: next.title, why: next.teaches };
}

function secondsBefore(state: State, seq: number): number {
  const i = state.entries.findIndex((e) => e.seq === seq);
  const [before, own] = [state.entries[i - 1]?.at ?? '', state.entries[i]?.at ?? ''];
  const gap = (Date.parse(own) - Date.parse(before)) / 1000;
  return Number.isFinite(gap) ? Math.max(0, Math.round(gap)) : 0;
}

/** Those that count and that somebody recorded. */
const live = <K extends EntryKind>(state: State, kind: K): Of<K>[] =>
  entriesOf(state, kind).filter((e) => !isFilled(e));

function placed(state: State, e: { readonly step: string; readonly place: string }): { title: string; where: string } {
  return {
    title: fillIn(state.values, state.model.steps.get(e.step)?.title ?? e.step, e.place),
    where: e.place === 'job' ? '' : state.values.placeLabel(e.place),
  };
}

function overruled(state: State, e: Of<'overrule'>, rotor: PracticeRotor | undefined): DebriefOverrule {
  const step = state.model.steps.get(e.step);
  const say = step?.gates?.find((g) => g.id === e.gate)?.say ?? step?.wait?.label ?? e.gate;
  return {
    ...placed(state, e),
    says: fillIn(state.values, say, e.place),
    reason: e.reason,
    initials: e.initials,
    // Whoever signs for it went on: what a mentor overrules is no mark of the apprentice's.
    ...(rotor && isOwn(state, e) && sameInitials(e.initials, apprenticeOf(state)) && !goesOn(rotor, e.gate)
      ? { careless: fillIn(state.values, step?.otherwise ?? say, e.place) }
      : {}),
  };
}

function refused(state: State, e: Of<'refuse'>): DebriefRefusal {
  const signed = live(state, 'sign').find((s) => s.seq > e.seq && s.step === e.step && s.place === e.place);
  const gap = signed && Math.round((Date.parse(signed.at) - Date.parse(e.at)) / 1000);
  const { reason, initials, at } = e;
  return {
    ...placed(state, e),
    reason,
    initials,
    at,
    ...(gap !== undefined && Number.isFinite(gap) ? { signedAfter: Math.max(0, gap) } : {}),
  };
}

/** True where somebody careful goes on too, for a good reason. */
function goesOn(rotor: PracticeRotor, gate: string): boolean {
  const how = rotor.file.careful?.gates?.[gate];
  return typeof how === 'object' && 'overrule' in how;
}
