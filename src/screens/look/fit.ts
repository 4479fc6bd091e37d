/** Fits the blocks of a page into the lines that there are: the least important goes first, nothing is ever taller. */
import type { Block, Choices, Item, Line } from './line.js';
import { cut as beginning, widthOf, wrap } from './wrap.js';

export type Fitted =
  | { readonly block: Block; readonly gap: boolean; readonly lines: readonly Line[] }
  | {
      readonly block: Block;
      readonly gap: boolean;
      readonly choices: Choices;
      /** Window on the items. */
      readonly from: number;
      readonly rows: readonly { readonly item: Item; readonly lines: readonly string[] }[];
      readonly before: boolean;
      /** How many stand below those that are seen, and the key that brings them: a page that is read picks none. */
      readonly after: string | undefined;
    };

/** What stands behind words that were cut, and the name of the key that moves down. */
export interface Signs {
  readonly more: string;
  readonly down: string;
  /** A key was refused: what stands here was read before it. */
  readonly said?: boolean;
}

/** Room before an item: pointer, blank, key, two blanks. */
const itemIndent = (choices: Choices): number =>
  2 + (choices.items.some((i) => i.digit) ? 3 : 0) + (choices.items.some((i) => i.on !== undefined) ? 4 : 0);

const words = (lines: readonly Line[]): string[] => lines.map((l) => l.map((s) => s.text).join(''));

function itemLines(item: Item, width: number): string[] {
  const whole = item.note ? `${item.label}  (${item.note})` : item.label;
  return words(wrap([{ text: whole }], width, 2));
}

interface Part {
  readonly block: Block;
  lines: readonly Line[];
  readonly small: readonly Line[] | undefined;
  readonly least: readonly Line[] | undefined;
  readonly longer: readonly Line[] | undefined;
  readonly beside: readonly Line[];
  readonly items: readonly { readonly item: Item; readonly lines: readonly string[] }[];
  gap: boolean;
  height: number;
  dropped: boolean;
  /** Not all of its sentences stand there. */
  short: boolean;
}

const tall = (parts: readonly Part[]): number =>
  parts.reduce((sum, p) => sum + (p.dropped ? 0 : p.height + (p.gap ? 1 : 0)), 0);

/** Lists longer than this are squeezed before anything else is left out. */
const listEasy = 9;

/** A list of findings: what stands elsewhere too is left out before one of them is. */
const listWhole = 12;

/** Lists are not squeezed below this many lines while anything less important is still there. */
const listLeast = 4;

/** What is less important than this is left out without a word: it stands elsewhere too. */
const TOLD = 4;

const listHeight = (p: Pick<Part, 'items'>): number => p.items.reduce((s, it) => s + it.lines.length, 0);

function layBeside(parts: readonly Part[], over: () => number): void {
  for (const p of parts)
    if (p.beside.length > 0 && over() > 0) p.height = Math.min(p.height, Math.max(p.beside.length, p.height - over()));
}

/** True where the choices stand beside one another. */
const isBeside = (p: Part): boolean =>
  !p.dropped && p.height < listHeight(p) && p.beside.length > 0 && p.beside.length <= p.height;

/** True when something of a part is not on the screen and nothing on it says so. */
function lacks(p: Part): boolean {
  if (p.block.rank > TOLD || p.block.eyeOnly) return false;
  if (p.items.length === 0) return p.lines.length > 0 && (p.dropped || p.short || p.height < p.lines.length);
  if (isBeside(p)) return false;
  const whole = listHeight(p);
  return p.dropped || (whole > p.height && p.height < LIST_MARKS);
}

/** From so many lines on a list itself says that there is more of it. */
const LIST_MARKS = 3;

/**
 * `cut` is true when something was left out that nothing on the screen tells of.
 */
export function fitParts(
  blocks: readonly Block[],
  width: number,
  height: number,
  signs: Signs = { more: '…', down: '↓' },
): { readonly fitted: Fitted[]; readonly cut: boolean } {
  const parts: Part[] = blocks.map((block) => {
    const lines = block.lines?.(width) ?? [];
    const list = block.choices;
    const items = list ? list.items.map((item) => ({ item, lines: itemLines(item, width - itemIndent(list)) })) : [];
    const own = list ? items.reduce((s, it) => s + it.lines.length, 0) : lines.length;
    const small = block.small?.(width);
    const least = block.least?.(width);
    const longer = block.longer?.(width);
    const beside = block.beside?.(width) ?? [];
    return {
      block,
      lines,
      small,
      least,
      longer,
      beside,
      items,
      gap: Boolean(block.gap),
      height: own,
      dropped: own === 0,
      short: false,
    };
  });
  const over = (): number => tall(parts) - height;
  const squeeze = (least: number): void => {
    for (const p of parts)
      if (p.items.length > 0 && over() > 0) p.height = Math.min(p.height, Math.max(least, p.height - over()));
  };
  const shrink = (p: Part): void => {
    if (!p.small || p.dropped || p.small.length >= p.height) return;
    p.lines = p.small;
    p.height = p.small.length;
  };
  for (const p of parts) if (p.block.roomy && over() > 0) shrink(p);
  if (parts.some((p) => p.items.length > listEasy && p.items.length <= listWhole))
    for (const p of [...parts].sort((a, b) => b.block.rank - a.block.rank))
      if (p.block.rank > TOLD && over() > 0) p.dropped = true;
  // A long list can be moved through; words that are left out can't.
  squeeze(Math.min(listEasy, height));
  const ranks = [...new Set(parts.map((p) => p.block.rank))].sort((a, b) => b - a);
  for (const rank of ranks) {
    if (over() <= 0) break;
    if (rank <= 2) {
      for (const p of [...parts].reverse()) if (over() > 0) p.gap = false;
      squeeze(Math.min(listLeast, height));
    }
    // Said shorter before anything is left out.
    for (const p of [...parts].reverse()) if (p.block.rank <= rank && over() > 0) shrink(p);
    if (rank > 1) for (const p of [...parts].reverse()) if (p.block.rank === rank && over() > 0) p.dropped = true;
  }
  for (const p of [...parts].reverse()) if (over() > 0) p.gap = false;
  const known = (need: () => number): void => shortenKnown(parts, width, signs.said === true, need);
  known(over);
  squeeze(LIST_MARKS);
  layBeside(parts, over);
  // Nothing less important is left: of what is said at most length the end goes, so that some of everything is seen.
  for (const p of [...parts].sort((a, b) => b.block.rank - a.block.rank || b.height - a.height))
    if (over() > 0 && !p.dropped && p.items.length === 0 && p.block.rank > 0) p.height = Math.max(1, p.height - over());
  squeeze(1);
  for (const p of [...parts].reverse().sort((a, b) => b.block.rank - a.block.rank))
    if (over() > 0 && !p.dropped) {
      p.height = Math.max(0, p.height - over());
      if (p.height === 0) p.dropped = true;
    }
  // What is vouched for stands behind what is warned of, and goes first.
  for (const p of [...parts].reverse()) if (p.least && !says(p, p.least)) giveRoom(p, p.least, parts, over, known);
  showChoices(parts, over, known);
  for (const p of parts) sayMore(p, width, over);
  restore(parts, over);
  for (const p of parts) lengthen(p, over);
  const fitted = parts.flatMap((p): Fitted[] => {
    if (p.dropped) return [];
    const { gap } = p;
    if (isBeside(p)) return [{ block: p.block, gap, lines: p.beside }];
    if (p.block.choices) return [{ block: p.block, gap, choices: p.block.choices, ...windowOn(p, width, signs) }];
    return [{ block: p.block, gap, lines: begins(p.lines, p.height, width, signs.more) }];
  });
  return { fitted, cut: parts.some(lacks) };
}

/** True when a part stands there with all these words, or more of them. */
const says = (p: Part, least: readonly Line[]): boolean => {
  if (p.dropped) return false;
  if (p.height >= p.lines.length && p.lines !== p.small) return true;
  return words(p.lines.slice(0, p.height)).join(' ').startsWith(words(least).join(' '));
};

const lightness = ({ block }: Part): number => (block.elsewhere ? TOLD : block.rank);

/** Of what was read a moment ago only as many sentences as there are lines for. */
function shortenKnown(parts: readonly Part[], width: number, said: boolean, need: () => number): void {
  for (const p of parts) {
    const lacking = need();
    if (lacking <= 0 || p.dropped || !p.block.upTo || !(said || p.block.known)) continue;
    const lines = p.block.upTo(width, Math.max(1, p.height - lacking));
    if (lines.length >= p.height) continue;
    Object.assign(p, { lines, height: lines.length, short: true });
  }
}

/** In lines that were won since it says more again. */
function sayMore(p: Part, width: number, over: () => number): void {
  if (!p.short || p.dropped || over() >= 0) return;
  const lines = p.block.upTo?.(width, p.height - over()) ?? p.lines;
  Object.assign(p, { lines, height: lines.length, short: lines.length < (p.small ?? []).length });
}

/** What can be picked is seen before what stands elsewhere too, before figures, and before what was read already. */
function showChoices(parts: readonly Part[], over: () => number, known: (need: () => number) => void): void {
  for (const p of parts) {
    if (p.dropped || p.items.length === 0 || p.items.length > listEasy) continue;
    const lacking = (): boolean => p.height - over() < listHeight(p);
    for (const q of [...parts].reverse()) if (q.block.elsewhere && lacking()) q.dropped = true;
    for (const q of [...parts].reverse()) if (q.gap && lacking()) q.gap = false;
    for (const q of [...parts].reverse()) if (q.block.yields && lacking()) q.dropped = true;
    known(() => listHeight(p) - (p.height - over()));
    p.height = Math.max(p.height, Math.min(listHeight(p), p.height - over()));
  }
}

/** What weighs most is said in place of what weighs less; where that is not enough, all stays as it was. */
function giveRoom(
  p: Part,
  least: readonly Line[],
  parts: readonly Part[],
  over: () => number,
  known: (need: () => number) => void,
): void {
  const before = parts.map((q) => ({ ...q }));
  p.lines = least;
  p.height = least.length;
  p.dropped = false;
  for (const q of parts) q.gap = false;
  // What is vouched for is said shorter before a danger is.
  for (const q of parts)
    if (q !== p && q.least && q.block.rank > p.block.rank && over() > 0 && q.least.length < q.height && !q.dropped) {
      q.lines = q.least;
      q.height = q.least.length;
    }
  const lighter = parts.filter((q) => q.block.rank >= 2 && !q.block.least && !q.items.length && !q.dropped);
  for (const q of lighter.reverse().sort((a, b) => lightness(b) - lightness(a))) {
    if (over() <= 0) break;
    q.dropped = true;
  }
  known(over);
  layBeside(parts, over);
  for (const q of parts)
    if (q.items.length && over() > 0) q.height = Math.min(q.height, Math.max(LIST_MARKS, q.height - over()));
  if (over() > 0) for (const [i, q] of parts.entries()) Object.assign(q, before[i]);
}

/** So many lines; the last of them shows that there are more. */
function begins(lines: readonly Line[], height: number, width: number, more: string): readonly Line[] {
  const last = lines[height - 1];
  if (lines.length <= height || !last) return lines;
  const sign = ` ${more}`;
  const [line = []] = wrap(last, width - widthOf(sign));
  return [...lines.slice(0, height - 1), [...line, { text: sign, tone: line.at(-1)?.tone }]];
}

/** What was left out before something larger folded comes back where there is room for it again. */
function restore(parts: readonly Part[], over: () => number): void {
  const out = parts.filter((p) => p.dropped && p.height > 0).sort((a, b) => lightness(a) - lightness(b));
  for (const p of out) {
    p.dropped = false;
    if (over() > 0) p.dropped = true;
  }
  for (const p of parts) {
    if (p.dropped || p.gap || !p.block.gap) continue;
    p.gap = true;
    if (over() > 0) p.gap = false;
  }
}

/** Lines that are left over say more. */
function lengthen(p: Part, over: () => number): void {
  const { lines, height, longer } = p;
  if (!longer || p.dropped || lines.length > height) return;
  p.lines = longer;
  p.height = longer.length;
  if (over() > 0) Object.assign(p, { lines, height });
}

function windowOn(p: Part, width: number, { more, down }: Signs) {
  const list = p.block.choices;
  const whole = listHeight(p);
  if (whole <= p.height) return { from: 0, rows: p.items, before: false, after: undefined };
  const at = Math.max(0, list?.index ?? 0);
  // One line above and below tells that there is more; at an end of the list none is needed.
  const marked = p.height >= LIST_MARKS;
  const end = p.items.length - 1;
  const marks = (from: number, to: number): number => (marked ? (from > 0 ? 1 : 0) + (to < end ? 1 : 0) : 0);
  let from = at;
  let to = at;
  let used = p.items[at]?.lines.length ?? 1;
  for (;;) {
    const next = p.items[to + 1];
    const previous = p.items[from - 1];
    const down = next && used + next.lines.length + marks(from, to + 1) <= p.height;
    const up = previous && used + previous.lines.length + marks(from - 1, to) <= p.height;
    if (down && (to - at <= at - from || !up)) {
      to += 1;
      used += next.lines.length;
    } else if (up) {
      from -= 1;
      used += previous.lines.length;
    } else break;
  }
  const room = Math.max(1, p.height - marks(from, to));
  const rows = p.items.slice(from, to + 1).map((it) => ({ ...it, lines: it.lines.slice(0, room) }));
  // Of the next one as much as there is room for: its digit picks it, and its first words tell it from the others.
  const spare = p.height - used - marks(from, to + 1);
  const next = p.items[to + 1];
  if (marked && next && spare > 0 && next.lines.length > spare) {
    const lines = next.lines.slice(0, spare);
    const room = width - (list ? itemIndent(list) : 0) - widthOf(more);
    const line = lines.at(-1) ?? '';
    const last = widthOf(line) <= room ? line : beginning(line, room).replace(/ \S*$/, '');
    rows.push({ ...next, lines: [...lines.slice(0, -1), `${last}${more}`] });
    to += 1;
  }
  return {
    from,
    rows,
    before: marked && from > 0,
    after: marked && to < end ? `${end - to} more below: ${down}` : undefined,
  };
}
