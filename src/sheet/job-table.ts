/**
 * All jobs as one table, a row for each bearing (each outermost place of a job): for a spreadsheet or a database.
 *
 * The first columns are the same for every procedure (`fixed`). Then one column for each value of the procedures' sheets,
 * at that bearing or of the whole job, named by its key and, where it is a quantity, its canonical unit: `dose_given_mL`;
 * beside a quantity, and whatever else is known to a half width, that width: `dose_given_mL_plus_minus`. What is not known is empty (CSV) or null (NDJSON).
 */

import { found } from '../engine/state/found.js';
import { entriesOf, type State } from '../engine/state/state.js';
import { partLabel } from '../engine/state/told.js';
import { isList } from '../guards/guards.js';
import { DAY } from '../units/kinds.js';
import { figureAt } from './figures.js';
import { frontOf } from './front.js';
import { peopleOf } from './people.js';

type TableValue = string | number | boolean | null;
export type JobTableRow = Readonly<Record<string, TableValue>>;

/** Columns of every table, in order, with what they hold. */
export const fixed = {
  job_number: 'number of the job',
  job_name: 'name of the job',
  procedure: 'id of its procedure',
  procedure_version: 'version of the procedure',
  practice: 'true for invented readings',
  finished: 'true when every step is done',
  started: 'first entry, ISO 8601 in UTC',
  last_entry: 'last entry, ISO 8601 in UTC',
  people: 'initials, parted by blanks',
  stops_overruled: 'stops that were overruled in the whole job',
  unforeseen: 'unforeseen events in the whole job',
  corrected: 'readings corrected afterwards in the whole job',
  next_look_hours: 'hours of running to the next look',
  next_look_day: 'earliest day on which they are over, running day and night',
  place: 'id of the bearing in the job',
  place_name: 'its name in the job',
} as const;

/** A canonical unit as part of a column's name: `g_per_mL`. */
const columnOf = (key: string, unit: string): string => {
  const name = unit
    .replaceAll('%', 'percent')
    .replaceAll('/', '_per_')
    .replace(/[^A-Za-z0-9]+/g, '_');
  return name ? `${key}_${name}` : key;
};

/** Keys that the procedure's sheet shows, each once. */
function keysOf(state: State): readonly string[] {
  const { front, headline = [], figures = [], groups = [], next = [] } = state.model.procedure.sheet ?? { figures: [] };
  const all = [...(front?.known_by ?? []), ...headline, ...figures.map((f) => f.key), ...groups.flatMap((g) => g.keys)];
  return [...new Set([...all, ...next])];
}

export function tableRows(whole: State, number: string): JobTableRow[] {
  const state = found(whole);
  const { values, ledger, model, entries } = state;
  const places = model.places.filter((p) => p.parent === 'job' && values.takesPart(p.id)).map((p) => p.id);
  const { due } = frontOf(state, whole, []);
  const same: Record<keyof typeof fixed, TableValue> = {
    job_number: number,
    job_name: ledger.job?.name ?? '',
    procedure: model.procedure.procedure,
    procedure_version: model.procedure.version,
    practice: ledger.job?.practice !== undefined,
    finished: state.finished,
    started: entries[0]?.at ?? null,
    last_entry: entries.at(-1)?.at ?? null,
    people: peopleOf(state)
      .map((p) => p.initials)
      .join(' '),
    stops_overruled: entriesOf(state, 'overrule').length,
    unforeseen: entriesOf(state, 'raise').length,
    corrected: entriesOf(state, 'correct').length,
    next_look_hours: due?.hours ?? null,
    next_look_day: due ? new Date(Date.parse(due.from) + (due.hours / 24) * DAY).toISOString().slice(0, 10) : null,
    place: 'job',
    place_name: '',
  };
  return (places.length ? places : ['job']).map((place) => {
    const row: Record<string, TableValue> = {
      ...same,
      place,
      place_name: place === 'job' ? '' : values.placeLabel(place),
    };
    for (const { column, value, plusMinus } of cellsAt(state, place)) {
      row[column] = value;
      if (plusMinus !== undefined) row[halfWidth(column)] = plusMinus;
    }
    return row;
  });
}

interface TableCell {
  readonly column: string;
  readonly key: string;
  readonly place: string;
  readonly unit: string;
  readonly value: TableValue;
  /** Undefined of what has none, null where it is not known. */
  readonly plusMinus: number | null | undefined;
}

const halfWidth = (column: string): string => `${column}_plus_minus`;

/** Every single value of the procedure's sheet at this place. A list, such as the marks, is none. */
function cellsAt(state: State, place: string): readonly TableCell[] {
  const { values, model } = state;
  return keysOf(state).flatMap((key) => {
    // A value of something smaller, such as a seal, is no value of the bearing.
    if (values.enclosing(model.keys.get(key)?.at ?? 'job', place) === undefined) return [];
    const { value, unit, plusMinus } = figureAt(state, key, place);
    if (isList(value)) return [];
    const width = typeof plusMinus === 'number' ? plusMinus : null;
    const wide = (unit && model.keys.get(key)?.quantity) || width !== null;
    const column = columnOf(key, unit);
    return [{ column, key, place, unit, value, plusMinus: wide ? width : undefined }];
  });
}

/** What each column holds: those of every table, then those of this job. */
export function columnMeanings(state: State): ReadonlyMap<string, string> {
  const { model, values } = state;
  const places = ['job', ...model.places.filter((p) => p.parent === 'job' && values.takesPart(p.id)).map((p) => p.id)];
  const meanings = new Map<string, string>(Object.entries(fixed));
  for (const { column, key, unit, plusMinus, place } of places.flatMap((p) => cellsAt(state, p))) {
    const label = partLabel(state, key, place);
    meanings.set(column, unit ? `${label}, in ${unit}` : label);
    if (plusMinus !== undefined)
      meanings.set(halfWidth(column), unit ? `half width of ${column}, in ${unit}` : `half width of ${column}`);
  }
  return meanings;
}

/** The columns and what they hold, as CSV. */
export const columnsCsv = (meanings: ReadonlyMap<string, string>): string =>
  [['column', 'holds'], ...meanings].map((row) => `${row.map(field).join(',')}\r\n`).join('');

/** Columns of all rows, the fixed ones first. */
const columnsOf = (rows: readonly JobTableRow[]): readonly string[] => [
  ...new Set([...Object.keys(fixed), ...rows.flatMap((r) => Object.keys(r))]),
];

/** A text that a spreadsheet would run as a formula gets an apostrophe before it, which shows and runs nothing. */
const harmless = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);

function field(value: TableValue | undefined): string {
  if (value === null || value === undefined) return '';
  if (typeof value !== 'string') return String(value);
  const text = harmless(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** By RFC 4180, UTF-8, the names of the columns in the first line. */
export function toCsv(rows: readonly JobTableRow[]): string {
  const columns = columnsOf(rows);
  return [columns.join(','), ...rows.map((r) => columns.map((c) => field(r[c])).join(','))]
    .map((l) => `${l}\r\n`)
    .join('');
}

/** One object a line, each with every column. */
export function toNdjson(rows: readonly JobTableRow[]): string {
  const columns = columnsOf(rows);
  return rows.map((r) => `${JSON.stringify(Object.fromEntries(columns.map((c) => [c, r[c] ?? null])))}\n`).join('');
}
