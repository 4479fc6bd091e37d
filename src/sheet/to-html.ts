/** The job sheet as one page that needs nothing else: no script, no outside resource, drawings as SVG. */
import { escapeHtml as esc } from '../text/safe-text.js';
import { blocksHtml } from './html-parts.js';
import { style } from './html-style.js';
import { pageFit } from './page-fit.js';
import type { Section } from './section.js';
import { type Told, told } from './sections.js';
import type { Sheet } from './sheet-data.js';
import type { SheetOptions } from './when.js';

function header(all: Told, good: boolean): string {
  const { practice } = all;
  return (
    '<header>' +
    (practice
      ? `<p class="practice"><strong>${esc(practice.big)}</strong><span>${esc(practice.small)}</span></p>` +
        '<div class="watermark" aria-hidden="true"><svg viewBox="0 0 400 120" focusable="false"><text x="200" y="80" ' +
        `text-anchor="middle" font-size="64" font-weight="bold" fill="#8c0d0d" transform="rotate(-14 200 60)">${esc(practice.big)}</text></svg></div>`
      : '') +
    `<h1>${esc(all.title)}</h1>` +
    `<p class="state${good ? '' : ' open'}">${esc(all.verdict)}</p></header>`
  );
}

function sectionHtml(s: Section, before: Section | undefined): string {
  const of = [
    before === undefined || s.part === before.part ? '' : `first-${s.part}`,
    s.part,
    s.alert ? 'alert' : '',
    s.id === 'strip' ? 'strip' : '',
  ];
  return (
    `<section id="${s.id}" class="${of.filter(Boolean).join(' ')}"><h2>${esc(s.title)}</h2>` +
    `${blocksHtml(s.blocks)}</section>`
  );
}

const contents = (sections: readonly Section[]): string =>
  `<nav aria-label="Contents"><ul>${sections.map((s) => `<li><a href="#${s.id}">${esc(s.title)}</a></li>`).join('')}</ul></nav>`;

/** Words of anybody as a string in a style sheet: all but plain letters and digits by their number. */
const inCss = (text: string): string =>
  `"${Array.from(text, (c) => (/[A-Za-z0-9 ]/.test(c) ? c : `\\${c.codePointAt(0)?.toString(16)} `)).join('')}"`;

/** Sections of one page; `only` leaves all others out. */
function chosen(all: Told, only: string | undefined): readonly Section[] {
  return only === undefined ? all.sections : all.sections.filter((s) => s.id === only);
}

/** The whole page. */
export function toHtml(sheet: Sheet, options: SheetOptions = {}): string {
  const all = told(sheet, options);
  const sections = chosen(all, options.only);
  const fit = pageFit(
    all,
    sections.filter((s) => s.part === 'front'),
  );
  const body = sections.map((s, i) => sectionHtml(s, sections[i - 1])).join('');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<title>${esc(`${all.practice ? `${all.practice.big}, ` : ''}${all.title}`)}</title>
<style>${style}
:root{--job:${inCss(all.mark)}}</style>
</head>
<body>
${header(all, sheet.head.finished && !sheet.front.barred.length)}${contents(sections)}
<main style="--fit:${fit.toFixed(2)}">${body}</main>
</body>
</html>
`;
}
