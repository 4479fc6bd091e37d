/** Why something can't be done now, in one sentence. */
import { currencyIn } from '../../units/currency.js';
import { type GateView, leftWords, type StepView } from '../steps/board.js';
import { fillIn, keysNamedIn, labelAt } from '../values/texts.js';
import type { State } from './state.js';

/** Why a step cannot be worked on now. */
export function notNow(state: State, view: StepView): string {
  const where = view.place === 'job' ? '' : ` at ${state.values.placeLabel(view.place)}`;
  switch (view.status) {
    case 'done':
      return `“${view.step.title}”${where} is done already; correct a reading instead, with a reason.`;
    case 'waiting':
      return `“${view.step.title}”${where} is waiting: ${view.wait!.label}, ${leftWords(view.wait!)} left.`;
    case 'not-needed':
      return `“${view.step.title}”${where} does not apply to this job as it stands.`;
    default:
      return `“${view.step.title}”${where} is not next: ${view.because && view.because !== 'unsure' ? view.because : 'earlier steps come first.'}`;
  }
}

/**
 * What a gate says at a place. Where its own sentence names a figure that has no value it would say nothing: then it is
 * told what is lacking instead, or why the figure cannot be worked out.
 */
export function stopWords(state: State, { gate, missing, refusal }: Stop, place: string): string {
  const { keys } = state.model;
  const lacking = [...new Set(missing)].filter((k) => keys.has(k)).map((k) => labelAt(state.values, k, place));
  const blind = keysNamedIn(gate.say).some((k) => keys.has(k) && !state.values.get(k, place).known);
  if (blind && refusal) return `This cannot be judged yet. ${sentence(refusal)} Correct the wrong figure.`;
  if (blind && lacking.length) return `This cannot be judged yet. Not known: ${lacking.join(', ')}. Answer that first.`;
  const why = refusal ? ` (${refusal})` : lacking.length ? ` (not known yet: ${lacking.join(', ')})` : '';
  return `${fillIn(state.values, gate.say, place)}${why}`;
}
type Stop = Pick<GateView, 'gate' | 'missing' | 'refusal'>;
const sentence = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

/** The sentence of a gate that holds. */
export function gateSentence(state: State, view: StepView): string {
  const g = view.gates[0];
  if (!g) return '';
  return `${stopWords(state, g, view.place)}${g.gate.overrule === 'never' ? ' This can’t be overruled.' : ''}`;
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
      const at = id.split('@')[1]!;
      if (state.model.keys.get(other)?.quantity !== 'money' || (other === key && at === place)) continue;
      const its = given.typed === undefined ? undefined : currencyIn(given.typed);
      if (its === undefined || its === own) continue;
      const { values } = state;
      return `${labelAt(values, key, place)}: “${labelAt(values, other, at)}” was given in ${its}; type this amount in ${its} too.`;
    }
  return undefined;
}
