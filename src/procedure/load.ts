/** Procedure and table texts to what the engine uses, or to a list of mistakes. Pure: texts in, no file read. */
import type { Calculator, Table, Tables } from '../calc/types.js';
import { checkProcedure } from './check.js';
import { readDocument } from './document.js';
import type { Problem } from './problem.js';
import { type Procedure, procedureSchema, tableSchema } from './schema.js';

export interface LoadedProcedure {
  readonly procedure: Procedure | undefined;
  readonly problems: readonly Problem[];
}

export function loadTable(text: string, file: string): { table: Table | undefined; problems: readonly Problem[] } {
  const read = readDocument(text, file, tableSchema);
  const t = read.value;
  if (!t) return { table: undefined, problems: read.problems };
  const seen = new Set<string>();
  t.rows.forEach((row, i) => {
    if (seen.has(row.id))
      read.complain(['rows', i, 'id'], `The row “${row.id}” stands here a second time.`, 'Give it an id of its own.');
    seen.add(row.id);
    for (const [column, value] of Object.entries(row)) {
      if (['id', 'tag', 'source'].includes(column)) continue;
      const spec = t.columns[column];
      if (!spec)
        read.complain(
          ['rows', i, column],
          `The row has a value for “${column}”, which is no column of the table.`,
          `Its columns are: ${Object.keys(t.columns).join(', ')}.`,
          -1,
        );
      else if (spec.type === 'number' && value !== null && typeof value !== 'number')
        read.complain(['rows', i, column], `“${column}” should be a number.`, 'Write it with a point and no unit.');
    }
  });
  return { table: { id: t.table, rows: t.rows as Table['rows'] }, problems: read.problems };
}

export function loadProcedure(
  text: string,
  file: string,
  tables: Tables,
  calculators: Readonly<Record<string, Calculator>>,
): LoadedProcedure {
  const read = readDocument(text, file, procedureSchema);
  if (read.value) checkProcedure(read.value, { tables, calculators }, read.complain);
  const problems = [...read.problems].sort((a, b) => a.line - b.line || a.column - b.column);
  return { procedure: problems.length ? undefined : read.value, problems };
}
