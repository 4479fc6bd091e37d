/** Lays a view out within the terminal: head, body, foot, never as tall as the terminal itself. Draws nothing. */
import { safeText } from '../../text/safe-text.js';
import { type Fitted, fitParts } from '../look/fit.js';
import { type Glyphs, glyphs } from '../look/glyphs.js';
import type { Block, Hint, Line, Room, View } from '../look/line.js';
import { toAscii } from '../look/plain-letters.js';
import { lineWidth, shorten, widthOf, wrap } from '../look/wrap.js';

/** From this width on a drawing or a curve stands beside. */
const wideFrom = 104;
export const margin = 1;

export interface Message {
  readonly text: string;
  readonly tone: 'alert' | 'good';
  /** Said in the rule above the foot: it takes no line from what has to be read. */
  readonly inRule?: true;
}

/** Columns of the body and of what stands beside it. */
export function columns(room: Room, beside: boolean): { body: number; side: number } {
  const inner = Math.max(8, room.cols - 2 * margin);
  if (!beside || room.cols < wideFrom) return { body: inner, side: 0 };
  const side = Math.min(52, Math.floor(inner * 0.42));
  return { body: inner - side - 3, side };
}

/** Lines between head and foot. */
export const bodyHeight = (room: Room, footLines: number): number => Math.max(1, room.rows - 1 - 2 - 1 - footLines);

/** A job's name may come from anywhere: nothing in a text is obeyed by the terminal. */
const lettersFor = (room: Room) => (text: string) => {
  // Signs for the eye would be read out by name.
  if (room.reader)
    return lettersOf(
      room,
      text
        .replace(/[┃▲✓◷○▏]\s*/g, '')
        .replace(/↑ ?↓/g, 'Up or Down')
        .replace(/↓/g, 'Down'),
    );
  return lettersOf(room, text);
};

const lettersOf = (room: Room, text: string): string => {
  if (/^[\x20-\x7e]*$/.test(text)) return text;
  const safe = safeText(text, { lines: true, max: 20_000 });
  return room.ascii ? toAscii(safe) : safe;
};

function tidyBlock(block: Block, letters: (t: string) => string): Block {
  const { lines, small, least, longer, upTo, beside, choices } = block;
  const spelt = (list: readonly Line[]): Line[] =>
    list.map((line) => line.map((s) => ({ ...s, text: letters(s.text) })));
  /** Spelt in plain letters a line may grow: then all are folded anew to less width. */
  const tidyLines = (make: (width: number) => readonly Line[], width: number): Line[] => {
    let room = width;
    for (let i = 0; i < 3; i++) {
      const list = spelt(make(room));
      const over = Math.max(0, ...list.map((l) => lineWidth(l) - width));
      if (over === 0) return list;
      room = Math.max(8, room - over);
    }
    return spelt(make(room)).flatMap((line) => wrap(line, width));
  };
  return {
    ...block,
    lines: lines && ((width) => tidyLines(lines, width)),
    small: small && ((width) => tidyLines(small, width)),
    least: least && ((width) => tidyLines(least, width)),
    upTo: upTo && ((width, most) => tidyLines((w) => upTo(w, most), width)),
    longer: longer && ((width) => tidyLines(longer, width)),
    beside: beside && ((width) => tidyLines(beside, width)),
    choices: choices && {
      ...choices,
      items: choices.items.map((i) => ({ ...i, label: letters(i.label), note: i.note && letters(i.note) })),
    },
  };
}

/** Key hints in at most `most` lines, the least important left out first. */
function footLines(hints: readonly Hint[], width: number, most: number, apart: string): Line[] {
  let left = [...hints];
  for (;;) {
    const rows: Line[] = [];
    let row: { text: string; tone?: 'strong' | 'quiet' }[] = [];
    for (const h of left) {
      const piece = [
        { text: h.key, tone: 'strong' as const },
        { text: ` ${h.does}`, tone: 'quiet' as const },
      ];
      const gap = row.length ? apart : '';
      if (row.length && lineWidth(row) + widthOf(gap) + lineWidth(piece) > width) {
        rows.push(row);
        row = piece;
      } else row.push(...(gap ? [{ text: gap, tone: 'quiet' as const }] : []), ...piece);
    }
    if (row.length) rows.push(row);
    if (rows.length <= most) return rows;
    const worst = Math.max(...left.map((h) => h.rank ?? 2));
    const drop = left.findLastIndex((h) => (h.rank ?? 2) === worst);
    left = left.filter((_, i) => i !== drop);
  }
}

/** Lines between head and foot where these keys stand in the foot and nothing is said above it. */
export function bodyRoom(hints: readonly Hint[], room: Room): number {
  const letters = lettersFor(room);
  const inner = Math.max(8, room.cols - 2 * margin);
  return bodyHeight(room, footOf(hints, letters, inner, room).length);
}

const footOf = (hints: readonly Hint[], letters: (t: string) => string, inner: number, room: Room): Line[] =>
  footLines(
    hints.map((h) => ({ ...h, key: letters(h.key), does: letters(h.does) })),
    inner,
    room.rows >= 22 ? 2 : 1,
    ' '.repeat(3),
  );

function scrolled(
  blocks: readonly Block[],
  width: number,
  height: number,
  at: number,
): { readonly fitted: Fitted[]; readonly cut: boolean } {
  const lines = blocks.flatMap((b, i) => [...(b.gap && i > 0 ? [[]] : []), ...(b.lines?.(width) ?? [])]);
  const from = Math.max(0, Math.min(at, lines.length - height));
  const fitted = [{ block: { rank: 1 }, gap: false, lines: lines.slice(from, from + height) }];
  return { fitted, cut: from + height < lines.length };
}

/** The lines of a bare view, cut to the window; one row stays free where there is more than one. */
export function bareLines(view: View, room: Room): Line[] {
  const letters = lettersFor(room);
  const lines = view.body.flatMap((b) => tidyBlock(b, letters).lines?.(room.cols) ?? []);
  return lines.slice(0, Math.max(1, room.rows - 1));
}

/** Every part of a frame as lines, each within its width. */
export interface FrameLayout {
  readonly head: string;
  /** The same in spans, cut to the window. */
  readonly headLine: Line;
  readonly headRight: string;
  readonly fitted: readonly Fitted[];
  /** Columns of the body, of what stands beside it (0: nothing) and of all within the margins. */
  readonly width: number;
  readonly side: number;
  readonly inner: number;
  readonly sideLines: readonly Line[];
  readonly said: readonly Line[];
  readonly foot: readonly Line[];
  /** The rule above the foot; it says when something had no room, or that a key came too soon. */
  readonly lowerRule: string;
  readonly lowerTone: 'plain' | 'quiet';
  readonly cut: boolean;
  readonly glyphs: Glyphs;
  readonly letters: (text: string) => string;
}

function headLine(head: string, mark: string | undefined): Line {
  const at = mark ? head.indexOf(mark) : -1;
  if (at < 0 || !mark) return [{ text: head, tone: 'strong' }];
  return [
    { text: head.slice(0, at), tone: 'strong' as const },
    { text: mark, tone: 'invert' as const },
    { text: head.slice(at + mark.length), tone: 'strong' as const },
  ].filter((s) => s.text !== '');
}

/**
 * Where one is and how far, beside one another: what is still to wait, then the minutes, go before the phase is cut, and
 * the bearing never. What stands on the right is left out whole or stands there whole.
 */
function heads(head: string, right: string, mark: number, inner: number, more: string) {
  // As it is spelt in plain letters too.
  const apart = right.includes(' · ') ? ' · ' : ' - ';
  const parts = right.split(apart);
  const shorter = [right, right.replace(/ \+ [^·-]*$/, ''), ...parts.map((_, i) => parts.slice(0, -1 - i).join(apart))];
  const room = (text: string): number => inner - widthOf(text) - 3;
  const fits = shorter.find((t) => t !== '' && room(head) >= widthOf(t));
  if (fits !== undefined || right === '') return { head, headRight: fits ?? '' };
  const least = shorter.filter((t) => t !== '').at(-1) ?? '';
  // Behind the mark a few letters of the phase say which it is. Without one all of the head counts.
  return mark > 0 && room(least) >= mark + 8
    ? { head: shorten(head, room(least), more), headRight: least }
    : { head, headRight: '' };
}

export function layFrame(view: View, room: Room, message: Message | undefined): FrameLayout {
  const letters = lettersFor(room);
  const g = glyphs(room.ascii);
  const beside = view.side !== undefined;
  const { body: width, side } = columns(room, beside);
  const inner = Math.max(8, room.cols - 2 * margin);
  const foot = footOf(view.foot, letters, inner, room);
  const said: Line[] =
    message && !message.inRule
      ? wrap(
          [
            { text: `${message.tone === 'alert' ? g.warn : g.done} `, tone: message.tone },
            { text: letters(message.text), tone: 'strong' },
          ],
          inner,
          2,
        ).slice(0, Math.max(1, Math.min(5, room.rows - 8)))
      : [];
  const height = Math.max(1, bodyHeight(room, foot.length) - said.length - (said.length && room.rows > 20 ? 1 : 0));
  const blocks = view.body.map((b) => tidyBlock(b, letters));
  const { fitted, cut } =
    view.scroll === undefined
      ? fitParts(blocks, width, height, { more: g.more, down: letters('↓'), said: said.length > 0 })
      : scrolled(blocks, width, height, view.scroll);
  const more = view.scroll === undefined ? 'more than fits here: PgDn' : 'more below';
  const told = message?.inRule ? message.text : cut ? more : '';
  const cue = told && letters(` ${told} `);
  const under = cue && inner > widthOf(cue) + 4 ? `${g.rule.repeat(3)}${cue}` : cue;
  const sideLines = side
    ? (view.side?.(side, height) ?? []).slice(0, height).map((l) => l.map((s) => ({ ...s, text: letters(s.text) })))
    : [];
  const { head, headRight } = heads(
    letters(view.head),
    view.headRight ? letters(view.headRight) : '',
    widthOf(letters(view.headMark ?? '')),
    inner,
    g.more,
  );
  return {
    head,
    headLine: headLine(shorten(head, inner, g.more), view.headMark && letters(view.headMark)),
    headRight,
    fitted,
    width,
    side,
    inner,
    sideLines,
    said,
    foot,
    glyphs: g,
    letters,
    cut,
    lowerTone: cue ? 'plain' : 'quiet',
    lowerRule: `${under}${g.rule.repeat(Math.max(0, inner - widthOf(under)))}`,
  };
}
