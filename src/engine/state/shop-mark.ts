/** What rests on a shop's own table rows rather than on those that come with the program. */
import type { Tables } from '../../calc/types.js';
import { type Derivation, derivation } from './derivation.js';
import type { State } from './state.js';

const known = new WeakMap<Tables, boolean>();

/** True when any row is a shop's own; without one nothing needs to be looked into. */
function anyShopRow(tables: Tables): boolean {
  let any = known.get(tables);
  if (any === undefined) {
    any = Object.values(tables).some((t) => t.rows.some((r) => r.tag === 'shop'));
    known.set(tables, any);
  }
  return any;
}

/** True when a value, or anything that it was worked out from, was taken from a shop's own row. */
export function restsOnShop(state: State, key: string, place: string): boolean {
  if (!anyShopRow(state.model.tables)) return false;
  const seen = new Set<Derivation>();
  const look = (d: Derivation): boolean => {
    if (seen.has(d)) return false;
    seen.add(d);
    return d.sources.some((s) => s.tag === 'shop') || d.inputs.some(look);
  };
  return look(derivation(state, key, place));
}
