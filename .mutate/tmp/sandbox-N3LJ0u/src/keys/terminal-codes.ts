/** What terminals send for the keys that this program knows (ECMA-48 control sequences, DEC and xterm key codes). */
// @ts-nocheck

import type { NamedKey } from './key.js';

/** By parameters and final byte of ESC [. Keys with Ctrl, Alt or Shift carry more parameters and are not here. */
export const controlSequences: Readonly<Record<string, NamedKey>> = {
  A: 'up',
  B: 'down',
  C: 'right',
  D: 'left',
  H: 'home',
  F: 'end',
  Z: 'shift-tab',
  '1~': 'home',
  '3~': 'delete',
  '4~': 'end',
  '5~': 'page-up',
  '6~': 'page-down',
  '7~': 'home',
  '8~': 'end',
};
export const pasteBegins = '200~';
export const pasteEnds = '201~';

/** By the byte after ESC O: cursor keys in application mode, and Enter of the number pad. */
export const singleShiftKeys: Readonly<Record<string, NamedKey>> = {
  A: 'up',
  B: 'down',
  C: 'right',
  D: 'left',
  H: 'home',
  F: 'end',
  M: 'enter',
};

/** The number pad in application mode, which a crashed program may have left on: ESC O p is 0, and so on. */
export const numberPad: Readonly<Record<string, string>> = {
  ...Object.fromEntries(Array.from('0123456789', (digit, i) => [String.fromCharCode(0x70 + i), digit])),
  j: '*',
  k: '+',
  l: ',',
  m: '-',
  n: '.',
  o: '/',
  X: '=',
};
