/** The one interface that every kind of question obeys. Pure: input and key in, input out. */

import type { Key } from '../../keys/key.js';
import type { Asked } from '../../procedure/questions/base.js';
import type { Option } from '../../procedure/questions/kind.js';
import type { Block, Hint, Line } from '../look/line.js';

/** What has been typed or picked so far. One shape for all kinds, kept for each question of each step. */
export interface Input {
  readonly text: string;
  /** Caret, in characters from the left. */
  readonly at: number;
  /** Highlighted item, -1 for none. */
  readonly index: number;
  /** Picked unit, when it is not the question's own. */
  readonly unit: string;
  readonly items: readonly string[];
  readonly count: number;
  /** What was typed or pasted once the field was full, until it is told at Enter. */
  readonly over?: string;
}

export const emptyInput: Input = { text: '', at: 0, index: -1, unit: '', items: [], count: 0 };

export interface AskContext<Q extends Asked = Asked> {
  readonly question: Q;
  /** What it is picked from. */
  readonly options: readonly Option[];
  /** How far a counter has to go, when that is known. */
  readonly target: number | undefined;
  readonly ascii: boolean;
  /** The unit in which this question was answered last; its own when it never was. */
  readonly unit?: string | undefined;
  /** The reading before this one, in the canonical unit, where a figure is complete with its tenth. */
  readonly near?: number | undefined;
  /** Another field follows: what is complete goes there by itself. */
  readonly goesOn?: boolean;
  /** For who knows the job: what is there to choose from only once something is chosen. */
  readonly brief?: boolean;
}

export type Pressed =
  /** Not a key of this question. */
  | undefined
  | { readonly input: Input }
  /** To be proposed as the answer. */
  | { readonly input: Input; readonly submit: string }
  /** One sentence instead of a change. */
  | { readonly input: Input; readonly say: string };

export interface Asker<Q extends Asked = Asked> {
  press(input: Input, key: Key, context: AskContext<Q>): Pressed;
  blocks(input: Input, context: AskContext<Q>): readonly Block[];
  /** The same behind its label in one line, as in a row of a log. */
  line?(input: Input, context: AskContext<Q>, width: number): Line;
  hints(input: Input, context: AskContext<Q>): readonly Hint[];
  /** True when a letter is text now and no command. */
  takesLetters(input: Input): boolean;
  /** What is kept when the window closes; undefined when there is nothing worth it. */
  keep(input: Input): string | undefined;
  restore(kept: string, context: AskContext<Q>): Input;
}
