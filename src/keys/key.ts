/** One key as a person pressed it, free of how the terminal wrote it down: the keyboard and the pages know no other. */

export type KeyName =
  /** A key that is text. */
  | 'char'
  | 'enter'
  | 'esc'
  | 'tab'
  | 'back-tab'
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'page-up'
  | 'page-down'
  | 'home'
  | 'end'
  /** Backspace and Delete: both take something back. */
  | 'backspace'
  /** A picture was dropped on the window: its path stands in `path`. */
  | 'dropped'
  /** Ctrl-C. No page ever gets it. */
  | 'interrupt';

export interface Key {
  readonly name: KeyName;
  /** One printable code point where it is text, else empty. */
  readonly char: string;
  /** It came out of a paste. */
  readonly pasted?: true;
  /** What the terminal typed for a file that was dropped: bare, quoted, escaped or as file://. */
  readonly path?: string;
}

/** Confirms a danger, a hold point or a change of the record: the same key everywhere, and used for nothing else. */
export const safetyKey = '9';

/** The same for two keys exactly when they are the same key on the keyboard. */
export const keyId = (key: Key): string => (key.name === 'char' ? key.char : `<${key.name}>`);

export const isChar = (key: Key, ...chars: readonly string[]): boolean =>
  key.name === 'char' && chars.includes(key.char.toLowerCase());
