/** A prediction held against the figure that stands on the screen now. Pure. */
// @ts-nocheck

import type { State } from '../engine/state.js';
import { expectedOf } from './expected.js';
import { judgePrediction } from './judge-prediction.js';

export interface JudgedInWords {
  readonly verdict: 'right' | 'close' | 'wrong';
  /** The slip that it looks like, or ''. */
  readonly why: string;
}

/** Undefined where nothing was said, or nothing can be held against it yet. */
export function judgeInWords(state: State, key: string, place: string, typed: string): JudgedInWords | undefined {
  const j = judgePrediction(typed, expectedOf(state, key, place));
  if (j.verdict === 'not-judged' || j.verdict === 'unreadable') return undefined;
  return { verdict: j.verdict, why: j.slip?.says ?? j.says ?? '' };
}
