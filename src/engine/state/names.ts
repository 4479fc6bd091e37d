/** Names behind initials, and of customer and shop, as they were last given. */
import type { State } from './state.js';

/** By initials, 'customer' or 'issuer'. */
export function namesOf(state: State): ReadonlyMap<string, string> {
  const out = new Map<string, string>();
  for (const e of state.entries) if (e.kind === 'name' && !state.ledger.undone.has(e.seq)) out.set(e.of, e.name);
  return out;
}
