/** A fact gathered from the places below: all, any, count, list. */
import type { Fact } from '../../procedure/schema.js';
import type { Answer } from '../journal/entry.js';
import { type Known, unknown, type Value, type ValueSource } from './known.js';

export function rollUp(values: ValueSource, fact: Extract<Fact, { over: string }>, place: string): Value {
  const text = fact.all ?? fact.any ?? fact.count ?? fact.list;
  if (!text) return unknown([]);
  const each = values.below(fact.over, place).map((p) => values.evaluate(text, p));
  const asOf = Math.max(0, ...each.map((v) => (v.known ? v.asOf : 0)));
  const missing = [...new Set(each.flatMap((v) => (v.known ? [] : v.missing)))];
  const settle = (value: Answer): Known => ({
    known: true,
    value,
    plusMinus: undefined,
    origin: { from: 'fact', inputs: each[0]?.names ?? [] },
    asOf,
  });
  if (fact.all && each.some((v) => v.known && v.value === false)) return settle(false);
  if (fact.any && each.some((v) => v.known && v.value === true)) return settle(true);
  if (fact.list || fact.count) {
    if (missing.length > 0 || each.some((v) => !v.known)) return unknown(missing);
    const known = each.filter((v) => v.known);
    if (fact.count) return settle(known.filter((v) => v.value === true).length);
    const widths = known.map((v) => (typeof v.plusMinus === 'number' ? v.plusMinus : 0));
    const list = settle(known.map((v) => v.value) as unknown as Answer);
    return widths.some((w) => w > 0) ? { ...list, plusMinus: widths } : list;
  }
  if (each.some((v) => !v.known)) return unknown(missing);
  return settle(Boolean(fact.all));
}
