/** What the keyboard has to know of whoever its keys go to. */
import type { Key } from './key.js';

/** What keys mean on the screen as it stands. */
export interface KeyMode {
  /**
   * Where text goes: 'none', it is a command or a pick; 'digits', into a field in which a letter is a command until a
   * digit stands in it; 'text', into a field, every letter of it.
   */
  readonly field: 'none' | 'digits' | 'text';
  /**
   * 'danger' where the safety key confirms a danger, a hold point or the like; 'other-key' where Enter only closes the
   * field and something else has to be pressed before anything is recorded.
   */
  readonly confirm: 'none' | 'danger' | 'other-key';
}

/** What is asked on the screen. */
export interface Prompt extends KeyMode {
  /** Differs for everything that can be answered or left: no press of one may count for the next. */
  readonly id: string;
}

/** Whoever the keys go to. */
export interface KeyTaker {
  /** Takes a key; what it gives settles once all that the key does is done. */
  press(key: Key): void | Promise<void>;
  /** Told of a key that came sooner than what it confirms can have been read. */
  early?(key: Key): void;
  /** Asked after each key: true where it took so long that what was typed meanwhile was meant for a screen that is gone. */
  forgets?(): boolean;
  /** What is asked now. */
  readonly asked: Prompt;
  /** Calls back whenever that may have changed. */
  subscribe(listener: () => void): () => void;
}
