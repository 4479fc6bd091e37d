/**
 * What every calculator is: a pure function with declared inputs and results.
 * All numbers are in the canonical unit of their kind (see src/units/kinds.ts).
 */
import { isRecord } from '../guards/guards.js';
import type { QuantityKind } from '../units/kinds.js';

/** P published, M usual but from memory, CP common practice, A arithmetic, shop a shop's own row. */
export type SourceTag = 'P' | 'M' | 'CP' | 'A' | 'shop';

export interface Source {
  readonly tag: SourceTag;
  /** Shown to users as a citation only for tag P. */
  readonly text: string;
}

/** The source of a table's row. */
export interface RowSource extends Source {
  /** Id of the row. */
  readonly row: string;
}

export type InputSpec = {
  readonly label: string;
  readonly optional?: boolean;
  /** Hard limits of validity in the canonical unit, both ends allowed. */
  readonly limits?: readonly [number, number];
} & (
  | { readonly type: 'quantity'; readonly kind: QuantityKind /** unit of a bare number */; readonly unit: string }
  | { readonly type: 'quantities'; readonly kind: QuantityKind; readonly unit: string }
  | {
      readonly type: 'choice' | 'choices';
      readonly choices: readonly string[];
      /** The rows of this table are choices too, so that a shop may add its own. */
      readonly table?: string;
    }
  | { readonly type: 'text' }
  | { readonly type: 'texts' }
  | { readonly type: 'flag' }
);

export interface ResultSpec {
  readonly label: string;
  /** Kind of a numeric result; absent for words. */
  readonly kind?: QuantityKind;
  /** Unit shown. Words have the unit ''. */
  readonly unit: string;
  /** True or false instead of a word. */
  readonly flag?: boolean;
  /** A list of values instead of one. */
  readonly list?: boolean;
  /** Every word that the result can be, where it is one of a few: conditions may be checked against them. */
  readonly words?: readonly string[];
}

/** A number with its half width, in the same unit; without one it is taken as exact. */
export interface Measured {
  readonly value: number;
  readonly plusMinus?: number;
}
export const isMeasured = (value: unknown): value is Measured => isRecord(value) && typeof value.value === 'number';
/** What an input can be given: figures, a word, several, or yes and no. */
export type InputValue = Measured | readonly Measured[] | string | readonly string[] | boolean;
export type Inputs = Readonly<Record<string, InputValue | undefined>>;

export interface ResultValue {
  readonly value: number | string | boolean | readonly number[] | readonly string[];
  /** Half width in the unit of the result; for lists one for each item. */
  readonly plusMinus?: number | readonly number[];
  /** Input key that contributes most to plusMinus. */
  readonly dominant?: string;
}

export interface CalcOutcome {
  readonly results: Readonly<Record<string, ResultValue>>;
  /** One clear sentence each. */
  readonly warnings: readonly string[];
  /** The formula with this run's numbers in it, one line a step. */
  readonly worked: readonly string[];
  /** Sources that this run used in particular (a table row, say), beside the calculator's own. */
  readonly sources?: readonly Source[];
}

/** Thrown when an input is missing, unknown or outside validity: one sentence, names the key, says what is expected. */
export class CalcRefusal extends Error {
  constructor(
    readonly key: string,
    message: string,
  ) {
    super(message);
    this.name = 'CalcRefusal';
  }
}

export interface TableRow {
  readonly id: string;
  readonly tag: SourceTag;
  readonly source: string;
  readonly [column: string]: string | number | boolean | null;
}
export interface Table {
  readonly id: string;
  /** Left out in what was kept with older jobs. */
  readonly title?: string;
  /** Of columns that have one. */
  readonly units?: Readonly<Record<string, string>>;
  readonly rows: readonly TableRow[];
}
export type Tables = Readonly<Record<string, Table>>;

export interface Calculator {
  readonly name: string;
  readonly title: string;
  readonly inputs: Readonly<Record<string, InputSpec>>;
  readonly results: Readonly<Record<string, ResultSpec>>;
  readonly formula: string;
  readonly source: Source;
  /** Sources of figures in its code that its own does not cover, by a name; a figure that can be a table's row is one. */
  readonly constants?: Readonly<Record<string, Source>>;
  /** Pure. Numbers in canonical units. Throws CalcRefusal. */
  readonly run: (inputs: Inputs, tables: Tables) => CalcOutcome;
}
