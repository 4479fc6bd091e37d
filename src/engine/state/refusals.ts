/** Why something can't be done now, in one sentence. */
import { currencyIn } from '../../units/currency.js';
import { leftWords, type StepView } from '../steps/board.js';
import { fillIn } from '../values/texts.js';
import type { State } from './state.js';

/** Why a step cannot be worked on now. */
export function notNow(state: State, view: StepView): string {
  const where = view.place === 'job' ? '' : ` at ${state.values.placeLabel(view.place)}`;
  switch (view.status) {
    case 'done':
      return `“${view.step.title}”${where} is done already; correct a reading instead, with a reason.`;
    case 'waiting':
      return `“${view.step.title}”${where} is waiting: ${view.wait?.label ?? 'time'}, ${leftWords(view.wait)} left.`;
    case 'not-needed':
      return `“${view.step.title}”${where} does not apply to this job as it stands.`;
    default:
      return `“${view.step.title}”${where} is not next: ${view.because && view.because !== 'unsure' ? view.because : 'earlier steps come first.'}`;
  }
}

/** The sentence of a gate that holds. */
export function gateSentence(state: State, view: StepView): string {
  const g = view.gates[0];
  if (!g) return '';
  const lacking = g.missing
    .filter((k) => state.model.keys.has(k))
    .map((k) => fillIn(state.values, state.model.keys.get(k)?.label ?? k, view.place));
  const why = g.refusal ? ` (${g.refusal})` : lacking.length ? ` (not known yet: ${lacking.join(', ')})` : '';
  const way = g.gate.overrule === 'never' ? ' This can’t be overruled.' : '';
  return `${fillIn(state.values, g.gate.say, view.place)}${why}${way}`;
}

/**
 * Amounts of one job are compared with each other, so all are in one currency.
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
