/** The job sheet as pages of lines for a terminal. */
import { textDrawing } from '../drawing/text-drawing.js';
import { safeText } from '../text/safe-text.js';
import { textWidth } from '../text/text-width.js';
import {
  type Cell,
  cellText,
  parts,
  type Section,
  type SheetBlock,
  type SheetRow,
  type TableBlock,
} from './section.js';
import { told } from './sections.js';
import type { Sheet } from './sheet-data.js';
import type { SheetOptions } from './when.js';

interface ScreenSpan {
  readonly text: string;
  readonly tone?: 'strong' | 'quiet' | 'alert';
}
type ScreenLine = readonly ScreenSpan[];
export interface ScreenPage {
  readonly title: string;
  readonly lines: (width: number, ascii: boolean) => readonly ScreenLine[];
}

const GAP = 2;
/** A column narrower than this is no column: its cells are told one below the other. */
const NARROWEST = 11;

const plain = (c: Cell): string => safeText(cellText(c), { max: 20_000, lines: true });

/** Words folded to a width; a word that is longer is cut into pieces. */
function folded(text: string, width: number): string[] {
  return text.split('\n').flatMap((paragraph) => {
    const rows: string[] = [];
    let row = '';
    for (const word of paragraph.split(' ').filter(Boolean)) {
      let rest = word;
      if (row && textWidth(`${row} ${rest}`) <= width) {
        row = `${row} ${rest}`;
        continue;
      }
      if (row) rows.push(row);
      while (textWidth(rest) > width) {
        let head = '';
        for (const c of rest) {
          if (head && textWidth(head + c) > width) break;
          head += c;
        }
        rows.push(head);
        rest = rest.slice(head.length);
      }
      row = rest;
    }
    return [...rows, ...(row || !rows.length ? [row] : [])];
  });
}

const toneOf = (c: Cell): ScreenSpan['tone'] => {
  const looks = parts(c).map((p) => p.as);
  if (looks.includes('overruled')) return 'alert';
  if (looks.includes('strong') || looks.includes('value')) return 'strong';
  return looks.every((l) => l === 'when' || l === 'lacking') ? 'quiet' : undefined;
};
const span = (text: string, tone: ScreenSpan['tone']): ScreenSpan => (tone ? { text, tone } : { text });
const inLines = (text: string, width: number, tone?: ScreenSpan['tone'], indent = ''): ScreenLine[] =>
  folded(text, Math.max(4, width - textWidth(indent))).map((l) => [span(indent + l, tone)]);

function columnsOf(t: TableBlock, width: number): readonly number[] | undefined {
  const room = width - GAP * (t.columns.length - 1);
  const whole = t.columns.reduce((sum, [, share]) => sum + share, 0);
  const widths = t.columns.map(([, share]) => Math.floor((room * share) / whole));
  return widths.some((w) => w < NARROWEST) ? undefined : widths;
}

function rowLines(row: SheetRow, widths: readonly number[]): ScreenLine[] {
  const cells = row.cells.map((c, i) => {
    const text = i === 0 && row.again ? '' : i === 0 && row.depth ? `${'- '.repeat(row.depth)}${plain(c)}` : plain(c);
    return { rows: folded(text, widths[i] ?? 10), tone: i === 0 ? undefined : toneOf(c) };
  });
  const height = Math.max(...cells.map((c) => c.rows.length));
  return Array.from({ length: height }, (_, n) =>
    cells.map((c, i) => {
      const text = c.rows[n] ?? '';
      const pad = i === cells.length - 1 ? 0 : (widths[i] ?? 0) + GAP - textWidth(text);
      return span(text + ' '.repeat(Math.max(0, pad)), c.tone);
    }),
  );
}

function tableLines(t: TableBlock, width: number): ScreenLine[] {
  const head: ScreenLine[] = t.caption ? [[], ...inLines(safeText(t.caption), width, 'strong')] : [];
  const widths = columnsOf(t, width);
  const rows = t.rows.flatMap((row): ScreenLine[] => {
    if (row.group) return [[], ...inLines(plain(row.cells[0] ?? ''), width, 'strong')];
    if (widths) return rowLines(row, widths);
    const [first = '', ...rest] = row.cells;
    return [
      ...(row.again ? [] : inLines(plain(first), width, 'strong')),
      ...rest.flatMap((c, i) => {
        const text = plain(c);
        const name = t.columns[i + 1]?.[0] ?? '';
        return text ? inLines(t.columns.length > 2 ? `${name}: ${text}` : text, width, toneOf(c), '  ') : [];
      }),
    ];
  });
  const names = widths
    ? rowLines({ cells: t.columns.map(([h]) => ({ text: h, as: 'when' as const })) }, widths).map((l) =>
        l.map((s) => span(s.text, 'quiet')),
      )
    : [];
  return [...head, ...names, ...rows, []];
}

export function blockLines(b: SheetBlock, width: number, ascii: boolean): ScreenLine[] {
  switch (b.is) {
    case 'table':
      return tableLines(b, width);
    case 'heading':
      return [[], ...inLines(safeText(b.text), width, 'strong')];
    case 'list':
      return b.items.flatMap((i) => {
        const [first, ...rest] = inLines(plain(i), width, toneOf(i), '  ');
        return [first?.map((s) => ({ ...s, text: s.text.replace(/^ {2}/, '- ') })) ?? [], ...rest];
      });
    case 'worked':
      return b.lines.flatMap((l) => inLines(safeText(l), width, undefined, '  '));
    case 'words':
      return inLines(plain(b.text), width, b.as === 'source' ? 'quiet' : b.as === 'warning' ? 'alert' : toneOf(b.text));
    case 'drawing':
      return [
        [],
        ...inLines(safeText(b.title), width, 'strong'),
        ...textDrawing(b.picture, b.values, { width, height: 20, ascii }).map((text) => [{ text }]),
      ];
    case 'strip':
      return [
        ...inLines(safeText(b.strip.say), width),
        ...b.strip.marks.map((m) => [{ text: `${safeText(m.name, { max: 40 })}: ${m.mm.toFixed(1)} mm` }]),
      ];
    case 'photos':
      return b.photos.flatMap((p) => inLines(safeText(`${p.says}, file ${p.file}`), width));
    case 'tag':
      return b.tag.lines.flatMap((l) => inLines(safeText(`${l.label}: ${l.text}`), width));
    case 'ink':
      return b.lines.flatMap((l) => inLines(`${safeText(l)}: ____________________`, width));
  }
}

const sectionLines = (s: Section, width: number, ascii: boolean): ScreenLine[] => [
  ...inLines(safeText(s.title).toUpperCase(), width, s.alert ? 'alert' : 'strong'),
  ...s.blocks.flatMap((b) => blockLines(b, width, ascii)),
  [],
];

/** The first page, the pages of the work, then each section of the record by itself. */
export function toScreen(sheet: Sheet, options: SheetOptions = {}): readonly ScreenPage[] {
  const all = told(sheet, options);
  const page = (title: string, sections: readonly Section[], before: (width: number) => ScreenLine[]): ScreenPage => ({
    title,
    lines: (width, ascii) => [...before(width), ...sections.flatMap((s) => sectionLines(s, width, ascii))],
  });
  const of = (...which: readonly Section['part'][]) => all.sections.filter((s) => which.includes(s.part));
  const head = (width: number): ScreenLine[] => [
    ...(all.practice ? inLines(safeText(`${all.practice.big}. ${all.practice.small}`), width, 'alert') : []),
    ...inLines(safeText(all.verdict, { max: 20_000 }), width, 'strong'),
    [],
  ];
  const work = of('work', 'cut');
  return [
    page('first page', of('front'), head),
    ...(work.length ? [page('the work', work, () => [])] : []),
    ...of('record').map((s) => page(s.title, [s], () => [])),
  ];
}
