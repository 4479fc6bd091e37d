/** Amounts of one job are compared with each other, so all are in one currency. Pure. */
import { currencyIn } from '../../units/currency.js';
import { fillIn } from '../values/texts.js';
import type { State } from './state.js';

/**
 * @param key of the amount that is to be recorded at `place`, as `typed`
 * @returns one sentence when another amount of the job is in another currency
 */
export function currencyClash(state: State, key: string, place: string, typed: string | undefined): string | undefined {
  const own = typed === undefined ? undefined : currencyIn(typed);
  if (own === undefined || state.model.keys.get(key)?.quantity !== 'money') return undefined;
  for (const [id, { answers }] of state.ledger.steps)
    for (const [other, given] of answers) {
      const at = id.split('@')[1] ?? 'job';
      if (state.model.keys.get(other)?.quantity !== 'money' || (other === key && at === place)) continue;
      const its = given.typed === undefined ? undefined : currencyIn(given.typed);
      if (its === undefined || its === own) continue;
      const label = (k: string, p: string): string => fillIn(state.values, state.model.keys.get(k)?.label ?? k, p);
      return `${label(key, place)}: “${label(other, at)}” was given in ${its}; type this amount in ${its} too.`;
    }
  return undefined;
}
