/** A prediction held against the figure that stands on the screen now. Pure. */
import type { State } from '../engine/state/state.js';
import { expectedOf } from './expected.js';
import { judgePrediction } from './judge-prediction.js';

export interface JudgedInWords {
  /** unreadable: it is asked again, and `why` says what to type. */
  readonly verdict: 'right' | 'close' | 'wrong' | 'unreadable';
  /** The slip that it looks like, or ''. */
  readonly why: string;
}

/** Undefined where nothing was said, or nothing can be held against it yet. */
export function judgeInWords(state: State, key: string, place: string, typed: string): JudgedInWords | undefined {
  const j = judgePrediction(typed, expectedOf(state, key, place));
  if (j.verdict === 'not-judged') return undefined;
  return { verdict: j.verdict, why: j.slip?.says ?? j.says ?? '' };
}
