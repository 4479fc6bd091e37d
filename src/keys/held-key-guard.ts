/**
 * Keeps a key that is held down, or bounces, from answering two steps, and loses nothing that was typed. Pure: it is
 * told every time.
 *
 * The rule. A key that moved the job on (it answered, confirmed or went back) is *spent*. Any other key passes at once.
 * Of the same key:
 * - Within `bounce` it is the contact that bounced: ignored, but not in a text field. There a lost digit is worse than
 *   one too many, which can be seen, and whole figures may come in one write.
 * - Later than `longestDelay` it is a press of its own. A keyboard holds back its first repeat for no longer than that.
 * - Between the two it is doubtful and kept back until what comes next decides. Another key after it, or a rest, makes
 *   it a press of its own: it passes, in its place in the order. More of the same at the pace of a keyboard's repeat
 *   make it a held key: all are ignored until it has rested. No hand presses one key twice within `fastest`. A pause of
 *   `shortestDelay` or more and then a pace up to `repeatGap` may be a slow keyboard as well as a hand: into a text field
 *   that is a hand's, elsewhere a keyboard's, since an unseen step must not be answered.
 *
 * Three more:
 * - Where a danger is confirmed, the key that does so is ignored until the danger has been on the screen for `careful`:
 *   nobody has read it sooner, whatever was typed ahead. So is the key that answered before it, as long after it came.
 *   That is 'early', unless it is a contact that bounced: whoever meant it is told.
 * - Where one printing key answered, an Enter within `tail` of it is the habit of closing an answer with Enter. It was
 *   not meant for the next step and is ignored, unless all that Enter does there is to close a field that something else
 *   still confirms (initials): lost, what is pressed after it would go into that field.
 * - When a step changed with no key behind it, what comes within `unseen` was meant for the step before: ignored.
 *
 * Pasted characters pass like any other key.
 */
import { type Key, keyId, safetyKey } from './key.js';
import type { KeyMode } from './key-taker.js';

/** Times in milliseconds, and one count. */
const guardTimes = {
  /** The same key sooner than this is no second press. */
  bounce: 80,
  /** One key twice sooner than this is not a hand but a keyboard that repeats, or a whole figure in one write. */
  fastest: 70,
  /** Repeats closer together than this are characters that came in one write. */
  oneWrite: 15,
  /** Shortest time for which keyboards hold back the first repeat (250), less what clocks jitter. */
  shortestDelay: 230,
  /** Longest time for which a keyboard holds back its first repeat. */
  longestDelay: 1100,
  /** Longest time between two repeats of a held key. Linux consoles repeat every 92 ms, macOS every 83 ms by default. */
  repeatGap: 150,
  /** Rest after which a key that kept coming counts as released. */
  rest: 250,
  /** So many of one key at a keyboard's pace are a held key in a text field too, whatever comes after. */
  heldRun: 6,
  /** Enter this soon after a one-key answer belongs to that answer. */
  tail: 500,
  /** Nobody has read a danger sooner than this. */
  careful: 700,
  /** Nobody answers a new screen faster than this. */
  unseen: 300,
} as const;

/** A key and when it arrived, in ms of a clock that never goes back. */
export interface Arrival {
  readonly key: Key;
  readonly at: number;
}

/** 'early': dropped, and a hand may wonder why. Else the ms to wait before asking again (sooner if another key arrives). */
type Verdict = 'pass' | 'drop' | 'early' | { readonly wait: number };

export interface HeldKeyGuard {
  /**
   * Judges the oldest of the waiting keys (at least one); `now` is the time of asking. Ask again about the same key
   * after 'wait'; after the others that key is done with.
   */
  judge(waiting: readonly Arrival[], mode: KeyMode, now: number): Verdict;
  /** Says that this key moved the job on. */
  spend(arrival: Arrival): void;
  /** Says that the job moved on at this time without a key. */
  movedWithoutKey(at: number): void;
  /** Says when what is on the screen now came there. */
  shown(at: number): void;
}

const enterId = keyId({ name: 'enter', char: '' });

interface Spent {
  readonly id: string;
  readonly printing: boolean;
  /** It came again at a keyboard's pace and was ignored. */
  readonly held: boolean;
  /** When it last came, ignored or not. */
  readonly last: number;
}

/** Makes a guard; `openedAt` is when the keyboard was opened, for the Enter that may still be held from the shell. */
export function heldKeyGuard(openedAt: number): HeldKeyGuard {
  let spent: Spent | undefined = { id: enterId, printing: false, held: false, last: openedAt - guardTimes.rest };
  let unseenUntil = Number.NEGATIVE_INFINITY;
  let shownAt = openedAt;

  const pass = (): Verdict => {
    spent = undefined;
    return 'pass';
  };
  const drop = (id: string, printing: boolean, last: number, held = true): Verdict => {
    spent = { id, printing, held, last };
    return 'drop';
  };

  return {
    judge(waiting, { field, confirm }, now) {
      const { key, at } = waiting[0]!;
      const id = keyId(key);
      if (key.pasted) return pass();
      if (at < unseenUntil) return drop(id, false, at);
      if (confirm === 'danger' && id === safetyKey && at < shownAt + guardTimes.careful) {
        const bounced = spent?.id === id && at - spent.last < guardTimes.bounce;
        drop(id, spent?.printing ?? false, at, false);
        return bounced ? 'drop' : 'early';
      }
      if (!spent) return 'pass';
      const since = at - spent.last;
      const { printing } = spent;
      if (id !== spent.id) {
        const habit = id === enterId && printing && since < guardTimes.tail && confirm !== 'other-key';
        return habit ? drop(id, false, at) : pass();
      }
      if (confirm === 'danger' && since < guardTimes.careful) {
        drop(id, printing, at, spent.held);
        return since < guardTimes.bounce || id !== safetyKey ? 'drop' : 'early';
      }
      const text = field !== 'none' && printing;
      if (since < guardTimes.bounce && !text) return drop(id, printing, at, spent.held);
      if (spent.held && since < (text ? guardTimes.bounce : guardTimes.rest)) return drop(id, printing, at);
      if (since >= guardTimes.longestDelay) return pass();
      const gap = text || since < guardTimes.shortestDelay ? guardTimes.fastest : guardTimes.repeatGap;
      const run = runOf(waiting, id, gap);
      const followed = run.length < waiting.length;
      if (run.length > 1 && !text) return drop(id, printing, at);
      if (run.length < guardTimes.heldRun) {
        const left = run.last + guardTimes.repeatGap - now;
        if (!followed && left > 0) return { wait: left };
        if (run.length === 1 || followed) return pass();
      }
      return (run.last - at) / (run.length - 1) < guardTimes.oneWrite ? pass() : drop(id, printing, at);
    },
    spend({ key, at }) {
      spent = { id: keyId(key), printing: key.name === 'char' && !key.pasted, held: false, last: at };
    },
    movedWithoutKey(at) {
      unseenUntil = at + guardTimes.unseen;
    },
    shown(at) {
      shownAt = at;
    },
  };
}

/** How many of the waiting keys, from the first on, are this key within `gap` of each other, and when the last came. */
function runOf(waiting: readonly Arrival[], id: string, gap: number): { length: number; last: number } {
  let last = waiting[0]!.at;
  let length = 0;
  for (const { key, at } of waiting) {
    if (keyId(key) !== id || at - last >= gap) break;
    last = at;
    length++;
  }
  return { length, last };
}
