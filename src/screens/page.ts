/**
 * A page: everything that can lie on the screen obeys this.
 *
 * After each key, and when time has passed, the stack asks the page on top once to `advance`. There, and nowhere else, it
 * works out what stands there now: for the screen, for the keyboard (`Asks`), and so what the next key means. `view` only
 * reads that, `press` does what a key does. A page on which nothing is typed and no danger is confirmed needs no
 * `advance`; most are made of `PickPage` (a list), `FormPage` (some questions in a row) or `ReadingPage` (a text).
 */
import type { Key } from '../keys/key.js';
import type { KeyMode } from '../keys/key-taker.js';
import type { Room, View } from './look/line.js';
import type { Message } from './parts/frame-layout.js';

/** What is asked on a page. What is left out is none. */
export interface Asks extends Partial<KeyMode> {
  /** Differs for everything on the page that can be answered or left: no press of one may count for the next. */
  readonly id?: string;
}

export interface Page {
  readonly name: string;
  /** Works out what stands here now, and says what is asked. Left out: one thing, where nothing is typed or confirmed. */
  advance?(room: Room): Asks;
  /** What it looks like, as it was worked out. Changes nothing. */
  view(room: Room): View;
  /** Does what the key does; false when it was none of its own. */
  press(key: Key): boolean | Promise<boolean>;
  /** Takes a picture that was dropped on the window, by its path. Left out: a text field gets the path, others refuse. */
  dropped?(path: string): boolean | Promise<boolean>;
  /** Looks at the clock; true when what stands there has changed by it. */
  time?(): boolean;
  /** Told when it lies on top again. */
  again?(): void;
  /** Told when it is left for good; what it still has to do is waited for at the end. */
  leave?(): void | Promise<void>;
  /** True while an invented rotor lies open: every page above is marked so. */
  practice?(): boolean;
  /** True while a job by a shop's own procedure lies open: every page above is marked so too. */
  shop?(): boolean;
}

/** What a page may do with the stack that it lies on. */
export interface Stack {
  push(page: Page): void;
  /** One step back. */
  pop(): void;
  /** Back to the page of this name, or to the lowest. */
  popTo(name: string): void;
  replace(page: Page): void;
  /** Draw again: for what changes with no key behind it. */
  changed(): void;
  /** What was typed since the key in hand was meant for what stood here then: it is dropped. For work of seconds. */
  forgetAhead(): void;
  /** One sentence above the foot, until the next key. */
  say(text: string, tone?: 'alert' | 'good'): void;
  quit(code: number): void;
  readonly room: Room;
  /** The sentence that stands above the foot now. */
  readonly message: Message | undefined;
}
