/** Which speed band an n dm (mm/min) belongs to: below 90 000 low, up to 500 000 medium, above that high. */
import { numberIn, rowsOf, sourceOf } from './table.js';
import { CalcRefusal, type Source, type TableRow, type Tables } from './types.js';

/** The row of fill-bands. The band low ends below its limit, every other includes it. */
export function bandOf(ndm: number, tables: Tables): { row: TableRow; sources: Source[] } {
  const row = rowsOf(tables, 'fill-bands').find((candidate) => {
    const to = candidate.ndm_to;
    if (typeof to !== 'number') return true;
    return numberIn(candidate, 'ndm_above') === 0 ? ndm < to : ndm <= to;
  });
  if (!row) throw new CalcRefusal('ndm', 'The table fill-bands has no row for this speed factor.');
  return { row, sources: [sourceOf(row)] };
}

/** What published sources say about the fill at this n dm, in short. */
export function publishedFill(ndm: number, tables: Tables): TableRow[] {
  return rowsOf(tables, 'fill-sources').filter(
    (row) => ndm >= numberIn(row, 'ndm_above') && (typeof row.ndm_to !== 'number' || ndm <= row.ndm_to),
  );
}
