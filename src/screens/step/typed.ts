/** A line of text in a moment that is no question of the procedure: a prediction, or initials. */

import type { Key } from '../../keys/key.js';
import type { Input } from '../ask/asker.js';
import { edit, leftOut } from '../ask/edit-line.js';
import type { Desk } from '../desk.js';

const begin = (text: string): Input => ({ text, at: [...text].length, index: -1, unit: '', items: [], count: 0 });

export function typedLine(desk: Desk, where: string, start = '') {
  const input = (): Input => {
    if (!desk.holds(where)) desk.inputs.set(where, begin(start));
    return desk.inputFor(where, begin);
  };
  return {
    input,
    /** True when the key edited it, or something that it left out is to be told first. */
    press(key: Key, longest: number): boolean {
      const before = input();
      const edited = edit(before, key, longest);
      const left = leftOut(before, edited ?? before, key);
      const next = left?.input ?? edited;
      if (!next) return false;
      desk.setInput(where, next, next.text || undefined);
      if (left) desk.stack.say(left.say);
      return true;
    },
    /** Takes everything out. */
    empty: () => desk.setInput(where, begin(''), undefined),
    drop: () => desk.dropInput(where),
  };
}
