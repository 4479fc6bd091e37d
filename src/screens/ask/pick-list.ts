/** Picking from a list by digit, or by arrow and Enter: shared by the kinds that pick. */

import type { Key } from '../../keys/key.js';
import type { Option } from '../../procedure/questions/kind.js';
import type { Item } from '../look/line.js';
import type { Input } from './asker.js';

export const pickFirst = 'Nothing is picked yet: press a digit, or an arrow and then Enter.';

/** What is said to a key that picks nothing from a list of so many. */
export const notPicked = (key: Key, count: number): string =>
  key.name === 'enter' ? pickFirst : count < 2 ? 'Press 1.' : `Press a digit from 1 to ${Math.min(9, count)}.`;

/** The digit before each item of a list: 1 to 9; further ones are reached by arrow. */
export const digitOf = (i: number): string | undefined => (i < 9 ? String(i + 1) : undefined);

/** The digits that pick from a list of so many, such as `1-3`. */
export const digitKeys = (count: number): string => (count < 2 ? '1' : `1-${Math.min(9, count)}`);

export const itemsOf = (options: readonly Option[]): Item[] =>
  options.map((o, i) => ({ value: o.value, label: o.label, note: o.note, digit: digitOf(i) }));

/** Moves the highlight; undefined when the key moves nothing. Nothing is highlighted at first, so that a held Enter answers nothing. */
export function move(index: number, count: number, key: Key): number | undefined {
  if (count === 0) return undefined;
  switch (key.name) {
    case 'down':
      return index < 0 ? 0 : (index + 1) % count;
    case 'up':
      return index < 0 ? count - 1 : (index - 1 + count) % count;
    case 'page-down':
      return Math.min(count - 1, Math.max(0, index) + 8);
    case 'page-up':
      return Math.max(0, index - 8);
    case 'home':
      return 0;
    case 'end':
      return count - 1;
    default:
      return undefined;
  }
}

export type Picked = { readonly index: number } | { readonly value: string } | { readonly none: true } | undefined;

export function pickBy(input: Pick<Input, 'index'>, options: readonly { readonly value: string }[], key: Key): Picked {
  const to = move(input.index, options.length, key);
  if (to !== undefined) return { index: to };
  if (key.name === 'char' && /^[1-9]$/.test(key.char)) {
    const hit = options[Number(key.char) - 1];
    return hit ? { value: hit.value } : { none: true };
  }
  if (key.name === 'enter') {
    const hit = options[input.index];
    return hit ? { value: hit.value } : { none: true };
  }
  return undefined;
}
