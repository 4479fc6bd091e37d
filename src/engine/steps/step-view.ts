/** What is said about one step at one place. */
import type { Caution, Gate, Question, Step } from '../../procedure/schema.js';
import type { Answer, Entry } from '../journal/entry.js';
import type { Given, StepLedger } from '../journal/ledger.js';

type Status =
  /** Its condition is not known yet. */
  | 'hidden'
  | 'not-needed'
  /** Something earlier has to be finished first. */
  | 'later'
  | 'open'
  /** A gate stops it. */
  | 'stopped'
  /** Done, and glue or solvent or the like takes its time. */
  | 'waiting'
  | 'done'
  /** Done once, but the figures under the decision have changed. */
  | 'reopened';

type Want = 'gate' | 'caution' | 'predict' | 'question' | 'confirm' | 'sign' | 'nothing';

export interface GateView {
  readonly gate: Gate;
  /** Keys that must be known before the gate can open; empty when it simply does not hold. */
  readonly missing: readonly string[];
  readonly refusal: string | undefined;
}
export interface Wait {
  readonly label: string;
  /** Entry since which it is counted. */
  readonly since: number;
  readonly from: number;
  /** Infinity while it is not known how long it lasts. */
  readonly until: number;
  /** Milliseconds left; 0 when over, Infinity while it is not known how long it lasts. */
  readonly left: number;
  /** Set when somebody did not wait for the end of it. */
  readonly skipped?: Extract<Entry, { kind: 'overrule' }>;
  /** The clock now reads earlier than when the wait began. */
  readonly clockBack: boolean;
}
/** How much longer, such as `12 min`. */
export function leftWords({ left }: Wait): string {
  return Number.isFinite(left) ? `${Math.ceil(left / 60_000)} min` : 'a time that is not known yet';
}
export interface Changed {
  readonly key: string;
  readonly old: Answer;
  readonly now: Answer | undefined;
}
export interface StepView {
  readonly step: Step;
  readonly place: string;
  readonly status: Status;
  readonly wants: Want;
  /** Next question, when that is what it wants. */
  readonly question: Question | undefined;
  readonly answered: readonly { readonly question: Question; readonly given: Given }[];
  readonly gates: readonly GateView[];
  readonly overruled: readonly Extract<Entry, { kind: 'overrule' }>[];
  readonly wait: Wait | undefined;
  /** What it waits for, in one sentence. */
  readonly because: string | undefined;
  readonly changed: readonly Changed[];
  readonly signed: Extract<Entry, { kind: 'sign' }> | undefined;
  readonly ledger: StepLedger | undefined;
  /** Cautions that can happen here. */
  readonly cautions: readonly Caution[];
  /** They were confirmed already in this sitting: they stand there, and are not confirmed anew. */
  readonly confirmedBefore: boolean;
}
