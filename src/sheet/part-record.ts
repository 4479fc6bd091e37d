/** The appendix: every reading, how each figure was worked out, logs, and what else stands in the journal. */
import { groupSections } from './figure-tables.js';
import {
  type Cell,
  drawingOf,
  figureCell,
  type Section,
  type SheetBlock,
  type SheetPart,
  type SheetRow,
  section,
  tableBlock,
} from './section.js';
import type { DerivationRow, InputLine, Sheet, StepLine, ToldSource } from './sheet-data.js';
import { withTimes } from './when.js';
import {
  answerText,
  atPlace,
  cautionsByStep,
  figureText,
  headings,
  placeName,
  recordText,
  type Show,
  statusWords,
  undoneText,
  waitText,
  whoWhen,
} from './words.js';

const when = (x: { at: string; by: string }, show: Show): SheetPart => ({ text: whoWhen(x, show), as: 'when' });

/** A confirmation this close to the last answer, by the same person, says nothing more. */
const SAME_MOMENT = 15 * 60_000;

function stepRows(s: StepLine, show: Show): SheetRow[] {
  const status = statusWords[s.status];
  const title: Cell = status ? [{ text: s.title }, { text: `(${status})`, as: 'strong' }] : s.title;
  const rows: SheetRow[] = [];
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

function findings(sheet: Sheet, show: Show): readonly SheetBlock[] {
  return sheet.findings.flatMap((f) =>
    tableBlock(
      [
        ['Step', 24],
        ['What', 26],
        ['Reading', 30],
        ['By, when', 20],
      ],
      f.phases.flatMap((p): SheetRow[] => [
        { cells: [p.title], group: true },
        ...p.steps.flatMap((s) => stepRows(s, show)),
      ]),
      { caption: placeName(f.where), small: f.place.includes('.') },
    ),
  );
}

const sources = (list: readonly ToldSource[]): string => list.map((s) => s.says).join('; ');

function inputRow(i: InputLine, show: Show): SheetRow {
  const from: SheetPart = { text: withTimes(i.from, show), ...(i.derivation ? { to: i.derivation } : {}) };
  const said = i.sources.length ? [{ text: sources(i.sources) }] : [];
  return {
    cells: [i.label, { text: i.text, as: 'value' }, [from, ...said]],
    ...(i.depth ? { depth: i.depth } : {}),
  };
}

function derivation(d: DerivationRow, show: Show): readonly SheetBlock[] {
  const results = d.results.filter((r) => r.known);
  const dominant = results.some((r) => r.dominant);
  return [
    { is: 'heading', text: atPlace(d.title, d.where), id: d.id },
    { is: 'words', text: d.formula, as: 'formula' },
    ...(d.worked.length ? [{ is: 'worked', lines: d.worked } as const] : []),
    ...tableBlock(
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
    ...tableBlock(
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

function logs(sheet: Sheet, show: Show): readonly SheetBlock[] {
  return sheet.logs.flatMap((l) =>
    tableBlock(
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

const restsOn = (sheet: Sheet): readonly SheetBlock[] =>
  tableBlock(
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
  const add = (id: string, title: string, blocks: readonly SheetBlock[]) => section('record', id, title, blocks);
  const jumps = sheet.clockJumps.map(
    (j) => `The clock of the computer was set back: ${show(j.before)}, then ${show(j.after)}.`,
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
      tableBlock(
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
      tableBlock(
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
      tableBlock(
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
      tableBlock(
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
      tableBlock(
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
      tableBlock(
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
      { is: 'list', items: [undoneText(sheet), ...jumps, recordText(sheet)] },
      ...(sheet.notice ? [{ is: 'words', text: sheet.notice } as const] : []),
    ]),
  ];
}
