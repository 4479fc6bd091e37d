/**
 * Whether a recorded answer is one that its question could have had. A journal may come from elsewhere, or from an
 * older procedure: what the guide would have refused when it was typed must not count because it stands in a file. Pure.
 */
import type { Tables } from '../calc/types.js';
import type { Question } from '../procedure/schema.js';
import { canonicalUnit } from '../units/kinds.js';
import { showQuantity } from '../units/show.js';
import type { Answer } from './entry.js';
import { optionsOf, TEXT_MOST } from './read-answer.js';

/** The words that can be picked, by question: looked up for each answer of a journal. */
const picks = new WeakMap<Question, { readonly tables: Tables; readonly words: ReadonlySet<string> }>();

function wordsOf(q: Question, tables: Tables): ReadonlySet<string> {
  const known = picks.get(q);
  if (known?.tables === tables) return known.words;
  const words = new Set(optionsOf(q, tables).map((o) => o.value));
  picks.set(q, { tables, words });
  return words;
}

const noNumber = 'it is no number';
const noPick = 'it is none of the choices';

function outside(value: unknown, [low, high]: readonly [number, number], shown: (v: number) => string) {
  if (typeof value !== 'number' || !Number.isFinite(value)) return noNumber;
  return value < low || value > high ? `it is not from ${shown(low)} to ${shown(high)}` : undefined;
}

/** Why an answer does not fit its question, in a few words; undefined when it does. */
export function unfit(q: Question, value: Answer, tables: Tables): string | undefined {
  if (value === '' && q.optional) return undefined;
  switch (q.kind) {
    case 'choice':
    case 'choice-from-table':
      return typeof value === 'string' && wordsOf(q, tables).has(value) ? undefined : noPick;
    case 'yes-no':
      return typeof value === 'boolean' ? undefined : 'it is neither yes nor no';
    case 'text':
      if (typeof value !== 'string' || value.trim() === '') return 'it is no text';
      return value.length > (q.longest ?? TEXT_MOST) ? 'it is too long' : undefined;
    case 'series': {
      if (!Array.isArray(value) || value.length < q.least || value.length > q.most)
        return `it is no list of ${q.least} to ${q.most}`;
      const words = wordsOf(q, tables);
      return value.every((v) => typeof v === 'string' && words.has(v)) ? undefined : noPick;
    }
    case 'counter':
      return Number.isSafeInteger(value) && (value as number) >= 0 ? undefined : 'it is no count';
    case 'number':
      if (q.whole && !Number.isInteger(value)) return 'it is no whole number';
      return outside(value, q.limits, String);
    case 'quantity':
      return outside(value, q.limits, (v) => showQuantity(v, q.quantity));
    case 'dimensions': {
      if (!Array.isArray(value) || value.length !== q.parts.length) return `it is not ${q.parts.length} lengths`;
      const shown = (v: number): string => showQuantity(v, 'length', { unit: canonicalUnit.length });
      return value.map((v) => outside(v, q.limits, shown)).find((why) => why !== undefined);
    }
  }
}
