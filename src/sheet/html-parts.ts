/** Blocks of the page. Everything that goes in as text is escaped here. */
import { svgDrawing } from '../drawing/svg-drawing.js';
import { escapeHtml as esc } from '../text/safe-text.js';
import { type Cell, parts, type SheetBlock, type SheetPart, type SheetRow, type TableBlock } from './section.js';
import type { Strip } from './sheet-data.js';
import { checkBarSvg, stripCheckWords, stripSvg } from './strip-svg.js';
import { tagHtml } from './tag-html.js';

const badges = new Set(['witnessed', 'self', 'overruled']);

function part(p: SheetPart): string {
  const text = esc(p.text);
  if (!text) return '';
  if (p.as && badges.has(p.as)) return `<span class="badge ${p.as}${p.void ? ' void' : ''}">${text}</span>`;
  if (p.as === 'strong') return `<strong>${text}</strong>`;
  if (p.to) return `<a href="#${esc(p.to)}">${text}</a>`;
  return p.as ? `<span class="${p.as}">${text}</span>` : text;
}
const inside = (c: Cell): string => parts(c).map(part).filter(Boolean).join(' ');

/** A cell of one part bears the class itself. */
function cell(c: Cell): string {
  const [only, ...more] = parts(c);
  if (only?.as && !more.length && !badges.has(only.as) && only.as !== 'strong')
    return `<td class="${only.as}">${inside({ text: only.text, ...(only.to ? { to: only.to } : {}) })}</td>`;
  return `<td>${inside(c)}</td>`;
}

function tableRow(row: SheetRow, columns: number): string {
  const [first = '', ...rest] = row.cells;
  const of = [row.mark ? 'mark' : '', row.depth ? `d${Math.min(6, row.depth)}` : ''].filter(Boolean).join(' ');
  if (row.group) return `<tr class="group"><th scope="colgroup" colspan="${columns}">${inside(first)}</th></tr>`;
  // Read aloud in each row, seen in the first.
  const head = row.again ? `<span class="unseen">${inside(first)}</span>` : inside(first);
  return `<tr${of ? ` class="${of}"` : ''}><th scope="row">${head}</th>${rest.map(cell).join('')}</tr>`;
}

/**
 * A table with a heading for each column and each row. The widths are fixed, so that no word of anybody's, however
 * long, makes the page wider than the paper.
 */
function tableHtml(t: Pick<TableBlock, 'columns' | 'rows' | 'caption'>): string {
  const whole = t.columns.reduce((sum, [, share]) => sum + share, 0);
  const widths = t.columns.map(([, share]) => `<col style="width:${((100 * share) / whole).toFixed(1)}%">`).join('');
  return (
    '<table>' +
    (t.caption ? `<caption>${esc(t.caption)}</caption>` : '') +
    `<colgroup>${widths}</colgroup>` +
    `<thead><tr>${t.columns.map(([h]) => `<th scope="col">${esc(h)}</th>`).join('')}</tr></thead>` +
    `<tbody>${t.rows.map((r) => tableRow(r, t.columns.length)).join('')}</tbody></table>`
  );
}

function stripHtml(strip: Strip): string {
  const drawn = stripSvg(strip);
  const marks = tableHtml({
    columns: [
      ['Mark', 50],
      ['From the start line, doses added up', 50],
    ],
    rows: strip.marks.map((m) => ({ cells: [m.name, `${m.mm.toFixed(1)} mm`] })),
  });
  if (!drawn.fits) return `<p><strong>${esc(drawn.say)}</strong></p>${marks}`;
  const words = `<p>${esc(strip.say)}</p><p><strong>${esc(stripCheckWords)}</strong></p>`;
  if (drawn.down) return `<div class="side">${drawn.svg}<div>${words}${checkBarSvg()}${marks}</div></div>`;
  return `${words}${checkBarSvg()}${drawn.svg}${marks}`;
}

/** Drawings wide enough for the whole page. */
const wide = new Set(['syringe', 'probes', 'run-in-curve', 'life-curve']);

function drawing(b: Extract<SheetBlock, { is: 'drawing' }>): string {
  const drawn = svgDrawing(b.picture, b.values);
  const of = wide.has(b.picture) ? ' class="wide"' : '';
  return drawn ? `<figure${of}>${drawn}<figcaption>${esc(b.title)}</figcaption></figure>` : '';
}

/** The only address that a picture on the page may have. */
const DATA = /^data:image\/jpeg;base64,[A-Za-z0-9+/=]+$/;

function block(b: SheetBlock): string {
  switch (b.is) {
    case 'table':
      return tableHtml(b);
    case 'heading':
      return `<h3${b.id ? ` id="${esc(b.id)}"` : ''}>${esc(b.text)}</h3>`;
    case 'list':
      return `<ul>${b.items.map((i) => `<li>${inside(i)}</li>`).join('')}</ul>`;
    case 'worked':
      return `<ol class="worked">${b.lines.map((l) => `<li>${esc(l)}</li>`).join('')}</ol>`;
    case 'words':
      return b.as === 'formula'
        ? `<code class="formula">${inside(b.text)}</code>`
        : `<p${b.as ? ` class="${b.as}"` : ''}>${inside(b.text)}</p>`;
    case 'drawing':
      return drawing(b);
    case 'strip':
      return stripHtml(b.strip);
    case 'photos':
      return b.photos
        .map((p) => {
          const src = p.src && DATA.test(p.src) ? p.src : undefined;
          const drawn = src
            ? `<img src="${src}" alt="${esc(p.says)}">`
            : '<p><em>Kept beside the job, not shown here.</em></p>';
          return `<figure class="photo">${drawn}<figcaption>${esc(p.says)}${src ? '' : `, file ${esc(p.file)}`}</figcaption></figure>`;
        })
        .join('');
    case 'tag':
      return tagHtml(b.tag);
    case 'ink':
      return `<ul class="ink">${b.lines.map((l) => `<li>${esc(l)}</li>`).join('')}</ul>`;
  }
}

/** Blocks of one kind that stand beside each other get a frame around them. */
export function blocksHtml(blocks: readonly SheetBlock[]): string {
  const frameOf = (b: SheetBlock): string =>
    b.is === 'drawing' || b.is === 'photos' ? 'figures' : b.is === 'table' && b.small ? 'two' : '';
  const out: string[] = [];
  let open = '';
  for (const b of blocks) {
    const html = frameOf(b) === 'two' ? `<div class="place">${block(b)}</div>` : block(b);
    if (!html) continue;
    if (frameOf(b) !== open) {
      if (open) out.push('</div>');
      open = frameOf(b);
      if (open) out.push(`<div class="${open}">`);
    }
    out.push(html);
  }
  return out.join('') + (open ? '</div>' : '');
}
