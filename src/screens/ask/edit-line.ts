/** Editing of one line of text, for every question that is typed. */
import type { Key } from '../../keys/key.js';
import { glyphs } from '../look/glyphs.js';
import type { Line } from '../look/line.js';
import { cut, widthOf } from '../look/wrap.js';
import type { Input } from './asker.js';

/** What a person counts as one letter; where each character is one, the rules of other scripts are not loaded. */
const letters = (text: string): string[] =>
  /^[\x20-\x7e]*$/.test(text) ? [...text] : [...new Intl.Segmenter().segment(text)].map((s) => s.segment);

/** Undefined when the key edits nothing. */
export function edit(input: Input, key: Key, longest = 2000): Input | undefined {
  const all = letters(input.text);
  const at = Math.min(input.at, all.length);
  const put = (list: readonly string[], caret: number): Input => ({
    ...input,
    text: list.join(''),
    at: caret,
    ...(list === all ? {} : { over: '' }),
  });
  switch (key.name) {
    case 'char': {
      if (all.length >= longest) return { ...input, over: (input.over ?? '') + key.char };
      const text = [...all.slice(0, at), key.char, ...all.slice(at)].join('');
      const before = letters([...all.slice(0, at), key.char].join('')).length;
      return { ...input, text, at: before, over: '' };
    }
    case 'backspace':
      return at === 0 ? input : put([...all.slice(0, at - 1), ...all.slice(at)], at - 1);
    case 'left':
      return put(all, Math.max(0, at - 1));
    case 'right':
      return put(all, Math.min(all.length, at + 1));
    case 'home':
      return put(all, 0);
    case 'end':
      return put(all, all.length);
    default:
      return undefined;
  }
}

const END = 30;

/** What a full field left out: said at each key that it can't hold, and once at Enter, which records nothing then. */
export function leftOut(before: Input, now: Input, key: Key): { input: Input; say: string } | undefined {
  const { over = '' } = now;
  const enter = key.name === 'enter';
  if (over === '' || !(enter || over !== before.over)) return undefined;
  const tail = over.length > END ? `… ${over.slice(-END).trim()}` : over;
  const many = over.length > END ? ` (${over.length} characters)` : '';
  const full = `Full: ${letters(now.text).length} characters are all that fit. Left out: “${tail}”${many}.`;
  if (!enter) return { input: now, say: full };
  const way = 'Shorten it with Backspace, or press Enter again to record it without that.';
  return { input: { ...now, over: '' }, say: `${full} ${way}` };
}

/** The text with its caret, folded to the width; the end is always seen. */
export function fieldLines(input: Input, width: number, ascii: boolean, focused = true, tail = ''): Line[] {
  const all = letters(input.text);
  const at = Math.min(input.at, all.length);
  const caret = focused ? glyphs(ascii).caret : '';
  const whole = all.slice(0, at).join('') + caret + all.slice(at).join('');
  const room = Math.max(6, width - 4);
  const rows: string[] = [];
  let rest = whole;
  do {
    const head = cut(rest, room);
    rows.push(head);
    rest = rest.slice(head.length || 1);
  } while (rest !== '');
  const shown = rows.length > 3 ? rows.slice(-3) : rows;
  return shown.map((row, i) => {
    const last = i === shown.length - 1;
    const unit = last && tail && widthOf(row) + widthOf(tail) + 1 <= room ? tail : '';
    return [
      { text: i === 0 ? '> ' : '  ', tone: 'strong' },
      { text: row || ' ', tone: 'strong' },
      ...(unit ? [{ text: ` ${unit}` }] : []),
    ];
  });
}
