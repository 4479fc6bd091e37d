/**
 * The keyboard: hands one key at a time to whoever takes them, and the next only when all that the one before did is
 * done. So each key meets what the one before it left, however many come in one write, and no time is waited for.
 */
import { type Arrival, type HeldKeyGuard, heldKeyGuard } from './held-key-guard.js';
import type { Key } from './key.js';
import type { KeyMode, KeyTaker, Prompt } from './key-taker.js';
import { type Pending, Splitter } from './splitter.js';

/** Silence in ms after which an unfinished input is decided; a slow link may pause inside a sequence or a paste. */
const silence: Readonly<Record<Exclude<Pending, 'nothing'>, number>> = {
  escape: 80,
  string: 80,
  sequence: 500,
  paste: 1000,
};
/** A control string comes faster than this, in ms a byte; a hand types slower. */
const slowestString = 40;
/** More waiting keys than this are noise; what comes beyond is dropped. */
const mostWaiting = 2048;
/** Ctrl-C acts after this many ms even if a key before it is still being worked on. */
const interruptPatience = 300;

export interface KeyboardOptions {
  /** Ctrl-C. No taker ever gets it. */
  readonly onInterrupt: () => void;
  /** Milliseconds of a clock that never goes back. */
  readonly now?: () => number;
}

export class Keyboard {
  readonly #onInterrupt: () => void;
  readonly #now: () => number;
  readonly #splitter = new Splitter();
  readonly #guard: HeldKeyGuard;
  readonly #waiting: Arrival[] = [];
  #taker: KeyTaker | undefined;
  /** What was asked when it was last looked at. */
  #asked: Prompt | undefined;
  #inHand: Arrival | undefined;
  #pumping = false;
  /** What comes was typed at a screen that is gone. */
  #deaf = false;
  #closed = false;
  /** When the control string began that is not at its end. */
  #stringSince = 0;
  #silenceTimer: NodeJS.Timeout | undefined;
  #guardTimer: NodeJS.Timeout | undefined;
  #interruptTimer: NodeJS.Timeout | undefined;

  constructor(options: KeyboardOptions) {
    this.#onInterrupt = options.onInterrupt;
    this.#now = options.now ?? (() => performance.now());
    this.#guard = heldKeyGuard(this.#now());
  }

  /** Takes what the terminal sent, cut anywhere. */
  feed(bytes: Uint8Array): void {
    if (this.#closed) return;
    clearTimeout(this.#silenceTimer);
    const now = this.#now();
    const length = this.#splitter.stringBytes;
    if (length !== undefined && (now - this.#stringSince) / (length + 1) > slowestString)
      this.#arrive(this.#splitter.rest());
    this.#arrive(this.#splitter.push(bytes));
    if ((this.#splitter.stringBytes ?? 0) <= bytes.length) this.#stringSince = now;
    this.#awaitSilence();
  }

  /** Hands the keys over from now on; those that came before have waited. What is asked is on the screen by then. */
  handTo(taker: KeyTaker): void {
    this.#taker = taker;
    taker.subscribe(() => this.#look());
    this.#look();
    this.#pumpSoon();
  }

  /** Says that the screen was drawn anew with no key behind it: nobody has seen it before now. */
  drawnAnew(): void {
    this.#guard.movedWithoutKey(this.#now());
    this.#guard.shown(this.#now());
  }

  /** Forgets what waits, and takes and hands over nothing more. */
  close(): void {
    this.#closed = true;
    this.#waiting.length = 0;
    for (const timer of [this.#silenceTimer, this.#guardTimer, this.#interruptTimer]) clearTimeout(timer);
  }

  /** Looks what is asked: if it is something else than before, the key in hand did that, or it came by itself. */
  #look(): void {
    const before = this.#asked;
    const now = this.#taker?.asked;
    this.#asked = now;
    if (!now || (before && before.id === now.id && before.confirm === now.confirm)) return;
    const at = this.#now();
    this.#guard.shown(at);
    if (!before || before.id === now.id) return;
    if (this.#inHand) this.#guard.spend(this.#inHand);
    else this.#guard.movedWithoutKey(at);
  }

  #arrive(keys: readonly Key[]): void {
    const at = this.#now();
    for (const key of keys) {
      if (key.name === 'interrupt') {
        if (this.#interruptTimer) {
          this.#interrupt();
          return;
        }
        this.#interruptTimer = setTimeout(() => this.#interrupt(), interruptPatience);
      } else if (this.#deaf || this.#waiting.length >= mostWaiting) continue;
      this.#waiting.push({ key, at });
    }
    if (keys.length > 0) this.#pumpSoon();
  }

  /** What waits was typed at a screen that is gone; what comes at once was too. */
  #forget(): void {
    const kept = this.#waiting.filter((a) => a.key.name === 'interrupt');
    this.#waiting.splice(0, this.#waiting.length, ...kept);
    this.#deaf = true;
    // What the terminal holds is read between two immediates: busy as the program was, it may all lie there still.
    setImmediate(() =>
      setImmediate(() => {
        this.#deaf = false;
        this.#guard.movedWithoutKey(this.#now());
      }),
    );
  }

  #interrupt(): void {
    this.close();
    this.#onInterrupt();
  }

  #awaitSilence(): void {
    const { pending } = this.#splitter;
    if (pending === 'nothing') return;
    this.#silenceTimer = setTimeout(() => {
      // If the program was busy, the rest may have arrived meanwhile: it is read before this runs.
      const timer = this.#silenceTimer;
      setImmediate(() => {
        if (timer === this.#silenceTimer && !this.#closed) this.#arrive(this.#splitter.rest());
      });
    }, silence[pending]);
  }

  /** The frame of one key may be drawn before the next is handed over. */
  #pumpSoon(): void {
    if (this.#pumping) return;
    this.#pumping = true;
    setImmediate(() => {
      this.#pumping = false;
      this.#pump();
    });
  }

  #pump(): void {
    const taker = this.#taker;
    if (this.#closed || this.#inHand || !taker) return;
    clearTimeout(this.#guardTimer);
    for (let first = this.#waiting[0]; first; first = this.#waiting[0]) {
      if (first.key.name === 'interrupt') {
        this.#interrupt();
        return;
      }
      const { asked } = taker;
      const verdict = isUnwanted(first.key, asked) ? 'drop' : this.#guard.judge(this.#waiting, asked, this.#now());
      if (typeof verdict === 'object') {
        this.#guardTimer = setTimeout(() => this.#pumpSoon(), verdict.wait);
        return;
      }
      this.#waiting.shift();
      if (verdict === 'early') taker.early?.(first.key);
      if (verdict === 'pass') {
        void this.#hand(taker, first);
        return;
      }
    }
  }

  async #hand(taker: KeyTaker, arrival: Arrival): Promise<void> {
    this.#inHand = arrival;
    const done = taker.press(arrival.key);
    if (done) await done;
    this.#look();
    this.#inHand = undefined;
    if (taker.forgets?.()) this.#forget();
    this.#pumpSoon();
  }
}

/** What is pasted goes only where it is text; a picture that was dropped goes anywhere. */
const isUnwanted = (key: Key, { field }: KeyMode): boolean =>
  key.pasted === true &&
  key.name === 'char' &&
  !(field === 'text' || (field === 'digits' && /^[\d.,+-]$/.test(key.char)));
