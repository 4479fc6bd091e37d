/** What every page obeys: it tells what it looks like and takes keys. */
// @ts-nocheck

import type { Key } from './keys.js';
import type { Room, View } from './look/line.js';
import type { Message } from './parts/frame-layout.js';

export interface Page {
  readonly name: string;
  view(room: Room): View;
  /** False when the key was none of its own. */
  press(key: Key): boolean | Promise<boolean>;
  /** Differs for everything that can be answered or left on it. */
  step?(): string;
  /** True while a text field is open. */
  typing?(): boolean;
  /** True while letters are text; as `typing` when left out. */
  takesLetters?(): boolean;
  /** True while a danger is confirmed: one more press of the key that answered last is not for it. */
  careful?(): boolean;
  /** True while Enter takes what stands in the field and another key has to confirm it. */
  enterOnlyCloses?(): boolean;
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
  /** True while a job by a shop's own procedure lies open: every page above is marked so too. */
  shop?(): boolean;
}

/** What a page may do with the session that shows it. */
export interface Stack {
  push(page: Page): void;
  /** One step back. */
  pop(): void;
  /** Back to the page of this name, or to the lowest. */
  popTo(name: string): void;
  replace(page: Page): void;
  /** Draw again. */
  changed(): void;
  /** One sentence above the foot, until the next key. */
  say(text: string, tone?: 'alert' | 'good'): void;
  quit(code: number): void;
  readonly room: Room;
  /** The sentence that stands above the foot now. */
  readonly message: Message | undefined;
}
