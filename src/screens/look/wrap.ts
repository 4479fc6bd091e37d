/** Breaks lines at blanks, by the width that characters take on a terminal. */
import { textWidth } from '../../text/text-width.js';
import { heldTogether } from '../../units/shown-units.js';
import type { Line, Span, Tone } from './line.js';

interface Piece {
  readonly text: string;
  readonly tone: Tone | undefined;
  readonly blank: boolean;
}

export const widthOf = (text: string): number => (/^[\x20-\x7e]*$/.test(text) ? text.length : textWidth(text));

export const lineWidth = (line: Line): number => line.reduce((sum, s) => sum + widthOf(s.text), 0);

/** The longest beginning of `text` that fits. */
export function cut(text: string, width: number): string {
  let out = '';
  let used = 0;
  for (const c of text) {
    const w = widthOf(c);
    if (used + w > width) break;
    out += c;
    used += w;
  }
  return out;
}

/** Shortened with a mark at the end when it does not fit. */
export function shorten(text: string, width: number, mark = '…'): string {
  if (widthOf(text) <= width) return text;
  return `${cut(text, Math.max(0, width - widthOf(mark))).trimEnd()}${mark}`;
}

function pieces(line: Line): Piece[] {
  return line.flatMap((s) =>
    (heldTogether(s.text).match(/ +|[^ ]+/g) ?? []).map((text) => ({
      text,
      tone: s.tone,
      blank: text.startsWith(' '),
    })),
  );
}

function joined(row: readonly Piece[]): Line {
  const out: Span[] = [];
  for (const piece of row) {
    // What held words together while they were folded is an ordinary blank again: ASCII has no other.
    const p = { ...piece, text: piece.text.replaceAll('\u00a0', ' ') };
    const last = out.at(-1);
    if (last && last.tone === p.tone) out[out.length - 1] = { ...last, text: last.text + p.text };
    else out.push({ text: p.text, tone: p.tone });
  }
  return out;
}

/** `line` in rows of at most `width`; rows after the first begin with `indent` blanks. */
export function wrap(line: Line, width: number, indent = 0): Line[] {
  const room = Math.max(4, width);
  if (lineWidth(line) <= room) return [line];
  const rows: Piece[][] = [];
  let row: Piece[] = [];
  let used = 0;
  const lead = (): void => {
    rows.push(row);
    row = indent > 0 && indent < room - 4 ? [{ text: ' '.repeat(indent), tone: undefined, blank: true }] : [];
    used = row.length ? indent : 0;
  };
  // Words are glued to what follows without a blank between, so that a change of tone breaks no word.
  for (const p of pieces(line)) {
    let rest = p;
    while (used + widthOf(rest.text) > room) {
      if (rest.blank) {
        rest = { ...rest, text: '' };
        break;
      }
      const fresh = row.every((r) => r.blank);
      if (!fresh) {
        while (row.at(-1)?.blank) row.pop();
        lead();
        continue;
      }
      const head = cut(rest.text, room - used);
      if (head === '') break;
      row.push({ ...rest, text: head });
      rest = { ...rest, text: rest.text.slice(head.length) };
      lead();
    }
    if (rest.text === '' || (rest.blank && used === 0 && rows.length > 0)) continue;
    row.push(rest);
    used += widthOf(rest.text);
  }
  while (row.at(-1)?.blank) row.pop();
  if (row.length || rows.length === 0) rows.push(row);
  return rows.map(joined);
}

/** Several paragraphs; a line break in the text begins a new row. */
export function wrapText(text: string, width: number, tone?: Tone, indent = 0): Line[] {
  return text.split('\n').flatMap((t) => wrap([{ text: t, tone }], width, indent));
}
