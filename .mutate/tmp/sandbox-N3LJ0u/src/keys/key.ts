/** One key as a person pressed it, free of how the terminal wrote it down. */
// @ts-nocheck


export type NamedKey =
  | 'enter'
  | 'escape'
  | 'backspace'
  | 'delete'
  | 'tab'
  | 'shift-tab'
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'home'
  | 'end'
  | 'page-up'
  | 'page-down'
  /** Ctrl-C. */
  | 'interrupt';

export type Key =
  | { readonly kind: 'named'; readonly name: NamedKey }
  /** One printable code point; `pasted` when it came out of a bracketed paste. */
  | { readonly kind: 'text'; readonly text: string; readonly pasted: boolean };

/** Confirms a danger, a hold point or a change of the record: the same key everywhere, and used for nothing else. */
export const safetyKey = '9';

/** The same for two keys exactly when they are the same key on the keyboard. */
export function keyId(key: Key): string {
  return key.kind === 'named' ? `<${key.name}>` : key.text;
}

/**
 * What ink 6 reads as this key, at once and in one piece.
 *
 * Two differ from what terminals send. A lone ESC makes ink wait for another byte, so Esc goes out in its CSI u form.
 * DEL is `key.delete` to ink although it is the Backspace key, so Backspace goes out as BS: `key.backspace`.
 */
export function inkSequence(key: Key): string {
  return key.kind === 'text' ? key.text : sequences[key.name];
}

const sequences: Readonly<Record<NamedKey, string>> = {
  enter: '\r',
  escape: '\x1b[27u',
  backspace: '\b',
  delete: '\x1b[3~',
  tab: '\t',
  'shift-tab': '\x1b[Z',
  up: '\x1b[A',
  down: '\x1b[B',
  right: '\x1b[C',
  left: '\x1b[D',
  home: '\x1b[H',
  end: '\x1b[F',
  'page-up': '\x1b[5~',
  'page-down': '\x1b[6~',
  interrupt: '\x03',
};
