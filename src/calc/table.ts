/** Access to the tables that are handed to a calculator. */
import { CalcRefusal, type RowSource, type TableRow, type Tables } from './types.js';

/** Rows of a table; a missing table is a refusal, since a figure without its table would be a guess. */
export function rowsOfTable(tables: Tables, id: string): readonly TableRow[] {
  const table = tables[id];
  if (!table) throw new CalcRefusal('tables', `The table ${id} is missing: reinstall, or add it to procedures/tables.`);
  return table.rows;
}

const byId = new WeakMap<readonly TableRow[], ReadonlyMap<string, TableRow>>();

export function findRow(tables: Tables, id: string, row: string): TableRow | undefined {
  const rows = rowsOfTable(tables, id);
  let found = byId.get(rows);
  if (!found) {
    // The first of a name counts.
    found = new Map(rows.toReversed().map((r) => [r.id, r]));
    byId.set(rows, found);
  }
  return found.get(row);
}

/** A number out of a row, which must be there. */
export function numberIn(row: TableRow, column: string): number {
  const value = row[column];
  if (typeof value !== 'number') throw new CalcRefusal('tables', `The table row ${row.id} has no number ${column}.`);
  return value;
}

export function textIn(row: TableRow, column: string): string {
  const value = row[column];
  return typeof value === 'string' ? value : '';
}

export const sourceOf = (row: TableRow): RowSource => ({ tag: row.tag, text: row.source, row: row.id });

/** A constant kept as a table row with the columns value and plus_minus. */
export function constant(tables: Tables, id: string, row: string): { value: number; plusMinus?: number } {
  const found = findRow(tables, id, row);
  if (!found) throw new CalcRefusal('tables', `The table ${id} has no row ${row}.`);
  const half = found.plus_minus;
  return typeof half === 'number' && half > 0
    ? { value: numberIn(found, 'value'), plusMinus: half }
    : { value: numberIn(found, 'value') };
}

/**
 * True when a row is only a shop's word, not its test: tag shop and a source that does not begin with "tested",
 * "measured" or "weighed". Such a row may forbid, never permit.
 */
export const untested = (row: Pick<TableRow, 'tag' | 'source'>): boolean =>
  row.tag === 'shop' && !/^(tested|measured|weighed)\b/i.test(row.source.trim());
