/** What a figure on the sheet is, and the first page made of them. Part of the sheet's data (sheet-data.ts). */
import type { SourceTag } from '../calc/types.js';
import type { Answer } from '../engine/journal/entry.js';
import type { Lacks } from '../engine/state/found.js';
import type { AtPlace } from '../engine/state/told.js';

/** Where a figure comes from, as it may be told: only a published source is named. */
export interface ToldSource {
  readonly tag: SourceTag;
  readonly says: string;
}

/** Where a figure comes from, in short. */
export interface Provenance {
  readonly by:
    | 'reading'
    | 'correction'
    | 'log'
    | 'event'
    | 'calculation'
    /** An expression of the procedure. */
    | 'rule'
    | 'earlier-job'
    /** Not asked or left empty: the procedure's own value. */
    | 'assumed';
  /** Of a reading: its step, entry, time and who gave it. */
  readonly step?: string;
  readonly entry?: number;
  readonly at?: string;
  readonly initials?: string;
  readonly typed?: string;
  /** Of a calculation: the calculator and which of its results. */
  readonly calculation?: string;
  readonly result?: string;
  /** Of a rule: the values in it. */
  readonly from?: readonly string[];
}

/** One value with its name. `known: false` says in `lacks` why, in `text` what is missing. */
export interface Figure extends AtPlace {
  readonly key: string;
  readonly label: string;
  readonly known: boolean;
  readonly lacks?: Lacks;
  /** Null while it is not known. */
  readonly value: Answer | null;
  /** Canonical unit; empty for words. */
  readonly unit: string;
  /** Half width in that unit; of a list one for each item. */
  readonly plusMinus?: number | readonly number[];
  readonly text: string;
  /** Absent while it is not known. */
  readonly provenance?: Provenance;
  /** Set when it rests on a row of the shop's own tables. */
  readonly shop?: true;
}

/** A line that the procedure writes for the sheet, filled in at one place. */
export interface SheetLine extends AtPlace {
  readonly text: string;
  /** Keys of the values in it. */
  readonly keys: readonly string[];
}
export interface SaidRow extends SheetLine {
  readonly heading: string;
}
export interface DueLook {
  /** Of running. */
  readonly hours: number;
  /** Days on which the hours are over, by hours of running a day. */
  readonly dates: readonly { readonly aDay: number; readonly at: string }[];
  /** What is done then. */
  readonly say?: string;
}
export interface NextLook extends DueLook {
  /** End of the work, from which is counted. */
  readonly from: string;
  /** Initials of whoever set the hours. */
  readonly by?: string;
  /** A smaller look before it. */
  readonly first?: DueLook;
  readonly why: readonly SheetLine[];
}
export interface Front {
  /** Why the machine may not be run; told before anything else. */
  readonly barred: readonly SheetLine[];
  readonly known: readonly Figure[];
  readonly verdict?: string;
  readonly rows: readonly SaidRow[];
  /** What departs from a usual job: by the procedure's own words first, then what the journal shows. */
  readonly unusual: readonly SheetLine[];
  readonly due?: NextLook;
  readonly watch: readonly SheetLine[];
  readonly instruments: readonly SaidRow[];
  readonly tag: readonly SaidRow[];
}
