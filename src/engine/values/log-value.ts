/** Lists made of the rows of a log. */
import type { KeyInfo } from '../../procedure/model.js';
import { kindOf } from '../../procedure/questions/index.js';
import type { Question } from '../../procedure/schema.js';
import type { Answer } from '../journal/entry.js';
import type { Row } from '../journal/ledger.js';
import { unknown, type Value, type ValueSource } from './known.js';

/** Found once for all lists that are made of the same rows: those of a ledger never change. */
const newest = new WeakMap<readonly Row[], number>();

/**
 * Number of the entry by which a row was read: of its last figure, for what is only said of it, such as how it sounds, may
 * be said later; where it has none, of its last answer.
 */
export function lastRead(row: Row, ask: readonly Question[]): number {
  const isFigure = (key: string): boolean => ask.some((q) => q.key === key && kindOf(q).range !== undefined);
  const figures = [...row].filter(([key]) => isFigure(key)).map(([, given]) => given);
  return Math.max(...(figures.length ? figures : [...row.values()]).map((g) => g.first.seq));
}

/** Number of the newest entry in complete rows: a row that is just being written changes nothing yet. */
function latest(rows: readonly Row[]): number {
  let seq = newest.get(rows);
  if (seq === undefined) {
    seq = 0;
    for (const row of rows) for (const given of row.values()) seq = Math.max(seq, given.entry.seq);
    newest.set(rows, seq);
  }
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
    // Of each row when it was ended, and of the first when it was begun.
    const ends = rows.map((r) => [...r.values()].at(-1)!);
    const begun = rows.length ? Date.parse([...rows[0]!.values()][0]!.first.at) : 0;
    return known(ends.map(({ first }) => Math.max(0, (Date.parse(first.at) - begun) / 60_000)));
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
