/** What a step's drawing is given: the values that are known. */
import type { Step } from '../../procedure/schema.js';
import type { Answer } from '../journal/entry.js';
import type { Values } from './values.js';

/** True while a question is still to be answered: what it counts as until then is nothing that was seen. */
function stillAsked(values: Values, key: string, place: string): boolean {
  const from = values.model.keys.get(key)?.from;
  if (from?.by !== 'question') return false;
  const v = values.get(key, place);
  return v.known && v.origin.from === 'otherwise' && values.holds(from.question.when ?? 'true', place) !== false;
}

/** By the names that the drawing reads; without those that nobody knows yet. */
export function drawnValues(values: Values, step: Step | undefined, place: string): Record<string, Answer> {
  const out: Record<string, Answer> = {};
  for (const [name, text] of Object.entries(step?.draw?.with ?? {})) {
    const v = values.evaluate(text, place);
    if (v.known && !v.names.some((key) => stillAsked(values, key, place))) out[name] = v.value;
  }
  return out;
}
