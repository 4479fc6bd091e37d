/** What a question suggests: a value that one key takes, and that the brisk pace fills in. Pure. */
import { type Question, quantityOf } from '../../procedure/questions/index.js';
import { canonicalUnit } from '../../units/kinds.js';
import type { Values } from './values.js';

/** As it would be typed; undefined while it is not known. */
export function suggestionOf(values: Values, q: Question, place: string): string | undefined {
  if (q.suggest === undefined) return undefined;
  const v = values.evaluate(q.suggest, place);
  if (!v.known || Array.isArray(v.value)) return undefined;
  if (typeof v.value === 'boolean') return v.value ? 'yes' : 'no';
  if (typeof v.value !== 'number') return String(v.value) || undefined;
  const number = String(Number(v.value.toPrecision(6)));
  const kind = quantityOf(q);
  return kind ? `${number} ${canonicalUnit[kind]}`.trim() : number;
}
