/** What the parts that make values ask of those that are known already. */
import type { Model } from '../../procedure/model.js';
import type { Row } from '../journal/ledger.js';
import type { Value } from './known.js';

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
