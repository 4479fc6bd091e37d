/**
 * Keeps a key that is held down, or bounces, from answering two steps. Pure: it is told every time.
 *
 * The rule. A key that moved the job on (it answered, confirmed or went back) is *spent*:
 * - The same key is ignored while it keeps coming, until it has rested for `rest`.
 * - A keyboard waits for up to a second before it starts to repeat a held key. So for `longestDelay` after the last one
 *   the same key is put aside for `repeatGap`: if another one follows in that time it is a held key and ignored, else it
 *   is a deliberate second press and passes.
 * - Any other key passes at once, and with it between, the first key is deliberate again: a keyboard stops repeating a
 *   key when another one is pressed. `1 Enter 2 Enter 3 Enter` in one write are three answers, `Enter Enter Enter`
 *   without a pause is one.
 * - Except: where one printing key answered, an Enter within `tail` of it is the habit of closing an answer with Enter.
 *   It was not meant for the next step and is ignored.
 * - When a step changed with no key behind it, what comes within `unseen` was meant for the step before: ignored.
 *
 * Not told apart: a held key on a keyboard set to repeat slower than once in `repeatGap`; each repeat may look like a
 * press of its own, and at most one in `rest` passes.
 */
import { type Key, keyId } from './key.js';

/** Times in milliseconds. */
export const guardTimes = {
  /** Rest after which a key that kept coming counts as released. */
  rest: 250,
  /** Longest time between two repeats of a held key. Linux consoles repeat every 92 ms, macOS every 83 ms by default. */
  repeatGap: 150,
  /** Longest time for which a keyboard holds back its first repeat. */
  longestDelay: 1100,
  /** Enter this soon after a one-key answer belongs to that answer. */
  tail: 500,
  /** Nobody answers a new screen faster than this. */
  unseen: 300,
} as const;

/** A key and when it arrived, in ms of a clock that never goes back. */
export interface Arrival {
  readonly key: Key;
  readonly at: number;
}

/** 'pass', 'drop', or the ms to wait before asking again (sooner if another key arrives). */
export type Verdict = 'pass' | 'drop' | { readonly wait: number };

export interface HeldKeyGuard {
  /**
   * Judges the oldest waiting key. `next` is the one that arrived after it, if one did; `now` is the time of asking.
   * Ask again about the same key after 'wait'; after 'pass' and 'drop' the key is done with.
   */
  judge(arrival: Arrival, next: Arrival | undefined, now: number): Verdict;
  /** Says that this key moved the job on. */
  spend(arrival: Arrival): void;
  /** Says that the job moved on at this time without a key. */
  movedWithoutKey(at: number): void;
}

const enter: Key = { kind: 'named', name: 'enter' };
const enterId = keyId(enter);

/** Makes a guard; `openedAt` is when the keyboard was opened, for the Enter that may still be held from the shell. */
export function heldKeyGuard(openedAt: number): HeldKeyGuard {
  let spent: { id: string; printing: boolean; last: number } | undefined = {
    id: enterId,
    printing: false,
    last: openedAt - guardTimes.rest,
  };
  let unseenUntil = Number.NEGATIVE_INFINITY;

  const pass = (): Verdict => {
    spent = undefined;
    return 'pass';
  };
  const drop = (id: string, printing: boolean, last: number): Verdict => {
    spent = { id, printing, last };
    return 'drop';
  };

  return {
    judge({ key, at }, next, now) {
      const id = keyId(key);
      if (at < unseenUntil) return drop(id, false, at);
      if (!spent) return 'pass';
      const since = at - spent.last;
      if (id !== spent.id) {
        return id === enterId && spent.printing && since < guardTimes.tail ? drop(id, false, at) : pass();
      }
      if (since < guardTimes.rest) return drop(id, spent.printing, at);
      if (since >= guardTimes.longestDelay) return pass();
      if (next) {
        const repeats = keyId(next.key) === id && next.at - at < guardTimes.repeatGap;
        return repeats ? drop(id, spent.printing, at) : pass();
      }
      const left = at + guardTimes.repeatGap - now;
      return left > 0 ? { wait: left } : pass();
    },
    spend({ key, at }) {
      spent = { id: keyId(key), printing: key.kind === 'text' && !key.pasted, last: at };
    },
    movedWithoutKey(at) {
      unseenUntil = at + guardTimes.unseen;
    },
  };
}
