/** The longer parts of the page: findings, derivations, logs, drawings, the strip. */
import { svgDrawing } from '../drawing/svg-drawing.js';
import { escapeHtml as esc } from '../text/safe-text.js';
import { type Cell, type Markup, type Row, raw, table } from './html-parts.js';
import type { Derivation, InputLine, Sheet, StepLine, Strip, ToldSource } from './sheet-data.js';
import { checkBarSvg, checkWords, stripSvg } from './strip-svg.js';
import { withTimes } from './when.js';
import { answerText, atPlace, headings, placeName, type Show, statusWords, whoWhen } from './words.js';

const when = (x: { at: string; by: string }, show: Show): Cell => ({ text: whoWhen(x, show), of: 'when' });

function stepRows(s: StepLine, show: Show): Row[] {
  const status = statusWords[s.status];
  const title: string | Markup = status ? raw(`${esc(s.title)} <strong>(${esc(status)})</strong>`) : s.title;
  // Read aloud in each row, seen in the first.
  const again = raw(`<span class="unseen">${esc(s.title)}</span>`);
  const rows: Row[] = s.answers.map((a, i) => ({
    cells: [i ? again : title, a.label, { text: answerText(a), of: 'value' }, when(a, show)],
  }));
  if (s.rows !== undefined)
    rows.push({ cells: [rows.length ? again : title, 'Rows', `${s.rows}, see ${headings.logs}`, ''] });
  if (s.confirmed) rows.push({ cells: [rows.length ? again : title, 'Done', 'confirmed', when(s.confirmed, show)] });
  if (!rows.length && !s.mark) rows.push({ cells: [title, '', '', ''] });
  if (s.mark) rows.push({ cells: [rows.length ? again : title, 'Mark', s.mark, ''], of: 'mark' });
  return rows;
}

export function findingsHtml(sheet: Sheet, show: Show): string {
  return sheet.findings
    .map((f) => {
      const phases = f.phases.map((p) =>
        table(
          ['Step', 'What', 'Reading', 'By, when'],
          p.steps.flatMap((s) => stepRows(s, show)),
          { caption: `${p.title}${f.where ? `, ${f.where}` : ''}` },
        ),
      );
      return `<h3>${esc(placeName(f.where))}</h3>${phases.join('')}`;
    })
    .join('');
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
      ['Result', 'Value', 'Most of its uncertainty comes from'],
      results.map((r) => [r.label, { text: r.text, of: 'value' }, r.dominant ?? '']),
    ),
    table(
      ['Input', 'Value', 'From'],
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
        ['Row', ...l.columns.map((c) => c.label), 'By, when'],
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

export function figuresHtml(sheet: Sheet): string {
  return sheet.pictures
    .map((p) => {
      const drawn = svgDrawing(p.picture, p.values);
      return drawn ? `<figure>${drawn}<figcaption>${esc(atPlace(p.title, p.where))}</figcaption></figure>` : '';
    })
    .join('');
}

export function stripHtml(strip: Strip): string {
  const drawn = stripSvg(strip);
  const marks = table(
    ['Mark', 'Name', 'Distance from the start line'],
    strip.marks.map((m, i) => [String(i + 1), m.label, `${m.mm.toFixed(2)} mm`]),
  );
  if (!drawn.fits) return `<p><strong>${esc(drawn.say)}</strong></p>${marks}`;
  const words = `<p>${esc(strip.say)}</p><p><strong>${esc(checkWords)}</strong></p>`;
  if (drawn.down) return `${words}<div class="side">${drawn.svg}<div>${checkBarSvg()}${marks}</div></div>`;
  return `${words}${checkBarSvg()}${drawn.svg}${marks}`;
}
