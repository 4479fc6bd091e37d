/**
 * How much smaller the first page is printed so that it stays one page, on Letter too. Heights are in lines of a list at
 * full size (9 pt x 1.25), as a wide face needs them (DejaVu Sans); other faces leave some room. Pure.
 */
import { type Cell, cellText, type Section, type SheetBlock } from './section.js';

/** Lines on a Letter page between its margins: 64 of 3.97 mm; what is reckoned here comes out 7 % too high (measured in Chromium). */
const PAGE = 67;
/** Letters across the page: of a list, of a table, whose values are bold. */
const LETTERS = 112;
const BOLD = 104;
/** Smaller than this nobody reads it: then it takes two pages. */
const SMALLEST = 0.75;

const linesOf = (text: string, letters: number): number => Math.ceil(text.length / letters);

function rowHeight(cells: readonly Cell[], columns: Extract<SheetBlock, { is: 'table' }>['columns']): number {
  const whole = columns.reduce((sum, [, share]) => sum + share, 0);
  const high = cells.map((c, i) => linesOf(cellText(c), (BOLD * (columns[i]?.[1] ?? 0)) / whole));
  return Math.max(...high) * 0.95 + 0.17;
}

function blockHeight(b: SheetBlock, { id }: Section): number {
  switch (b.is) {
    case 'table': {
      const head = id === 'headline' ? 0.9 : 0;
      return b.rows.reduce((sum, r) => sum + rowHeight(r.cells, b.columns), 0.35 + head);
    }
    case 'list':
      return b.items.reduce((sum, i) => sum + linesOf(cellText(i), LETTERS) + 0.1, 0.35);
    case 'ink':
      return 0.4 + 2.2 * Math.ceil(b.lines.length / 4);
    case 'words':
      return 0.65 + linesOf(cellText(b.text), LETTERS);
    default:
      return 0;
  }
}

/** @returns share of the full size, 1 where there is room */
export function pageFit(
  head: { readonly verdict: string; readonly practice?: object },
  front: readonly Section[],
): number {
  const top = (head.practice ? 3.3 : 0) + 1.85 + 0.9 + linesOf(head.verdict, 100);
  const high = front.reduce(
    (sum, s) => s.blocks.reduce((h, b) => h + blockHeight(b, s), sum + 1.6 + (s.alert ? 1.1 : 0)),
    0,
  );
  return Math.max(SMALLEST, Math.min(1, (PAGE - top) / high));
}
