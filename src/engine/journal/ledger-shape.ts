/** What the folded journal holds. */
import type { Model } from '../../procedure/model.js';
import type { Answer, Entry, Pace } from './entry.js';
import type { Hands } from './witness.js';

export type Of<K extends Entry['kind']> = Extract<Entry, { kind: K }>;

/** An answer with its corrections applied. */
export interface Given {
  readonly value: Answer;
  readonly plusMinus: number | undefined;
  readonly typed: string | undefined;
  /** The entry that gave the value that holds now. */
  readonly entry: Of<'answer'> | Of<'correct'>;
  /** The entry that first answered. */
  readonly first: Of<'answer'>;
  /** In a row of a log: it keeps its place there and counts as not answered. */
  readonly unfit?: true;
}
/** An answer or correction that its question could not have had: it counts as not given. */
export interface Unfit {
  readonly entry: Of<'answer'> | Of<'correct'>;
  /** In a few words. */
  readonly why: string;
}
export type Row = ReadonlyMap<string, Given>;

/** What was recorded about one step at one place. */
export interface StepLedger {
  readonly answers: Map<string, Given>;
  readonly rows: Map<string, Given>[];
  caution: Of<'caution'> | undefined;
  done: Of<'done'> | undefined;
  settled: Of<'settle'> | undefined;
  signs: Of<'sign'>[];
  /** Signatures that were asked for and refused. */
  refusals: Of<'refuse'>[];
  overrules: Of<'overrule'>[];
  predictions: Of<'predict'>[];
  /** Latest entry that advanced the step. */
  last: Entry | undefined;
  /** Number of the latest answer, correction or confirmation: a signature older than it no longer stands. */
  seq: number;
}

const untold: StepLedger = {
  answers: new Map(),
  rows: [],
  caution: undefined,
  done: undefined,
  settled: undefined,
  signs: [],
  refusals: [],
  overrules: [],
  predictions: [],
  last: undefined,
  seq: 0,
};

/** A copy that may be changed; without one before it, of a step of which nothing was recorded. */
export function stepLike(before = untold): StepLedger {
  const { answers, rows, signs, refusals, overrules, predictions } = before;
  return {
    ...before,
    answers: new Map(answers),
    rows: [...rows],
    signs: [...signs],
    refusals: [...refusals],
    overrules: [...overrules],
    predictions: [...predictions],
  };
}

export interface Ledger {
  readonly job: Of<'job'> | undefined;
  readonly operator: string;
  readonly pace: Pace;
  /** Number of the first entry of the latest sitting. */
  readonly sitting: number;
  /** Number of the entry with which whoever works now came, another person than before. */
  readonly since: number;
  readonly steps: ReadonlyMap<string, StepLedger>;
  readonly raised: readonly Of<'raise'>[];
  /** Steps at their places of which an event took back what was recorded, and the number of the latest such event. */
  readonly reopened: ReadonlyMap<string, number>;
  readonly corrections: readonly Of<'correct'>[];
  readonly notes: readonly (Of<'note'> | Of<'handover'>)[];
  readonly handover: Of<'handover'> | undefined;
  /** Sequence numbers that an undo took back. */
  readonly undone: ReadonlySet<number>;
  /** Who worked where: they can't witness there. */
  readonly hands: Hands;
  /** Signatures where a witness was due, by somebody who can't be one: they count for nothing. */
  readonly noWitness: readonly Of<'sign'>[];
  /** Answers that do not fit their questions. */
  readonly unfit: readonly Unfit[];
  /** Pairs of entries between which the wall clock ran backwards. */
  readonly clockJumps: readonly { readonly before: Entry; readonly after: Entry }[];
  /** Notes of the guide of by how much the clock ran otherwise than the time, where that is known. */
  readonly clockGains: readonly ClockGain[];
}
export interface ClockGain {
  readonly seq: number;
  /** Milliseconds, as in the note. */
  readonly gained: number;
}

/** After so many minutes without an entry a new sitting begins: dangers confirmed before it are confirmed anew. */
const SITTING_PAUSE = 60;

/** So many minutes a clock may be set back, as by a time service, and nobody was away for that. */
const CLOCK_STEP = 2;

/** True when so many milliseconds between two entries, or since one, don't tell how much time went by: the clock ran back. */
export const ranBack = (pause: number): boolean => pause < -CLOCK_STEP * 60_000;

/** True when so many milliseconds more than the time that went by are no time service's doing. */
export const ranAhead = (gained: number): boolean => gained > CLOCK_STEP * 60_000;

/** True when so many milliseconds between two entries, or since the last one, begin a new sitting; unknown counts as long. */
export const beginsSitting = (pause: number): boolean => pause > SITTING_PAUSE * 60_000 || ranBack(pause);

export const slot = (step: string, place: string): string => `${step}@${place}`;

/** What stands for the complete rows of a log, which most of its answers leave as they were. */
export const rowsOf = (slot: string): string => `${slot}#rows`;

/** True when one place is the other or encloses it. */
export function related(a: string, b: string): boolean {
  return a === b || a === 'job' || b === 'job' || a.startsWith(`${b}.`) || b.startsWith(`${a}.`);
}

/** Reports of an event that count at a place: none of work that was undone, since another event reopened a step of its branch. */
export function raisedAt(model: Model, raised: Ledger['raised'], branch: string, place: string): Of<'raise'>[] {
  const undoes = (id: string): boolean =>
    id !== branch &&
    (model.procedure.branches?.find((b) => b.id === id)?.reopens ?? []).some(
      (s) => model.steps.get(s)?.branch === branch,
    );
  return raised.filter(
    (r) =>
      r.branch === branch &&
      related(r.place, place) &&
      !raised.some((later) => later.seq > r.seq && related(later.place, r.place) && undoes(later.branch)),
  );
}
