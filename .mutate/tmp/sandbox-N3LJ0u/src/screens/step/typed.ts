/** A line of text in a moment that is no question of the procedure: a prediction, or initials. */
// @ts-nocheck

import type { Input } from '../ask/asker.js';
import { edit } from '../ask/edit-line.js';
import type { Desk } from '../desk.js';
import type { Key } from '../keys.js';

const begin = (text: string): Input => ({ text, at: [...text].length, index: -1, unit: '', items: [], count: 0 });

export function typedLine(desk: Desk, where: string, start = '') {
  const input = (): Input => {
    if (!desk.holds(where)) desk.inputs.set(where, begin(start));
    return desk.inputFor(where, begin);
  };
  return {
    input,
    /** True when the key edited it. */
    press(key: Key, longest: number): boolean {
      const next = edit(input(), key, longest);
      if (!next) return false;
      desk.setInput(where, next, next.text || undefined);
      return true;
    },
    /** Takes everything out. */
    empty: () => desk.setInput(where, begin(''), undefined),
    drop: () => desk.dropInput(where),
  };
}
