/** The job sheet as one page that needs nothing else: no script, no outside resource, drawings as SVG. */
import { escapeHtml as esc } from '../text/safe-text.js';
import { derivationsHtml, figuresHtml, findingsHtml, logsHtml, stripHtml } from './html-body.js';
import { figureTable, inside, list, overruleBadge, raw, section, signatureBadge, table } from './html-parts.js';
import { happened, record } from './html-record.js';
import { style } from './html-style.js';
import type { Sheet } from './sheet-data.js';
import { clock, type SheetOptions } from './when.js';
import {
  answerText,
  atPlace,
  figureText,
  headings,
  peopleText,
  placeName,
  practiceWords,
  procedureText,
  type Show,
  statusWords,
  stopEnd,
  whoWhen,
} from './words.js';

function header(sheet: Sheet, show: Show, zone: string): string {
  const h = sheet.head;
  const practice = practiceWords(h);
  const facts: [string, string][] = [
    ['Procedure', procedureText(h)],
    ['Check number', h.hash],
    ...h.versions.map((v): [string, string] => [
      'Earlier version',
      `${v.version}, hash ${v.hash}, ${whoWhen(v, show)}`,
    ]),
    ...(h.earlier ? [['Follows the job', h.earlier] as [string, string]] : []),
    ['People', peopleText(h)],
    ['Begun', h.started ? show(h.started) : 'not begun'],
    ['Last entry', h.lastEntry ? show(h.lastEntry) : 'none'],
    ['Times', zone],
  ];
  return (
    '<header>' +
    (practice
      ? `<p class="practice"><strong>${esc(practice.big)}</strong><span>${esc(practice.small)}</span></p>` +
        '<div class="watermark" aria-hidden="true"><svg viewBox="0 0 400 120" focusable="false"><text x="200" y="80" ' +
        `text-anchor="middle" font-size="64" font-weight="bold" fill="#8c0d0d" transform="rotate(-14 200 60)">${esc(practice.big)}</text></svg></div>`
      : '') +
    `<h1>Job sheet: ${esc(h.job)}</h1>` +
    `<p class="state${h.finished ? '' : ' open'}">${esc(sheet.verdict)}</p>` +
    (h.unfit ? `<p class="warning">${esc(h.unfit)}</p>` : '') +
    `<dl class="facts">${facts.map(([k, v]) => `<dt>${esc(k)}</dt><dd>${esc(v)}</dd>`).join('')}</dl></header>`
  );
}

function decisions(sheet: Sheet, show: Show): string {
  const cards = sheet.decisions
    .map((d) => {
      const items = [
        ...d.answers.map((a) =>
          raw(`${esc(a.label)}: <strong>${esc(answerText(a))}</strong>, ${esc(whoWhen(a, show))}`),
        ),
        ...(d.confirmed ? [`Confirmed by ${whoWhen(d.confirmed, show)}`] : []),
        ...(d.reopened ? [raw(`<strong>${esc(statusWords.reopened)}</strong>`)] : []),
        ...d.restsOn.map((f) => `Rests on ${f.label}: ${figureText(f)}`),
        ...d.overruled.map((o) => raw(`${overruleBadge(o).markup}: ${esc(o.says)} Reason: ${esc(o.reason)}`)),
        ...(d.signature ? [signatureBadge(d.signature)] : []),
      ];
      const mark = d.mark ? `<p>${esc(d.mark)}</p>` : '';
      return `<div class="card"><h3>${esc(atPlace(d.title, d.where))}</h3>${mark}${list(items)}</div>`;
    })
    .join('');
  return cards ? `<div class="cards">${cards}</div>` : '';
}

function stops(sheet: Sheet, show: Show): string {
  return table(
    [
      ['Stopped', 18],
      ['Place', 13],
      ['Why', 35],
      ['Met', 16],
      ['How it ended', 18],
    ],
    sheet.stops.map((s) => [
      s.title,
      placeName(s.where),
      s.says,
      { text: whoWhen(s, show), of: 'when' },
      s.ended ? stopEnd(s, show) : raw(`<strong>${esc(stopEnd(s, show))}</strong>`),
    ]),
  );
}

function remedies(sheet: Sheet, show: Show): string {
  const open = sheet.remedies.filter((r) => !r.settled);
  const settled = sheet.remedies.filter((r) => r.settled);
  const change = (c: { label: string; old: string; now: string }) => `${c.label}: ${c.old} → ${c.now}`;
  const alert = open.length
    ? `<section id="remedies" class="alert"><h2>${esc(headings.remedies)}</h2>${list(
        open.map((r) =>
          raw(
            `<strong>${esc(atPlace(r.title, r.where))}</strong>: ${esc(r.text)} <em>Still to do.</em> ${esc(r.changed.map(change).join('; '))}`,
          ),
        ),
      )}</section>`
    : '';
  return (
    alert +
    section(
      'settled',
      'Put right after a correction',
      table(
        [
          ['Step', 16],
          ['Place', 13],
          ['What was done', 40],
          ['By, when', 19],
        ],
        settled.map((r) => [
          r.title,
          placeName(r.where),
          r.settled?.reason ?? '',
          { text: r.settled ? whoWhen(r.settled, show) : '', of: 'when' },
        ]),
      ),
    )
  );
}

function contents(body: string): string {
  const found = [...body.matchAll(/<section id="([a-z0-9-]+)"[^>]*><h2>([^<]*)<\/h2>/g)];
  const items = found.map(([, id, title]) => `<li><a href="#${id}">${title}</a></li>`);
  return `<nav aria-label="Contents"><ul>${items.join('')}</ul></nav>`;
}

/** The whole page. */
export function toHtml(sheet: Sheet, options: SheetOptions = {}): string {
  const { show, zone } = clock(options.zone);
  const body = [
    remedies(sheet, show),
    section('stops', headings.stops, stops(sheet, show)),
    section('headline', headings.headline, figureTable(sheet.headline, 'glance')),
    section('next', headings.next, figureTable(sheet.next, 'glance')),
    section('decisions', headings.decisions, decisions(sheet, show)),
    happened(sheet, show),
    ...sheet.groups.map((g, i) => section(`group-${i + 1}`, g.title, figureTable(g.figures))),
    section('findings', headings.findings, findingsHtml(sheet, show)),
    section('derivations', headings.derivations, derivationsHtml(sheet, show)),
    section('logs', headings.logs, logsHtml(sheet, show)),
    section('pictures', headings.pictures, figuresHtml(sheet)),
    record(sheet, show),
    sheet.strip ? section('strip', sheet.strip.title, stripHtml(sheet.strip), 'strip') : '',
  ].join('');
  const practice = practiceWords(sheet.head);
  const title = `${practice ? `${practice.big}, ` : ''}Job sheet: ${sheet.head.job}`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${inside(title)}</title>
<style>${style}</style>
</head>
<body>
${header(sheet, show, zone)}${contents(body)}
<main>${body}</main>
</body>
</html>
`;
}
