/** The job sheet as Markdown (CommonMark with tables). */
import { textDrawing } from '../drawing/text-drawing.js';
import { escapeMarkdown as esc } from '../text/safe-text.js';
import type { Derivation, Figure, Findings, InputLine, Sheet, ToldSource } from './sheet-data.js';
import { clock, type SheetOptions, withTimes } from './when.js';
import {
  answerText,
  atPlace,
  cautionsByStep,
  eventText,
  figureText,
  headings,
  overruleNow,
  peopleText,
  placeName,
  practiceWords,
  procedureText,
  progressText,
  roleWords,
  type Show,
  standsWords,
  statusWords,
  stopEnd,
  undoneText,
  waitText,
  whoWhen,
} from './words.js';

const PICTURE = { width: 72, height: 20, ascii: false };

/** A table; nothing when it has no row. Cells are escaped here. */
function table(heads: readonly string[], rows: readonly (readonly string[])[]): string[] {
  if (!rows.length) return [];
  const line = (cells: readonly string[]) => `| ${cells.map((c) => esc(c) || ' ').join(' | ')} |`;
  return [line(heads), `| ${heads.map(() => '---').join(' | ')} |`, ...rows.map(line), ''];
}
const section = (title: string, body: readonly string[]): string[] =>
  body.length ? [`## ${esc(title)}`, '', ...body, ''] : [];

const figureRows = (figures: readonly Figure[]): string[][] =>
  figures.map((f) => [f.label, placeName(f.where), figureText(f)]);

function head(sheet: Sheet, show: Show, zone: string): string[] {
  const h = sheet.head;
  const practice = practiceWords(h);
  return [
    ...(practice ? [`# ${practice.big}`, '', `**${esc(practice.small)}**`, ''] : []),
    `# ${esc(`Job sheet: ${h.job}`)}`,
    '',
    `**${esc(sheet.verdict)}**`,
    '',
    ...table(
      ['About', 'This job'],
      [
        ['State', progressText(h)],
        ...(h.unfit ? [['Mind', h.unfit]] : []),
        ...(h.open.length ? [['Still open', h.open.join('; ')]] : []),
        ['Procedure', procedureText(h)],
        ['Check number of the procedure', h.hash],
        ...h.versions.map((v) => ['Earlier version used', `${v.version}, hash ${v.hash}, ${whoWhen(v, show)}`]),
        ...(h.earlier ? [['Follows the job', h.earlier]] : []),
        ['People', peopleText(h)],
        ['Begun', h.started ? show(h.started) : ''],
        ['Last entry', h.lastEntry ? show(h.lastEntry) : ''],
        ['Time zone', zone],
      ],
    ),
  ];
}

function findings(f: Findings, show: Show): string[] {
  const out = [`### ${esc(placeName(f.where))}`, ''];
  for (const phase of f.phases) {
    const rows = phase.steps.flatMap((s) => {
      const status = statusWords[s.status];
      const title = status ? `${s.title} (${status})` : s.title;
      const lines = s.answers.map((a, i) => [i ? '' : title, a.label, answerText(a), whoWhen(a, show)]);
      if (s.rows !== undefined) lines.push([title, 'Rows', `${s.rows}, see ${headings.logs}`, '']);
      if (s.confirmed) lines.push([lines.length ? '' : title, 'Done', 'confirmed', whoWhen(s.confirmed, show)]);
      if (s.mark) lines.push([lines.length ? '' : title, 'Mark', s.mark, '']);
      return lines.length ? lines : [[title, '', '', '']];
    });
    out.push(`**${esc(phase.title)}**`, '', ...table(['Step', 'What', 'Reading', 'By, when'], rows));
  }
  return out;
}

const sources = (list: readonly ToldSource[]): string => list.map((s) => s.says).join('; ');
const inputRow = (i: InputLine, show: Show): string[] => [
  `${'– '.repeat(i.depth)}${i.label}`,
  i.text,
  [withTimes(i.from, show), sources(i.sources)].filter(Boolean).join('; '),
];

function derivation(d: Derivation, show: Show): string[] {
  return [
    `### ${esc(atPlace(d.title, d.where))}`,
    '',
    `Formula: ${esc(d.formula)}`,
    '',
    ...d.worked.map((w) => `- ${esc(w)}`),
    '',
    ...table(
      ['Result', 'Value', 'Most of its uncertainty comes from'],
      d.results.map((r) => [r.label, figureText(r), r.dominant ?? '']),
    ),
    ...table(
      ['Input', 'Value', 'From'],
      d.inputs.map((i) => inputRow(i, show)),
    ),
    `Source: ${esc(sources(d.sources))}`,
    '',
    ...d.warnings.map((w) => `- Warning: ${esc(w)}`),
    ...(d.warnings.length ? [''] : []),
  ];
}

function decisions(sheet: Sheet, show: Show): string[] {
  return sheet.decisions.flatMap((d) => [
    `### ${esc(atPlace(d.title, d.where))}`,
    '',
    ...d.answers.map((a) => `- ${esc(a.label)}: **${esc(answerText(a))}** (${esc(whoWhen(a, show))})`),
    ...(d.confirmed ? [`- Confirmed (${esc(whoWhen(d.confirmed, show))})`] : []),
    ...(d.reopened ? [`- **${esc(statusWords.reopened)}**`] : []),
    ...d.restsOn.map((f) => `- Rests on ${esc(f.label)}: ${esc(figureText(f))}`),
    ...(d.mark ? [`- ${esc(d.mark)}`] : []),
    ...d.overruled.map((o) => `- **OVERRULED** by ${esc(o.initials)}: ${esc(o.reason)} (${esc(overruleNow(o))})`),
    ...(d.signature ? [`- Signature: ${esc(roleWords(d.signature))}`] : []),
    '',
  ]);
}

function record(sheet: Sheet, show: Show): string[] {
  return [
    ...section(
      headings.cautions,
      table(
        ['Step', 'Caution', 'Acknowledged'],
        cautionsByStep(sheet.cautions).map((same) => [
          same[0]?.title ?? '',
          (same[0]?.cautions ?? []).join(' '),
          same.map((c) => `${c.where ? `${c.where}: ` : ''}${whoWhen(c, show)}`).join('; '),
        ]),
      ),
    ),
    ...section(
      headings.waits,
      table(
        ['Step', 'Place', 'For', 'From', 'Until', 'State'],
        sheet.waits.map((w) => [
          w.title,
          placeName(w.where),
          w.label,
          show(w.from),
          w.until ? show(w.until) : 'not known yet',
          waitText(w),
        ]),
      ),
    ),
    ...section(
      headings.predictions,
      table(
        ['Figure', 'Place', 'Predicted', 'The guide', 'By, when'],
        sheet.predictions.map((p) => [p.label, placeName(p.where), p.predicted, p.actual, whoWhen(p, show)]),
      ),
    ),
    ...section(
      headings.setAside,
      table(
        ['What', 'Place', 'Reading', 'Because', 'By, when'],
        sheet.setAside.map((s) => [s.label, placeName(s.where), s.text, s.because, whoWhen(s, show)]),
      ),
    ),
    ...section(
      headings.takenBack,
      table(
        ['Step', 'Place', 'What', 'Value', 'By, when', 'Taken back by, when'],
        sheet.takenBack.map((t) => [
          t.title,
          placeName(t.where),
          t.what,
          t.text,
          whoWhen(t, show),
          whoWhen(t.back, show),
        ]),
      ),
    ),
    ...section(headings.record, [
      `- ${esc(undoneText(sheet))}`,
      ...sheet.clockJumps.map(
        (j) => `- The clock of the computer ran backwards: ${esc(show(j.before))}, then ${esc(show(j.after))}.`,
      ),
      `- This record holds ${sheet.entries} entries.`,
      ...(sheet.notice ? [`- ${esc(sheet.notice)}`] : []),
    ]),
  ];
}

function drawings(sheet: Sheet): string[] {
  return sheet.pictures.flatMap((p) => {
    const lines = textDrawing(p.picture, p.values, PICTURE);
    return [`### ${esc(atPlace(p.title, p.where))}`, '', ...lines.map((l) => `    ${l}`), ''];
  });
}

/** The whole sheet. Everything that somebody typed is escaped. */
export function toMarkdown(sheet: Sheet, options: SheetOptions = {}): string {
  const { show, zone } = clock(options.zone);
  const lines = [
    ...head(sheet, show, zone),
    ...section(
      headings.remedies,
      sheet.remedies.map((r) => {
        const state = r.settled
          ? `settled by ${whoWhen(r.settled, show)}: ${r.settled.reason}`
          : `STILL TO DO. ${r.changed.map((c) => `${c.label}: ${c.old} → ${c.now}`).join('; ')}`;
        return `- **${esc(atPlace(r.title, r.where))}**: ${esc(r.text)} ${esc(state)}`;
      }),
    ),
    ...section(
      headings.stops,
      table(
        ['Stopped', 'Place', 'Why', 'Met', 'How it ended'],
        sheet.stops.map((s) => [s.title, placeName(s.where), s.says, whoWhen(s, show), stopEnd(s, show)]),
      ),
    ),
    ...section(headings.headline, table(['Figure', 'Place', 'Value'], figureRows(sheet.headline))),
    ...section(headings.next, table(['Figure', 'Place', 'Value'], figureRows(sheet.next))),
    ...section(headings.decisions, decisions(sheet, show)),
    ...section(
      headings.signatures,
      table(
        ['What', 'Place', 'Signature', 'Says', 'When', 'State'],
        sheet.signatures.map((s) => [s.title, placeName(s.where), roleWords(s), s.says, show(s.at), standsWords(s)]),
      ),
    ),
    ...section(
      headings.overruled,
      table(
        ['Step', 'Place', 'The check said', 'Overruled by', 'Reason', 'State'],
        sheet.overruled.map((o) => [
          o.title,
          placeName(o.where),
          o.says,
          `OVERRULED by ${o.initials}, ${show(o.at)}`,
          o.reason,
          overruleNow(o),
        ]),
      ),
    ),
    ...section(
      headings.corrections,
      table(
        ['What', 'Place', 'Was', 'Is', 'Reason', 'By, when'],
        sheet.corrections.map((c) => [c.label, placeName(c.where), c.old, c.now, c.reason, whoWhen(c, show)]),
      ),
    ),
    ...section(
      headings.events,
      table(
        ['What', 'Place', 'By, when'],
        sheet.events.map((e) => [eventText(e), placeName(e.where), whoWhen(e, show)]),
      ),
    ),
    ...section(
      headings.notes,
      table(
        ['Kind', 'Place', 'Text', 'By, when'],
        sheet.notes.map((n) => [n.kind, placeName(n.where), n.text, whoWhen(n, show)]),
      ),
    ),
    ...sheet.groups.flatMap((g) => section(g.title, table(['What', 'Place', 'Value'], figureRows(g.figures)))),
    ...section(
      headings.findings,
      sheet.findings.flatMap((f) => findings(f, show)),
    ),
    ...section(
      headings.derivations,
      sheet.derivations.flatMap((d) => derivation(d, show)),
    ),
    ...(sheet.strip
      ? section(sheet.strip.title, [
          esc(sheet.strip.say),
          '',
          ...table(
            ['Mark', 'Distance from the line'],
            sheet.strip.marks.map((m) => [m.name, `${m.mm.toFixed(1)} mm`]),
          ),
        ])
      : []),
    ...section(
      headings.logs,
      sheet.logs.flatMap((l) => [
        `### ${esc(atPlace(l.title, l.where))}`,
        '',
        ...table(
          [...l.columns.map((c) => c.label), 'By, when'],
          l.rows.map((r) => [...r.cells, `${whoWhen(r, show)}${r.corrected ? ', corrected' : ''}`]),
        ),
      ]),
    ),
    ...section(headings.pictures, drawings(sheet)),
    ...record(sheet, show),
  ];
  return `${lines
    .join('\n')
    .replace(/\n{3,}/g, '\n\n')
    .trim()}\n`;
}
