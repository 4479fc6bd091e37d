/** Pieces of the page. Everything that goes in as text is escaped here. */
import { escapeHtml as esc } from '../text/safe-text.js';
import type { Figure, Overrule, Signature } from './sheet-data.js';
import { overruleNow, placeName, roleWords } from './words.js';

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
}
/** A table with a heading for each column and each row; nothing when it has no row. */
export function table(
  heads: readonly string[],
  rows: readonly (Row | readonly Cell[])[],
  options: { readonly of?: string; readonly caption?: string } = {},
): string {
  if (!rows.length) return '';
  const body = rows.map((r) => {
    const row: Row = 'cells' in r ? r : { cells: r };
    const [first = '', ...rest] = row.cells;
    const head = parts(first);
    const cells = rest.map((c) => {
      const p = parts(c);
      return `<td${p.of}>${p.text}</td>`;
    });
    return `<tr${row.of ? ` class="${row.of}"` : ''}><th scope="row"${head.of}>${head.text}</th>${cells.join('')}</tr>`;
  });
  return (
    `<table${options.of ? ` class="${options.of}"` : ''}>` +
    (options.caption ? `<caption>${esc(options.caption)}</caption>` : '') +
    `<thead><tr>${heads.map((h) => `<th scope="col">${esc(h)}</th>`).join('')}</tr></thead><tbody>${body.join('')}</tbody></table>`
  );
}

export const section = (id: string, title: string, body: string, of = ''): string =>
  body ? `<section id="${id}"${of ? ` class="${of}"` : ''}><h2>${esc(title)}</h2>${body}</section>` : '';

export const list = (items: readonly (string | Markup)[], of = ''): string =>
  items.length ? `<ul${of ? ` class="${of}"` : ''}>${items.map((i) => `<li>${inside(i)}</li>`).join('')}</ul>` : '';

const value = (f: Figure | undefined): Cell =>
  f === undefined ? '' : { text: f.text, of: f.known ? 'value' : 'lacking' };

/** More places than this are told one below the other. */
const SIDE_BY_SIDE = 3;

/** Figures with the places side by side where there are few of them. */
export function figureTable(figures: readonly Figure[], of = ''): string {
  const places = [...new Set(figures.filter((f) => f.place !== 'job').map((f) => f.where))];
  if (places.length < 2 || places.length > SIDE_BY_SIDE)
    return table(
      ['What', 'Value', 'Place'],
      figures.map((f) => [f.label, value(f), placeName(f.where)]),
      { of },
    );
  const whole = figures.filter((f) => f.place === 'job');
  const keys = [...new Set(figures.filter((f) => f.place !== 'job').map((f) => f.key))];
  return (
    table(
      ['What', 'Whole job'],
      whole.map((f) => [f.label, value(f)]),
      { of },
    ) +
    table(
      ['What', ...places],
      keys.map((key) => {
        const here = figures.filter((f) => f.key === key);
        return [here[0]?.label ?? key, ...places.map((p) => value(here.find((f) => f.where === p)))];
      }),
      { of },
    )
  );
}

/** The two kinds of signature differ in shape, in colour and in words. */
export function signatureBadge(s: Signature): Markup {
  const of = s.role === 'witnessed' ? 'witnessed' : 'self';
  return raw(`<span class="badge ${of}${s.stands ? '' : ' void'}">${esc(roleWords(s))}</span>`);
}
export function overruleBadge(o: Overrule): Markup {
  const void_ = o.now === 'in force' ? '' : ' void';
  return raw(`<span class="badge overruled${void_}">OVERRULED by ${esc(o.initials)}</span> ${esc(overruleNow(o))}`);
}
