/** Pieces of the page. Everything that goes in as text is escaped here. */
import { escapeHtml as esc } from '../text/safe-text.js';
import type { Figure, Overrule, Signature } from './sheet-data.js';
import { figureText, overruleNow, placeName, roleWords } from './words.js';

/** Markup that is safe already. */
export interface Markup {
  readonly markup: string;
}
export const raw = (markup: string): Markup => ({ markup });
export type Cell = string | Markup | { readonly text: string | Markup; readonly of: string };

export const inside = (c: string | Markup): string => (typeof c === 'string' ? esc(c) : c.markup);
const parts = (c: Cell): { text: string; of: string } =>
  typeof c === 'object' && 'of' in c ? { text: inside(c.text), of: ` class="${c.of}"` } : { text: inside(c), of: '' };

export interface Row {
  readonly cells: readonly Cell[];
  readonly of?: string;
  /** A heading across the table for the rows that follow. */
  readonly group?: boolean;
}
/** A column: its heading and its share of the width. */
export type Column = readonly [heading: string, share: number];

/**
 * A table with a heading for each column and each row; nothing when it has no row. The widths are fixed, so that no
 * word of anybody's, however long, makes the page wider than the paper.
 */
export function table(
  columns: readonly Column[],
  rows: readonly (Row | readonly Cell[])[],
  options: { readonly of?: string; readonly caption?: string } = {},
): string {
  if (!rows.length) return '';
  const body = rows.map((r) => tableRow('cells' in r ? r : { cells: r }, columns.length));
  const whole = columns.reduce((sum, [, share]) => sum + share, 0);
  const widths = columns.map(([, share]) => `<col style="width:${((100 * share) / whole).toFixed(1)}%">`).join('');
  return (
    `<table${options.of ? ` class="${options.of}"` : ''}>` +
    (options.caption ? `<caption>${esc(options.caption)}</caption>` : '') +
    `<colgroup>${widths}</colgroup>` +
    `<thead><tr>${columns.map(([h]) => `<th scope="col">${esc(h)}</th>`).join('')}</tr></thead>` +
    `<tbody>${body.join('')}</tbody></table>`
  );
}

function tableRow(row: Row, columns: number): string {
  const [first = '', ...rest] = row.cells;
  const head = parts(first);
  const of = row.of ? ` class="${row.of}"` : '';
  if (row.group) return `<tr class="group"><th scope="colgroup" colspan="${columns}">${head.text}</th></tr>`;
  const cells = rest.map((c) => {
    const p = parts(c);
    return `<td${p.of}>${p.text}</td>`;
  });
  return `<tr${of}><th scope="row"${head.of}>${head.text}</th>${cells.join('')}</tr>`;
}

export const section = (id: string, title: string, body: string, of = ''): string =>
  body ? `<section id="${id}"${of ? ` class="${of}"` : ''}><h2>${esc(title)}</h2>${body}</section>` : '';

export const list = (items: readonly (string | Markup)[], of = ''): string =>
  items.length ? `<ul${of ? ` class="${of}"` : ''}>${items.map((i) => `<li>${inside(i)}</li>`).join('')}</ul>` : '';

const value = (f: Figure | undefined): Cell =>
  f === undefined ? '' : { text: figureText(f), of: f.known ? 'value' : 'lacking' };

/** More places than this are told one below the other. */
const SIDE_BY_SIDE = 4;

/** Figures, those of the whole job first, then each kind of place with its places side by side. */
export function figureTable(figures: readonly Figure[], of = ''): string {
  const depths = [...new Set(figures.map((f) => depthOf(f.place)))].sort((a, b) => a - b);
  return depths
    .map((depth) => {
      const here = figures.filter((f) => depthOf(f.place) === depth);
      const places = [...new Set(here.map((f) => f.where))];
      if (places.length > SIDE_BY_SIDE)
        return table(
          [
            ['What', 30],
            ['Place', 25],
            ['Value', 45],
          ],
          here.map((f) => [f.label, placeName(f.where), value(f)]),
          { of },
        );
      const keys = [...new Set(here.map((f) => f.key))];
      return table(
        [['What', 30], ...places.map((p): Column => [placeName(p), 70 / places.length])],
        keys.map((key) => {
          const same = here.filter((f) => f.key === key);
          return [same[0]?.label ?? key, ...places.map((p) => value(same.find((f) => f.where === p)))];
        }),
        { of },
      );
    })
    .join('');
}
const depthOf = (place: string): number => (place === 'job' ? 0 : place.split('.').length);

/** The two kinds of signature differ in shape, in colour and in words. */
export function signatureBadge(s: Signature): Markup {
  const of = s.role === 'witnessed' ? 'witnessed' : 'self';
  return raw(`<span class="badge ${of}${s.stands ? '' : ' void'}">${esc(roleWords(s))}</span>`);
}
export function overruleBadge(o: Overrule): Markup {
  const void_ = o.now === 'in force' ? '' : ' void';
  return raw(`<span class="badge overruled${void_}">OVERRULED by ${esc(o.initials)}</span> ${esc(overruleNow(o))}`);
}
