/** Key presses as the pages see them, from what ink hands over. */
// @ts-nocheck

import type { Key as InkKey } from 'ink';

type KeyName =
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
  | 'backspace'
  | 'ctrl';

export interface Key {
  readonly name: KeyName;
  /** The character, or the letter that went with Ctrl. */
  readonly char: string;
}

const named: readonly (readonly [keyof InkKey, KeyName])[] = [
  ['upArrow', 'up'],
  ['downArrow', 'down'],
  ['leftArrow', 'left'],
  ['rightArrow', 'right'],
  ['pageUp', 'page-up'],
  ['pageDown', 'page-down'],
  ['home', 'home'],
  ['end', 'end'],
  ['return', 'enter'],
  ['escape', 'esc'],
  // Backspace arrives as `delete`; the two can't be told apart.
  ['backspace', 'backspace'],
  ['delete', 'backspace'],
];

/** One event may hold several characters when it comes from a slow link or a paste. */
export function toKeys(input: string, key: InkKey): Key[] {
  if (key.eventType === 'release') return [];
  if (key.tab) return [{ name: key.shift ? 'back-tab' : 'tab', char: '' }];
  const hit = named.find(([flag]) => key[flag]);
  if (hit) return [{ name: hit[1], char: '' }];
  if (key.ctrl) return [{ name: 'ctrl', char: input.toLowerCase() }];
  const keys: Key[] = key.meta && input ? [{ name: 'esc', char: '' }] : [];
  for (const char of input) {
    if (char === '\r' || char === '\n') keys.push({ name: 'enter', char: '' });
    else if (char === '\t') keys.push({ name: 'tab', char: '' });
    else if (char === '\u007f' || char === '\b') keys.push({ name: 'backspace', char: '' });
    else if (char >= ' ') keys.push({ name: 'char', char });
  }
  return keys;
}

export const isChar = (key: Key, ...chars: readonly string[]): boolean =>
  key.name === 'char' && chars.includes(key.char.toLowerCase());
