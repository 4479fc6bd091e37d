/** Lists made of the rows of a log. */
import type { KeyInfo } from '../../procedure/model.js';
import type { Answer } from '../journal/entry.js';
import type { Row } from '../journal/ledger.js';
import { unknown, type Value, type ValueSource } from './known.js';

/** Number of the newest entry in complete rows: a row that is just being written changes nothing yet. */
function latest(rows: readonly Row[]): number {
  let seq = 0;
  for (const row of rows) for (const given of row.values()) seq = Math.max(seq, given.entry.seq);
  return seq;
}

export function logValue(values: ValueSource, from: Extract<KeyInfo['from'], { by: 'rows' }>, place: string): Value {
  const rows = values.completeRows(from.step.id, place);
  const asOf = latest(rows);
  const known = (value: Answer): Value => ({
    known: true,
    value,
    plusMinus: undefined,
    origin: { from: 'rows', count: rows.length },
    asOf,
  });
  if (from.what === 'count') return known(rows.length);
  if (from.what !== 'all') {
    const times = rows.map((r) => [...r.values()].map((given) => Date.parse(given.first.at)));
    return known(times.map((t) => Math.max(0, (t.at(-1)! - times[0]![0]!) / 60_000)));
  }
  const q = from.question;
  const items = rows.map((r) => {
    const given = r.get(q.key);
    if (given?.unfit) return undefined;
    const v = given?.value;
    return v === undefined || (v === '' && q.optional) ? q.otherwise : v;
  });
  // A row without this reading leaves no list to work with: the items would no longer stand beside those of other lists.
  return items.includes(undefined) ? unknown([q.key]) : known(items as Answer);
}
