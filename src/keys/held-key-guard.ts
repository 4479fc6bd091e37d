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
 * - Into a text field a printing key is let in sooner, since a lost digit is worse than one too many that can be seen:
 *   `1` for a choice and `12.5` for the field after it keep every digit. Only a run of `heldRun` of the spent key, each
 *   within `repeatGap` of the last, is a held key there.
 * - When a step changed with no key behind it, what comes within `unseen` was meant for the step before: ignored.
 * - Pasted characters pass like any other key.
 *
 * Not told apart: a held key on a keyboard set to repeat slower than once in `repeatGap`; each repeat may look like a
 * press of its own, and at most one in `rest` passes.
 */
import { type Key, keyId } from './key.js';

/** Times in milliseconds, and one count. */
export const guardTimes = {
  /** Rest after which a key that kept coming counts as released. */
  rest: 250,
  /** Longest time between two repeats of a held key. Linux consoles repeat every 92 ms, macOS every 83 ms by default. */
  repeatGap: 150,
  /** Longest time for which a keyboard holds back its first repeat. */
  longestDelay: 1100,
  /** Enter this soon after a one-key answer belongs to that answer. */
  tail: 500,
  /** So many of one key in a row are a held key in a text field too. */
  heldRun: 3,
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
   * Judges the oldest of the waiting keys (at least one). `typing` says that a text field is open, `now` is the time of
   * asking. Ask again about the same key after 'wait'; after 'pass' and 'drop' that key is done with.
   */
  judge(waiting: readonly Arrival[], typing: boolean, now: number): Verdict;
  /** Says that this key moved the job on. */
  spend(arrival: Arrival): void;
  /** Says that the job moved on at this time without a key. */
  movedWithoutKey(at: number): void;
}

const enter: Key = { kind: 'named', name: 'enter' };
const enterId = keyId(enter);

interface Spent {
  readonly id: string;
  readonly printing: boolean;
  /** It came again already and was ignored. */
  readonly held: boolean;
  /** When it last came, ignored or not. */
  readonly last: number;
}

/** Makes a guard; `openedAt` is when the keyboard was opened, for the Enter that may still be held from the shell. */
export function heldKeyGuard(openedAt: number): HeldKeyGuard {
  let spent: Spent | undefined = { id: enterId, printing: false, held: false, last: openedAt - guardTimes.rest };
  let unseenUntil = Number.NEGATIVE_INFINITY;

  const pass = (): Verdict => {
    spent = undefined;
    return 'pass';
  };
  const drop = (id: string, printing: boolean, last: number): Verdict => {
    spent = { id, printing, held: true, last };
    return 'drop';
  };

  return {
    judge(waiting, typing, now) {
      const { key, at } = waiting[0]!;
      const id = keyId(key);
      if (key.kind === 'text' && key.pasted) return pass();
      if (at < unseenUntil) return drop(id, false, at);
      if (!spent) return 'pass';
      const since = at - spent.last;
      if (id !== spent.id) {
        return id === enterId && spent.printing && since < guardTimes.tail ? drop(id, false, at) : pass();
      }
      const text = typing && spent.printing;
      if (since < guardTimes.rest && (spent.held || !text)) return drop(id, spent.printing, at);
      if (since >= guardTimes.longestDelay) return pass();
      const run = runOf(waiting, id);
      if (run.length >= (text ? guardTimes.heldRun : 2)) return drop(id, spent.printing, at);
      const left = run.last + guardTimes.repeatGap - now;
      return left > 0 && run.length === waiting.length ? { wait: left } : pass();
    },
    spend({ key, at }) {
      spent = { id: keyId(key), printing: key.kind === 'text' && !key.pasted, held: false, last: at };
    },
    movedWithoutKey(at) {
      unseenUntil = at + guardTimes.unseen;
    },
  };
}

/** How many of the waiting keys, from the first on, are this key repeating, and when the last of them came. */
function runOf(waiting: readonly Arrival[], id: string): { length: number; last: number } {
  let last = waiting[0]!.at;
  let length = 0;
  for (const { key, at } of waiting) {
    if (keyId(key) !== id || at - last >= guardTimes.repeatGap) break;
    last = at;
    length++;
  }
  return { length, last };
}
