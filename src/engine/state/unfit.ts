/** Recorded answers that do not fit their questions, told to a person. Pure. */
import { slot, type Unfit } from '../journal/ledger.js';
import { labelAt, showValue } from '../values/texts.js';
import type { State } from './state.js';

/** Those that nothing has taken the place of since. */
export function unfitNow(state: State): Unfit[] {
  return state.ledger.unfit.filter(({ entry }) => {
    const at = state.ledger.steps.get(slot(entry.step, entry.place));
    const step = state.model.steps.get(entry.step);
    if (!at || !step) return false;
    if (step.repeat) return at.rows.some((r) => r.get(entry.key)?.entry === entry);
    return (at.answers.get(entry.key)?.entry.seq ?? 0) < entry.seq;
  });
}

/** `Stop at: 5000 °C (it is not from 20 °C to 150 °C)`. */
export function unfitWords(state: State, { entry, why }: Unfit): string {
  const { key, place, value } = entry;
  const label = labelAt(state.values, key, place);
  const where = place === 'job' ? '' : `, ${state.values.placeLabel(place)}`;
  const shown = showValue(state.model, key, value).replace(/\s+/g, ' ');
  return `${label}${where}: ${shown.length > 60 ? `${shown.slice(0, 60)}…` : shown || '(empty)'} (${why})`;
}

/** One sentence; undefined when every answer fits. */
export function unfitSentence(state: State): string | undefined {
  const all = unfitNow(state);
  const first = all[0];
  if (!first) return undefined;
  const log = state.model.steps.get(first.entry.step)!.repeat !== undefined;
  const more = all.length > 1 ? ` And ${all.length - 1} more.` : '';
  const cure = log ? 'correct that reading' : 'answer it again';
  return `A recorded answer does not fit its question and does not count: ${unfitWords(state, first)}; ${cure}.${more}`;
}
