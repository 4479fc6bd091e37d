/** What the engine knows of a value, and where it came from. */
import type { CalcOutcome } from '../../calc/types.js';
import type { Model } from '../../procedure/model.js';
import type { Answer, Entry } from '../journal/entry.js';
import type { Row } from '../journal/ledger.js';

type Origin =
  | { readonly from: 'answer'; readonly entry: Entry; readonly typed: string | undefined }
  | { readonly from: 'otherwise' }
  | { readonly from: 'rows'; readonly count: number }
  | { readonly from: 'event' }
  | { readonly from: 'earlier' }
  | { readonly from: 'fact'; readonly inputs: readonly string[] }
  | {
      readonly from: 'calc';
      readonly calc: string;
      readonly result: string;
      readonly outcome: CalcOutcome;
      /** Calculator input to the names that its expression read. */
      readonly inputs: Readonly<Record<string, readonly string[]>>;
    };

export interface Known {
  readonly known: true;
  readonly value: Answer;
  /** Half width, canonical unit; of lists one for each item. */
  readonly plusMinus: number | readonly number[] | undefined;
  readonly origin: Origin;
  /** Highest seq among the entries that it rests on; 0 when on none. */
  readonly asOf: number;
}
export interface Unknown {
  readonly known: false;
  /** Keys that would have to be answered first. */
  readonly missing: readonly string[];
  /** A calculator's refusal, when that is why. */
  readonly refusal?: string;
}
export type Value = Known | Unknown;

export const unknown = (missing: readonly string[], refusal?: string): Unknown => ({ known: false, missing, refusal });

/** A value that a finished step holds as it was then; not known where nothing was recorded of it. */
export function heldValue(key: string, done: Extract<Entry, { kind: 'done' }>): Value {
  const value = done.figures?.[key];
  if (value === undefined) return unknown([key]);
  return { known: true, value, plusMinus: undefined, origin: { from: 'fact', inputs: [] }, asOf: done.seq };
}

/** Behind the name of a figure of an earlier job, `end_temp@a±`: its half width. */
export const HALF = '±';

/** What the parts that make values ask of those that are known already. */
export interface ValueSource {
  readonly model: Model;
  /** An expression at a place, and the names in it. */
  evaluate(text: string, place: string): Value & { readonly names: readonly string[] };
  /** True, false, or undefined when not known. */
  holds(text: string, place: string): boolean | undefined;
  /** Places of a kind at or below `place` that take part in this job. */
  below(kind: string, place: string): readonly string[];
  /** Complete rows of a log. */
  completeRows(stepId: string, place: string): readonly Row[];
}
