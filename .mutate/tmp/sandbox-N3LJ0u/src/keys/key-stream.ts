/**
 * The keyboard as ink gets it: a stream that looks like a terminal and hands over one key at a time, each only when the
 * screen has taken in what the key before it did.
 *
 * ink hands everything that arrives together to handlers which still see the state from before, so Down and Enter in
 * one write would record the item above the highlighted one. Here a key is in hand from its handing over until
 * `ready()`; `KeyPacer` calls that after React has committed what the key changed and has run the effects, which are
 * what puts new input handlers in place. No time is waited for.
 */
// @ts-nocheck

import { Readable } from 'node:stream';
import { type Arrival, type Field, type HeldKeyGuard, heldKeyGuard } from './held-key-guard.js';
import { inkSequence, type Key } from './key.js';
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
/** Ctrl-C acts after this many ms even if the screen is still busy with the keys before it. */
const interruptPatience = 300;
/** Without an answer from the screen for twice this many ms while the program is idle, the next key goes out. */
const readyPatience = 1000;
/** Turns of the event loop that stand in for `ready()` while no `KeyPacer` is on the screen. */
const turnsWithoutPacer = 4;

export interface KeyStreamOptions {
  /** Ctrl-C. It is never handed to ink. */
  readonly onInterrupt: () => void;
  /** Milliseconds of a clock that never goes back. */
  readonly now?: () => number;
}

/** What is on the screen, as the keyboard has to know it. */
export interface StreamField extends Field {
  /** False where a letter is a command until a digit stands in the field: pasted letters are dropped there. */
  readonly letters?: boolean;
}

export class KeyStream extends Readable {
  /** What ink looks at to know that it may listen to keys. */
  readonly isTTY = true;
  readonly #onInterrupt: () => void;
  readonly #now: () => number;
  readonly #splitter = new Splitter();
  readonly #guard: HeldKeyGuard;
  readonly #waiting: Arrival[] = [];
  readonly #pacers = new Set<(turn: number) => void>();
  #inHand: Arrival | undefined;
  #taken = false;
  #turn = 0;
  #holds = 0;
  #readyWhileHeld = false;
  #field: StreamField = { open: false };
  /** When the control string began that is not at its end. */
  #stringSince = 0;
  #pumping = false;
  #closed = false;
  #silenceTimer: NodeJS.Timeout | undefined;
  #guardTimer: NodeJS.Timeout | undefined;
  #patience: NodeJS.Timeout | undefined;
  #interruptTimer: NodeJS.Timeout | undefined;

  constructor(options: KeyStreamOptions) {
    super({ encoding: 'utf8', read() {} });
    this.#onInterrupt = options.onInterrupt;
    this.#now = options.now ?? (() => performance.now());
    this.#guard = heldKeyGuard(this.#now());
    this.on('newListener', (name) => {
      if (name === 'readable' || name === 'data') this.#pumpSoon();
    });
  }

  /** This stream as the type that ink's `render` wants for `stdin`. */
  get stdin(): NodeJS.ReadStream {
    return this as unknown as NodeJS.ReadStream;
  }

  /** Takes what the terminal sent, cut anywhere. */
  feed(bytes: Uint8Array): void {
    if (this.#closed) return;
    clearTimeout(this.#silenceTimer);
    const now = this.#now();
    const length = this.#splitter.stringBytes;
    if (length > 0 && (now - this.#stringSince) / length > slowestString) this.#arrive(this.#splitter.rest());
    this.#arrive(this.#splitter.push(bytes));
    if (this.#splitter.stringBytes <= bytes.length) this.#stringSince = now;
    this.#awaitSilence();
  }

  /**
   * Says that the screen stands on another step (or page) than before. The key in hand has then done its work and is
   * watched by the held-key guard. `KeyPacer` calls it.
   */
  stepChanged(): void {
    this.#guard.shown(this.#now());
    if (this.#inHand) this.#guard.spend(this.#inHand);
    else this.#guard.movedWithoutKey(this.#now());
  }

  /**
   * Says what is on the screen (no field at first): only into a text field are pasted characters handed over, and the
   * held-key guard judges by it. `KeyPacer` calls it.
   */
  stands(field: StreamField): void {
    if (field.careful && !this.#field.careful) this.#guard.shown(this.#now());
    this.#field = field;
  }

  /** Says that the screen was drawn anew with no key behind it: nobody has seen it before now. */
  drawnAnew(): void {
    this.#guard.movedWithoutKey(this.#now());
    this.#guard.shown(this.#now());
  }

  #unwanted(key: Key): boolean {
    return (
      key.kind === 'text' && key.pasted && !(this.#field.open && (this.#field.letters || /^[\d.,+-]$/.test(key.text)))
    );
  }

  /**
   * Keeps every further key back until the returned function is called: for work that goes on after the handler of
   * a key has returned, such as a write that is awaited.
   */
  hold(): () => void {
    this.#holds++;
    let held = true;
    return () => {
      if (!held) return;
      held = false;
      this.#holds--;
      if (this.#holds > 0) return;
      // What the work changed must be on the screen too before the next key.
      if (this.#readyWhileHeld) this.#askForReady();
      else this.#pumpSoon();
    };
  }

  /**
   * Calls the listener with a number whenever a key's handlers have run; it must answer with `ready(number)` once their
   * work is on the screen. Returns the function that ends it. For `KeyPacer`.
   */
  subscribe(listener: (turn: number) => void): () => void {
    this.#pacers.add(listener);
    return () => {
      this.#pacers.delete(listener);
      // The answer that was still owed will not come.
      if (this.#inHand && !this.#taken && this.#pacers.size === 0) this.#askForReady();
    };
  }

  /** Says that all that the key of this turn did is on the screen. */
  ready(turn: number): void {
    if (turn !== this.#turn || !this.#inHand) return;
    clearTimeout(this.#patience);
    if (this.#holds > 0) {
      this.#readyWhileHeld = true;
      return;
    }
    this.#inHand = undefined;
    this.#pumpSoon();
  }

  /** Forgets what waits, and takes and hands over nothing more. */
  close(): void {
    this.#closed = true;
    this.#waiting.length = 0;
    for (const timer of [this.#silenceTimer, this.#guardTimer, this.#patience, this.#interruptTimer])
      clearTimeout(timer);
  }

  /** ink's wish, which is not followed: the session keeps the terminal in raw mode from its start to its end. */
  setRawMode(_on: boolean): this {
    return this;
  }

  /** ink's wish, not followed either: the session decides how long the terminal keeps the program alive. */
  ref(): this {
    return this;
  }

  unref(): this {
    return this;
  }

  override read(size?: number): string | null {
    const chunk: string | null = super.read(size);
    if (chunk !== null) this.#taken = true;
    else if (this.#taken) {
      // The reader comes back for more, so the handlers of what it took have run.
      this.#taken = false;
      if (this.#inHand) this.#askForReady();
    }
    return chunk;
  }

  #arrive(keys: readonly Key[]): void {
    const at = this.#now();
    for (const key of keys) {
      const interrupt = key.kind === 'named' && key.name === 'interrupt';
      if (interrupt) {
        if (this.#interruptTimer) {
          this.#interrupt();
          return;
        }
        this.#interruptTimer = setTimeout(() => this.#interrupt(), interruptPatience);
      } else if (this.#waiting.length >= mostWaiting) continue;
      this.#waiting.push({ key, at });
    }
    if (keys.length > 0) this.#pumpSoon();
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

  #pumpSoon(): void {
    if (this.#pumping) return;
    this.#pumping = true;
    setImmediate(() => {
      this.#pumping = false;
      this.#pump();
    });
  }

  #pump(): void {
    if (this.#closed || this.#inHand || this.#holds > 0) return;
    if (this.listenerCount('readable') + this.listenerCount('data') === 0) return;
    clearTimeout(this.#guardTimer);
    for (let first = this.#waiting[0]; first; first = this.#waiting[0]) {
      if (first.key.kind === 'named' && first.key.name === 'interrupt') {
        this.#interrupt();
        return;
      }
      const verdict = this.#unwanted(first.key) ? 'drop' : this.#guard.judge(this.#waiting, this.#field, this.#now());
      if (typeof verdict === 'object') {
        this.#guardTimer = setTimeout(() => this.#pumpSoon(), verdict.wait);
        return;
      }
      this.#waiting.shift();
      if (verdict === 'pass') {
        this.#hand(first);
        return;
      }
    }
  }

  #hand(arrival: Arrival): void {
    this.#inHand = arrival;
    this.#readyWhileHeld = false;
    this.push(inkSequence(arrival.key));
  }

  #askForReady(): void {
    this.#readyWhileHeld = false;
    const turn = ++this.#turn;
    clearTimeout(this.#patience);
    if (this.#pacers.size === 0) {
      this.#afterTurns(turnsWithoutPacer, () => this.ready(turn));
      return;
    }
    for (const pacer of this.#pacers) pacer(turn);
    // A lost answer must not freeze the keyboard. Two timers: the first may only have been late behind a busy program.
    this.#patience = setTimeout(() => {
      this.#patience = setTimeout(() => this.ready(turn), readyPatience);
    }, readyPatience);
  }

  #afterTurns(turns: number, then: () => void): void {
    if (turns === 0) then();
    else setImmediate(() => this.#afterTurns(turns - 1, then));
  }
}
