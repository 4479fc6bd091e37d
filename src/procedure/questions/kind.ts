/**
 * What a kind of question is: one object in one file, named in ./index.ts. Its schema takes the schema library as an
 * argument, so that what only answers questions never loads it.
 */
import type * as zod from 'zod';
import type { Tables } from '../../calc/types.js';
import type { QuantityKind } from '../../units/kinds.js';
import type { Answer } from '../answer.js';
import type { CelType } from '../expression.js';
import type { Complain, Path } from '../problem.js';
import type { Asked, Base } from './base.js';

/** What the value of each type is once it was read. */
interface ValueOf {
  double: number;
  string: string;
  bool: boolean;
  'list<double>': readonly number[];
  'list<string>': readonly string[];
  'list<bool>': readonly boolean[];
}

export type ReadAnswer<Value extends Answer = Answer> =
  | {
      readonly ok: true;
      readonly value: Value;
      readonly typed?: string;
      readonly plusMinus?: number;
      /** Set when it is outside the usual range: ask once more before recording. */
      readonly unusual?: string;
    }
  | { readonly ok: false; readonly message: string };

/** What can be held against an answer only in the job: how far a counter has to go, what cannot be more, what was asked for. */
export interface Bounds<T = number> {
  readonly counted?: T | undefined;
  readonly most?: T | undefined;
  readonly wanted?: T | undefined;
  readonly near?: T | undefined;
}

export interface Option {
  readonly value: string;
  readonly label: string;
  readonly note?: string;
}

/** The ways in which a screen can ask, each with what it wants to know of the question. */
export interface Controls {
  /** One of a few, by digit. */
  pick: Asked;
  /** One row of a long list, by typing its beginning. */
  row: Asked & {
    readonly options?: readonly Option[] | undefined;
    readonly suffixes?: readonly Option[] | undefined;
  };
  yesNo: Asked;
  /** Figures and a unit. */
  measure: Asked & { readonly quantity: QuantityKind; readonly unit: string };
  /** Several lengths in one go. */
  lengths: Asked & { readonly parts: readonly string[]; readonly unit: string };
  /** Figures alone. */
  figures: Asked;
  words: Asked & { readonly longest?: number | undefined; readonly offers?: readonly string[] | undefined };
  /** Several picks in a row. */
  series: Asked & {
    readonly least: number;
    readonly most: number;
    readonly each?: string | undefined;
    readonly options: readonly (Option & { readonly alone?: boolean | undefined })[];
  };
  /** Counted as the hands work. */
  count: Asked & { readonly unit: string };
}
export type Control = keyof Controls;

/** What the check of a procedure lends to the check of a question. */
interface Checking {
  readonly path: Path;
  readonly complain: Complain;
  readonly expression: (text: string | undefined, type: CelType, path: Path, quantity?: QuantityKind) => void;
  readonly table: (id: string, path: Path, column: string | undefined, columnPath: Path) => void;
  /** Complains when the unit is none of that kind. */
  readonly unit: (unit: string, kind: QuantityKind, path: Path) => void;
}

export interface QuestionKind<Q> {
  readonly schema: (base: Base) => zod.ZodType<Q>;
  /** Type of its value in expressions. */
  readonly type: CelType;
  readonly control: Control;
  /** Reads what was typed, which is not empty unless `empty` says so. */
  readonly read: (q: Q, text: string, tables: Tables, bounds: Bounds) => ReadAnswer;
  /** It reads an empty text by itself. */
  readonly empty?: true;
  /** Why a recorded answer is none that it could have had, in a few words; undefined when it is one. */
  readonly unfit: (q: Q, value: Answer, tables: Tables) => string | undefined;
  /** What may be answered, in a few words; `inWords` says an expression. */
  readonly words: (q: Q, inWords: (cel: string) => string) => string;
  /** Where it is picked from a list. */
  readonly options?: (q: Q, tables: Tables) => readonly Option[];
  /** All that its value can be, where that has an end and is one thing at a time. */
  readonly all?: (q: Q, tables: Tables) => readonly Answer[];
  readonly quantity?: (q: Q) => QuantityKind;
  /** Unit of a bare figure. */
  readonly unit?: (q: Q) => string;
  /** Limits of its figures, in the canonical unit; undefined where the job alone knows them. Checks, outline and trials ask here. */
  readonly range?: (q: Q) => readonly [number, number] | undefined;
  /** Keys of its parts, each a value of its own. */
  readonly parts?: (q: Q) => readonly string[];
  /** What they are, where they are no single lengths of its list: from what was typed. */
  readonly partType?: CelType;
  readonly partOf?: (q: Q, typed: string, tables: Tables) => Answer;
  readonly partWords?: (q: Q) => readonly string[];
  /** Expressions of what the job holds against an answer. */
  readonly bounds?: (q: Q) => Bounds<string>;
  /** Another value of it can be tried out without recording. */
  readonly tried?: true;
  /** No value can be suggested for it. */
  readonly unsuggested?: true;
  readonly check?: (q: Q, checking: Checking) => void;
}

/** What it reads, by the type that it says for expressions; of figures it says the limits. */
type Typed<Q> = {
  [T in CelType]: {
    readonly type: T;
    readonly read: (...given: Parameters<QuestionKind<Q>['read']>) => ReadAnswer<ValueOf[T]>;
    readonly all?: (q: Q, tables: Tables) => readonly ValueOf[T][];
  } & (T extends 'double' | 'list<double>' ? Required<Pick<QuestionKind<Q>, 'range'>> : unknown);
}[CelType];

/** A measure has quantity and unit from its kind, where they may stand in the question or be fixed. */
type FromKind<C extends Control> = C extends 'measure' | 'lengths' ? 'quantity' | 'unit' : never;
/** The control that asks for it. */
type AskedWith<Q extends Asked> = {
  [C in Control]: {
    readonly control: Q extends Omit<Controls[C], FromKind<C>>
      ? C
      : `${C} wants in the question: ${Exclude<keyof Controls[C] & string, keyof Q | FromKind<C>>}`;
  } & Required<Pick<QuestionKind<Q>, FromKind<C>>>;
}[Control];

/**
 * Gives the object back; says what its schema makes of a question to the rest of it. The compiler tells of a control that
 * such a question can't feed which of its fields are lacking, of a value that is not of the type that it says, and of a
 * measure without its quantity or unit, and of figures without limits.
 */
export const kindOfQuestion = <Q extends Asked>(
  kind: Omit<QuestionKind<Q>, 'control' | 'type' | 'read' | 'all'> & Typed<Q> & AskedWith<Q>,
): QuestionKind<Q> => kind as QuestionKind<Q>;
