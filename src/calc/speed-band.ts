/** Which speed band an n dm (mm/min) belongs to: below 90 000 low, up to 500 000 medium, above that high. */
import { numberIn, rowsOfTable, sourceOf } from './table.js';
import { CalcRefusal, type RowSource, type TableRow, type Tables } from './types.js';

/** The row of fill-bands. The band low ends below its limit, every other includes it. */
export function bandOf(ndm: number, tables: Tables): { row: TableRow; sources: RowSource[] } {
  const row = rowsOfTable(tables, 'fill-bands').find((candidate) => {
    const to = candidate.ndm_to;
    if (typeof to !== 'number') return true;
    return numberIn(candidate, 'ndm_above') === 0 ? ndm < to : ndm <= to;
  });
  if (!row) throw new CalcRefusal('ndm', 'The table fill-bands has no row for this speed factor.');
  return { row, sources: [sourceOf(row)] };
}

/** Shares of the free volume at one speed, whole percent. */
export interface Share {
  readonly name: string;
  readonly low: number;
  readonly high: number;
  readonly chosen: number;
  /** How the figure came about, where it is not the band's own; else empty. */
  readonly how: string;
}

/**
 * Shares at this n dm. Where a row names the n dm from which its chosen share holds (`full_at`), that is reached on a straight
 * line from the one of the band below, rounded down to a whole percent.
 */
export function shareAt(ndm: number, closed: string, tables: Tables): Share {
  const rows = rowsOfTable(tables, 'fill-bands');
  const { row } = bandOf(ndm, tables);
  const top = closed === 'open-with-cavity' ? 'high_cavity' : 'high';
  const own = { low: numberIn(row, 'low'), high: numberIn(row, top), chosen: numberIn(row, 'chosen') };
  const name = String(row.band);
  const before = rows[rows.indexOf(row) - 1];
  if (typeof row.full_at !== 'number' || !before || ndm >= row.full_at) return { name, ...own, how: '' };
  const from = numberIn(row, 'ndm_above');
  const part = (ndm - from) / (row.full_at - from);
  const slow = numberIn(before, 'chosen');
  // A hair above, so that 25 that comes out as 24.999… stays 25.
  const exact = slow + (own.chosen - slow) * part + 1e-9;
  const chosen = Math.floor(exact);
  const cut = exact - chosen < 0.05 ? '' : `, ${Math.floor(exact * 10) / 10} rounded down`;
  return {
    name,
    low: own.low,
    high: own.high,
    chosen,
    how: `: on the line from ${slow} % at ${from} to ${own.chosen} % at ${row.full_at}${cut}`,
  };
}

/** What published sources say about the fill at this n dm; those for bearings with a room outside only where there is one. */
export function publishedFill(ndm: number, closed: string, tables: Tables): TableRow[] {
  return rowsOfTable(tables, 'fill-sources').filter(
    (row) =>
      ndm >= numberIn(row, 'ndm_above') &&
      (typeof row.ndm_to !== 'number' || ndm <= row.ndm_to) &&
      (row.needs_cavity !== 'yes' || closed === 'open-with-cavity'),
  );
}
