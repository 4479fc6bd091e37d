/** The sheet as sections: made once, drawn by thin renderers (Markdown, HTML, screen). Plain data. */
import type { Answer } from '../engine/journal/entry.js';
import type { Figure, Picture, Strip } from './sheet-data.js';
import type { Tag } from './tag.js';

/** How a part of a cell is meant. Its words say the same, so that a renderer without shapes loses nothing. */
type Look = 'value' | 'lacking' | 'when' | 'strong' | 'witnessed' | 'self' | 'overruled';

export interface SheetPart {
  readonly text: string;
  readonly as?: Look;
  /** It no longer counts; the words beside it say so too. */
  readonly void?: boolean;
  /** Id of the heading that tells more. */
  readonly to?: string;
  /** The value that it shows. */
  readonly figure?: { readonly key: string; readonly place: string };
}
export type Cell = string | SheetPart | readonly SheetPart[];

export interface SheetRow {
  readonly cells: readonly Cell[];
  /** A heading across the table for the rows that follow. */
  readonly group?: true;
  /** What the row above was made of: 1 and more. */
  readonly depth?: number;
  /** The first cell says the same as in the row above. */
  readonly again?: true;
  /** A line that the procedure writes. */
  readonly mark?: true;
}
export type Column = readonly [heading: string, share: number];

export interface TableBlock {
  readonly is: 'table';
  /** What the table is about, where a section has several. */
  readonly caption?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly SheetRow[];
  /** Little to tell: stands beside others of its kind where there is room. */
  readonly small?: true;
}

export type SheetBlock =
  | TableBlock
  | { readonly is: 'heading'; readonly text: string; readonly id?: string }
  | { readonly is: 'list'; readonly items: readonly Cell[] }
  | { readonly is: 'words'; readonly text: Cell; readonly as?: 'formula' | 'source' | 'warning' }
  | { readonly is: 'worked'; readonly lines: readonly string[] }
  | {
      readonly is: 'drawing';
      readonly picture: string;
      readonly values: Readonly<Record<string, Answer>>;
      readonly title: string;
    }
  | { readonly is: 'strip'; readonly strip: Strip }
  | { readonly is: 'tag'; readonly tag: Tag }
  | {
      readonly is: 'photos';
      readonly photos: readonly { readonly says: string; readonly file: string; readonly src?: string }[];
    }
  /** Names with a line each to write on. */
  | { readonly is: 'ink'; readonly lines: readonly string[] };

export interface Section {
  readonly id: string;
  readonly title: string;
  /** front: the first page; work: the pages after it; cut: to cut out; record: the appendix. */
  readonly part: 'front' | 'work' | 'cut' | 'record';
  /** Something to be looked at before anything else. */
  readonly alert?: true;
  readonly blocks: readonly SheetBlock[];
}

export const parts = (cell: Cell): readonly SheetPart[] =>
  typeof cell === 'string' ? [{ text: cell }] : 'text' in cell ? [cell] : cell;

/** The words of a cell. */
export const cellText = (cell: Cell): string =>
  parts(cell)
    .map((p) => p.text)
    .filter(Boolean)
    .join(' ');

/** A table; none when it has no row. */
export function tableBlock(
  columns: readonly Column[],
  rows: readonly (SheetRow | readonly Cell[])[],
  more: { readonly caption?: string; readonly small?: boolean } = {},
): readonly SheetBlock[] {
  if (!rows.length) return [];
  const { caption, small } = more;
  return [
    {
      is: 'table',
      columns,
      rows: rows.map((r) => ('cells' in r ? r : { cells: r })),
      ...(caption ? { caption } : {}),
      ...(small ? { small } : {}),
    },
  ];
}

/** A section; none when nothing stands in it. */
export const section = (
  part: Section['part'],
  id: string,
  title: string,
  blocks: readonly SheetBlock[],
  more: { readonly alert?: true } = {},
): readonly Section[] => (blocks.length ? [{ id, title, part, ...more, blocks }] : []);

/** A drawing with its title. */
export const drawingOf = (p: Picture): SheetBlock => ({
  is: 'drawing',
  picture: p.picture,
  values: p.values,
  title: p.where ? `${p.title}, ${p.where}` : p.title,
});

/** A figure as a cell that knows what it shows. */
export const figureCell = (f: Figure, text: string): SheetPart => ({
  text,
  as: f.known ? 'value' : 'lacking',
  figure: { key: f.key, place: f.place },
});
