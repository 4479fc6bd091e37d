/** The appendix: every reading, how each figure was worked out, logs, and what else stands in the journal. */
// @ts-nocheck

import { groupSections } from './figure-tables.js';
import {
  type Block,
  type Cell,
  drawingOf,
  figureCell,
  type Part,
  type Row,
  type Section,
  section,
  table,
} from './section.js';
import type { Derivation, InputLine, Sheet, StepLine, ToldSource } from './sheet-data.js';
import { withTimes } from './when.js';
import {
  answerText,
  atPlace,
  cautionsByStep,
  figureText,
  headings,
  placeName,
  type Show,
  statusWords,
  undoneText,
  waitText,
  whoWhen,
} from './words.js';

const when = (x: { at: string; by: string }, show: Show): Part => ({ text: whoWhen(x, show), as: 'when' });

/** A confirmation this close to the last answer, by the same person, says nothing more. */
const SAME_MOMENT = 15 * 60_000;

function stepRows(s: StepLine, show: Show): Row[] {
  const status = statusWords[s.status];
  const title: Cell = status ? [{ text: s.title }, { text: `(${status})`, as: 'strong' }] : s.title;
  const rows: Row[] = [];
  const add = (cells: readonly Cell[], mark?: true): void => {
    rows.push({
      cells: [rows.length ? s.title : title, ...cells],
      ...(rows.length ? { again: true as const } : {}),
      ...(mark ? { mark } : {}),
    });
  };
  for (const a of s.answers) add([a.label, { text: answerText(a), as: 'value' }, when(a, show)]);
  if (s.rows !== undefined) add(['Rows', `${s.rows}, see ${headings.logs}`, '']);
  const last = s.answers.at(-1);
  const done = s.confirmed;
  const told = done && last && done.by === last.by && Date.parse(done.at) - Date.parse(last.at) < SAME_MOMENT;
  if (done && !told) add(['Done', 'confirmed', when(done, show)]);
  if (!rows.length && !s.mark) add(['', '', '']);
  if (s.mark) add(['Mark', s.mark, ''], true);
  return rows;
}

function findings(sheet: Sheet, show: Show): readonly Block[] {
  return sheet.findings.flatMap((f) =>
    table(
      [
        ['Step', 24],
        ['What', 26],
        ['Reading', 30],
        ['By, when', 20],
      ],
      f.phases.flatMap((p): Row[] => [{ cells: [p.title], group: true }, ...p.steps.flatMap((s) => stepRows(s, show))]),
      { caption: placeName(f.where), small: f.place.includes('.') },
    ),
  );
}

const sources = (list: readonly ToldSource[]): string => list.map((s) => s.says).join('; ');

function inputRow(i: InputLine, show: Show): Row {
  const from: Part = { text: withTimes(i.from, show), ...(i.derivation ? { to: i.derivation } : {}) };
  const said = i.sources.length ? [{ text: sources(i.sources) }] : [];
  return {
    cells: [i.label, { text: i.text, as: 'value' }, [from, ...said]],
    ...(i.depth ? { depth: i.depth } : {}),
  };
}

function derivation(d: Derivation, show: Show): readonly Block[] {
  const results = d.results.filter((r) => r.known);
  const dominant = results.some((r) => r.dominant);
  return [
    { is: 'heading', text: atPlace(d.title, d.where), id: d.id },
    { is: 'words', text: d.formula, as: 'formula' },
    ...(d.worked.length ? [{ is: 'worked', lines: d.worked } as const] : []),
    ...table(
      dominant
        ? [
            ['Result', 36],
            ['Value', 24],
            ['Most of its uncertainty comes from', 40],
          ]
        : [
            ['Result', 36],
            ['Value', 64],
          ],
      results.map((r) => [r.label, figureCell(r, figureText(r)), ...(dominant ? [r.dominant ?? ''] : [])]),
    ),
    ...table(
      [
        ['Input', 36],
        ['Value', 24],
        ['From', 40],
      ],
      d.inputs.map((i) => inputRow(i, show)),
    ),
    { is: 'words', text: `Source: ${sources(d.sources)}`, as: 'source' },
    ...d.warnings.map((text) => ({ is: 'words', text, as: 'warning' }) as const),
  ];
}

function logs(sheet: Sheet, show: Show): readonly Block[] {
  return sheet.logs.flatMap((l) =>
    table(
      [['Row', 6], ...l.columns.map((c) => [c.label, 74 / l.columns.length] as const), ['By, when', 20]],
      l.rows.map((r, i) => [
        String(i + 1),
        ...r.cells,
        { text: `${whoWhen(r, show)}${r.corrected ? ', corrected' : ''}`, as: 'when' },
      ]),
      { caption: atPlace(l.title, l.where) },
    ),
  );
}

const restsOn = (sheet: Sheet): readonly Block[] =>
  table(
    [
      ['Decision', 22],
      ['Place', 14],
      ['Rests on', 32],
      ['Value', 32],
    ],
    sheet.decisions.flatMap((d) =>
      d.restsOn.map((f): readonly Cell[] => [d.title, placeName(d.where), f.label, figureCell(f, figureText(f))]),
    ),
  );

export function recordSections(sheet: Sheet, show: Show): readonly Section[] {
  const add = (id: string, title: string, blocks: readonly Block[]) => section('record', id, title, blocks);
  const jumps = sheet.clockJumps.map(
    (j) => `The clock of the computer ran backwards: ${show(j.before)}, then ${show(j.after)}.`,
  );
  return [
    ...groupSections(sheet, 'record'),
    ...add('findings', headings.findings, findings(sheet, show)),
    ...add(
      'derivations',
      headings.derivations,
      sheet.derivations.flatMap((d) => derivation(d, show)),
    ),
    ...add('rests-on', headings.restsOn, restsOn(sheet)),
    ...add('logs', headings.logs, logs(sheet, show)),
    ...add('drawings', headings.pictures, sheet.pictures.filter((p) => p.picture !== 'run-in-curve').map(drawingOf)),
    ...add(
      'vouched',
      headings.vouched,
      table(
        [
          ['What', 22],
          ['Place', 14],
          ['By', 10],
          ['It says', 54],
        ],
        sheet.signatures.filter((s) => s.stands).map((s) => [s.title, placeName(s.where), s.initials, s.says]),
      ),
    ),
    ...add(
      'cautions',
      headings.cautions,
      table(
        [
          ['Step', 16],
          ['Caution', 46],
          ['Acknowledged', 30],
        ],
        cautionsByStep(sheet.cautions).map((same) => [
          same[0]?.title ?? '',
          (same[0]?.cautions ?? []).join('\n'),
          { text: same.map((c) => `${c.where ? `${c.where}: ` : ''}${whoWhen(c, show)}`).join('; '), as: 'when' },
        ]),
      ),
    ),
    ...add(
      'waits',
      headings.waits,
      table(
        [
          ['Step', 16],
          ['Place', 13],
          ['For', 16],
          ['From', 16],
          ['Until', 16],
          ['State', 20],
        ],
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
    ...add(
      'predictions',
      headings.predictions,
      table(
        [
          ['Figure', 26],
          ['Place', 13],
          ['Predicted', 18],
          ['The guide', 20],
          ['By, when', 19],
        ],
        sheet.predictions.map((p) => [p.label, placeName(p.where), p.predicted, p.actual, when(p, show)]),
      ),
    ),
    ...add(
      'set-aside',
      headings.setAside,
      table(
        [
          ['What', 18],
          ['Place', 13],
          ['Reading', 18],
          ['Because', 20],
          ['By, when', 19],
        ],
        sheet.setAside.map((s) => [s.label, placeName(s.where), s.text, s.because, when(s, show)]),
      ),
    ),
    ...add(
      'taken-back',
      headings.takenBack,
      table(
        [
          ['Step', 15],
          ['Place', 11],
          ['What', 18],
          ['Value', 20],
          ['By, when', 18],
          ['Taken back', 18],
        ],
        sheet.takenBack.map((t) => [t.title, placeName(t.where), t.what, t.text, when(t, show), when(t.back, show)]),
      ),
    ),
    ...add('record', headings.record, [
      { is: 'list', items: [undoneText(sheet), ...jumps, `This record holds ${sheet.entries} entries.`] },
      ...(sheet.notice ? [{ is: 'words', text: sheet.notice } as const] : []),
    ]),
  ];
}
