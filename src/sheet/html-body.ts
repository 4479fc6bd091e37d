/** The longer parts of the page: findings, derivations, logs, drawings, the strip. */
import { svgDrawing } from '../drawing/svg-drawing.js';
import { escapeHtml as esc } from '../text/safe-text.js';
import { type Cell, type Column, type Markup, type Row, raw, table } from './html-parts.js';
import type { Derivation, InputLine, Sheet, StepLine, Strip, ToldSource } from './sheet-data.js';
import { checkBarSvg, checkWords, stripSvg } from './strip-svg.js';
import { withTimes } from './when.js';
import { answerText, atPlace, figureText, headings, placeName, type Show, statusWords, whoWhen } from './words.js';

const when = (x: { at: string; by: string }, show: Show): Cell => ({ text: whoWhen(x, show), of: 'when' });

/** A confirmation this close to the last answer, by the same person, says nothing more. */
const SAME_MOMENT = 15 * 60_000;

function stepRows(s: StepLine, show: Show): Row[] {
  const status = statusWords[s.status];
  const title: string | Markup = status ? raw(`${esc(s.title)} <strong>(${esc(status)})</strong>`) : s.title;
  const rows: Row[] = [];
  // Read aloud in each row, seen in the first.
  const again = raw(`<span class="unseen">${esc(s.title)}</span>`);
  const add = (cells: readonly Cell[], of?: string): void => {
    rows.push({ cells: [rows.length ? again : title, ...cells], ...(of ? { of } : {}) });
  };
  for (const a of s.answers) add([a.label, { text: answerText(a), of: 'value' }, when(a, show)]);
  if (s.rows !== undefined) add(['Rows', `${s.rows}, see ${headings.logs}`, '']);
  const last = s.answers.at(-1);
  const done = s.confirmed;
  const told = done && last && done.by === last.by && Date.parse(done.at) - Date.parse(last.at) < SAME_MOMENT;
  if (done && !told) add(['Done', 'confirmed', when(done, show)]);
  if (!rows.length && !s.mark) add(['', '', '']);
  if (s.mark) add(['Mark', s.mark, ''], 'mark');
  return rows;
}

export function findingsHtml(sheet: Sheet, show: Show): string {
  const parts = sheet.findings.map((f) => {
    const rows = f.phases.flatMap((p): Row[] => [
      { cells: [p.title], group: true },
      ...p.steps.flatMap((s) => stepRows(s, show)),
    ]);
    const columns: Column[] = [
      ['Step', 24],
      ['What', 26],
      ['Reading', 30],
      ['By, when', 20],
    ];
    const body = `<div class="place"><h3>${esc(placeName(f.where))}</h3>${table(columns, rows)}</div>`;
    return { body, small: f.place.includes('.') };
  });
  // Places deep inside others have little to tell each and stand side by side on paper.
  const big = parts.filter((p) => !p.small).map((p) => p.body);
  const small = parts.filter((p) => p.small).map((p) => p.body);
  return big.join('') + (small.length ? `<div class="two">${small.join('')}</div>` : '');
}

const sources = (list: readonly ToldSource[]): string => list.map((s) => s.says).join('; ');

function inputRow(i: InputLine, show: Show): Row {
  const from = esc(withTimes(i.from, show));
  const link = i.derivation ? `<a href="#${esc(i.derivation)}">${from}</a>` : from;
  const said = i.sources.length ? `; ${esc(sources(i.sources))}` : '';
  return {
    cells: [i.label, { text: i.text, of: 'value' }, raw(`${link}${said}`)],
    of: i.depth ? `d${Math.min(6, i.depth)}` : '',
  };
}

function derivation(d: Derivation, show: Show): string {
  const results = d.results.filter((r) => r.known);
  return [
    `<h3 id="${esc(d.id)}">${esc(atPlace(d.title, d.where))}</h3>`,
    `<code class="formula">${esc(d.formula)}</code>`,
    d.worked.length ? `<ol class="worked">${d.worked.map((w) => `<li>${esc(w)}</li>`).join('')}</ol>` : '',
    table(
      results.some((r) => r.dominant)
        ? [
            ['Result', 36],
            ['Value', 24],
            ['Most of its uncertainty comes from', 40],
          ]
        : [
            ['Result', 36],
            ['Value', 64],
          ],
      results.map((r) => {
        const cells: Cell[] = [r.label, { text: figureText(r), of: 'value' }];
        return results.some((x) => x.dominant) ? [...cells, r.dominant ?? ''] : cells;
      }),
    ),
    table(
      [
        ['Input', 36],
        ['Value', 24],
        ['From', 40],
      ],
      d.inputs.map((i) => inputRow(i, show)),
    ),
    `<p class="source">Source: ${esc(sources(d.sources))}</p>`,
    ...d.warnings.map((w) => `<p class="warning">${esc(w)}</p>`),
  ].join('');
}

export const derivationsHtml = (sheet: Sheet, show: Show): string =>
  sheet.derivations.map((d) => derivation(d, show)).join('');

export function logsHtml(sheet: Sheet, show: Show): string {
  return sheet.logs
    .map((l) =>
      table(
        [['Row', 6], ...l.columns.map((c): Column => [c.label, 74 / l.columns.length]), ['By, when', 20]],
        l.rows.map((r, i) => [
          String(i + 1),
          ...r.cells,
          { text: `${whoWhen(r, show)}${r.corrected ? ', corrected' : ''}`, of: 'when' },
        ]),
        { caption: atPlace(l.title, l.where) },
      ),
    )
    .join('');
}

/** Drawings wide enough for the whole page. */
const wide = new Set(['syringe', 'probes', 'run-in-curve']);

export function figuresHtml(sheet: Sheet): string {
  const figures = sheet.pictures.map((p) => {
    const drawn = svgDrawing(p.picture, p.values);
    const of = wide.has(p.picture) ? ' class="wide"' : '';
    return drawn ? `<figure${of}>${drawn}<figcaption>${esc(atPlace(p.title, p.where))}</figcaption></figure>` : '';
  });
  return figures.join('') ? `<div class="figures">${figures.join('')}</div>` : '';
}

export function stripHtml(strip: Strip): string {
  const drawn = stripSvg(strip);
  const marks = table(
    [
      ['Mark', 10],
      ['Name', 50],
      ['Distance from the start line', 40],
    ],
    strip.marks.map((m, i) => [String(i + 1), m.name, `${m.mm.toFixed(1)} mm`]),
  );
  if (!drawn.fits) return `<p><strong>${esc(drawn.say)}</strong></p>${marks}`;
  const words = `<p>${esc(strip.say)}</p><p><strong>${esc(checkWords)}</strong></p>`;
  if (drawn.down) return `<div class="side">${drawn.svg}<div>${words}${checkBarSvg()}${marks}</div></div>`;
  return `${words}${checkBarSvg()}${drawn.svg}${marks}`;
}
