/** The journal: what a job is made of. Entries are only ever added. */

import type { Answer } from '../../procedure/answer.js';

export type { Answer };

/**
 * How somebody works. Learning: one thing at a time. Brisk, for whoever knows the job: what is alike is asked once,
 * what is due is filled in, a danger is confirmed once in a sitting. Gates, hold points and values are the same.
 */
export type Pace = 'learning' | 'brisk';

interface Common {
  /** 1, 2, 3 … without gaps. */
  readonly seq: number;
  /** ISO 8601 instant from the wall clock. */
  readonly at: string;
  /** Initials of who did it. */
  readonly by: string;
  /** Recorded by the same key as the entry before it; both are taken back together. */
  readonly joined?: true;
}
/** Place ids: 'job', or a path such as 'a' (a position) or 'a.front' (a seal of it). */
interface AtStep {
  readonly step: string;
  readonly place: string;
}
/** A figure that is compared over the years, as it was in one job. */
export interface LifeFigure {
  readonly key: string;
  readonly label: string;
  /** 'job' or a position, and what it was called. */
  readonly place: string;
  readonly where: string;
  /** Canonical unit. */
  readonly value: number;
  readonly unit: string;
  readonly plusMinus?: number;
  readonly text: string;
  /** Of a figure that is a list, such as one for each stage: which item. */
  readonly item?: number;
}
/** A finished job in the life of its rotor. */
export interface LifeEvent {
  readonly job: string;
  readonly name: string;
  /** What such a job is, such as `Regreased`. */
  readonly did: string;
  /** ISO instant of the last entry. */
  readonly at: string;
  readonly machine: string;
  /** What is measured in service is held against what comes after this. */
  readonly begins?: true;
  /** Hours of running to the next look, and its day. */
  readonly hours?: number;
  readonly due?: string;
  /** What was decided, bearing by bearing. */
  readonly found: readonly { readonly where: string; readonly text: string }[];
  readonly figures: readonly LifeFigure[];
}

/** The finished job that an answer was taken over from, confirmed when this one began. */
export interface TakenFrom {
  readonly job: string;
  readonly name: string;
  /** ISO instant of the end of that job. */
  readonly at: string;
}
/** Figures the technician had before them when a physical step or a decision was completed. */
interface WithFigures {
  readonly figures?: Readonly<Record<string, Answer>>;
}

export type Entry = Common &
  (
    | {
        readonly kind: 'job';
        readonly name: string;
        readonly procedure: string;
        readonly version: string;
        readonly hash: string;
        readonly practice?: string;
        readonly apprentice?: string;
        readonly mentor?: string;
        /** In practice: a lesson is told as soon as its harm is done, not only at the end. */
        readonly lessons?: 'at-once';
        /** In practice: the phase at which the apprentice began; what comes before was filled in from the rotor. */
        readonly from?: string;
        /** The finished job that this one follows. */
        readonly earlier?: string;
        /** What this job reads of it, as known when this one began: "key@place" to value. */
        readonly earlierValues?: Readonly<Record<string, Answer>>;
        /** Finished jobs of its rotor until then, oldest first. */
        readonly life?: readonly LifeEvent[];
      }
    | { readonly kind: 'operator'; readonly initials: string }
    | { readonly kind: 'pace'; readonly pace: Pace }
    | ({
        readonly kind: 'caution';
        /** It stood on the screen, and was confirmed earlier in this sitting. */
        readonly known?: true;
        /** Other positions that stood on the same screen: the same danger, confirmed for them too in this sitting. */
        readonly also?: readonly string[];
      } & AtStep)
    | ({
        readonly kind: 'answer';
        readonly key: string;
        readonly value: Answer;
        /** What was typed, when it was typed. */
        readonly typed?: string;
        /** Half width of the reading when it was stated. */
        readonly plusMinus?: number;
        /** In practice: the way of measuring that was chosen, by its id in the practice rotor's file. */
        readonly way?: string;
        readonly from?: TakenFrom;
      } & AtStep &
        WithFigures)
    | ({ readonly kind: 'done' } & AtStep & WithFigures)
    | ({
        readonly kind: 'sign';
        readonly role: 'mentor' | 'self';
        readonly initials: string;
        /** What the mentor found before the guide's figures were shown. */
        readonly own?: string;
        /** Why it was signed though that is further from the guide's than the hold point allows. */
        readonly reason?: string;
      } & AtStep)
    /** A signature was asked for, and whoever looked did not give it. */
    | ({ readonly kind: 'refuse'; readonly reason: string; readonly initials: string } & AtStep)
    | ({
        readonly kind: 'overrule';
        readonly gate: string;
        readonly reason: string;
        readonly initials: string;
      } & AtStep)
    | ({
        readonly kind: 'correct';
        /** seq of the answer (or earlier correction) that is replaced. */
        readonly of: number;
        readonly key: string;
        readonly value: Answer;
        readonly typed?: string;
        readonly plusMinus?: number;
        readonly way?: string;
        readonly reason: string;
      } & AtStep)
    | ({ readonly kind: 'settle'; readonly reason: string } & AtStep & WithFigures)
    | { readonly kind: 'undo'; readonly of: number }
    | { readonly kind: 'raise'; readonly branch: string; readonly place: string; readonly text?: string }
    | ({ readonly kind: 'predict'; readonly key: string; readonly value: Answer; readonly typed?: string } & AtStep)
    | {
        readonly kind: 'note';
        readonly place: string;
        readonly text: string;
        /** Made by the guide itself, which saw the clock run otherwise than the time: waits go by this. */
        readonly clock?: {
          /** So many ms it went on by more than the time since the entry before, or, below 0, by less; unknown where left out. */
          readonly gained?: number;
        };
      }
    | { readonly kind: 'handover'; readonly text: string }
    /** Whose name stands behind initials; or 'customer', for whom it is done, or 'issuer', the shop. */
    | { readonly kind: 'name'; readonly of: string; readonly name: string }
    | ({
        readonly kind: 'picture';
        /** Its name among the job's pictures: hash and ending. */
        readonly file: string;
        readonly sha256: string;
        readonly bytes: number;
        /** Name of the file as it was taken. */
        readonly name: string;
        /** What it shows, in a few words. */
        readonly shows?: string;
      } & AtStep)
    | { readonly kind: 'procedure'; readonly version: string; readonly hash: string }
  );

export type EntryKind = Entry['kind'];
/** A draft once it has its number and its instant. */
export const stamped = (draft: Draft, seq: number, at: string): Entry => ({ ...draft, seq, at }) as Entry;
/** An entry before the store gives it its number and time. */
export type Draft = Entry extends infer E ? (E extends Entry ? Omit<E, 'seq' | 'at'> : never) : never;
