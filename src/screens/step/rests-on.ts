/** Which readings a gate may be put right by: those that it names first, what they were worked out from after. */
import { type Derivation, derivationsFor } from '../../engine/derivation.js';
import type { Desk } from '../desk.js';
import { type Reading, readings } from '../pages/correct.js';

/** Words that say nothing of what a label means. */
const plain = new Set(
  'all and any are can for from has here its not off one out that the than then this was what when with you your'.split(
    ' ',
  ),
);
const wordsOf = (text: string, least = 3): string[] =>
  (text.toLowerCase().match(/\p{L}+/gu) ?? []).filter((w) => w.length >= least && !plain.has(w));

/** Where a sentence names a label: in quotation marks, or by all of its words; undefined where it does not. */
export function namedAt(sentence: string, label: string): number | undefined {
  const quoted = Math.max(sentence.indexOf(`"${label}"`), sentence.indexOf(`“${label}”`));
  if (quoted >= 0) return quoted;
  const said = sentence.toLowerCase();
  // Short words such as `oil` stand in too many sentences.
  const own = wordsOf(label, 4);
  const heard = new Set(wordsOf(said));
  if (own.length < 2 || !own.every((w) => heard.has(w))) return undefined;
  const at = said.indexOf(label.toLowerCase());
  return at >= 0 ? at : said.indexOf(own[0] ?? '');
}

/** How much of a label a sentence speaks of, 0 to 1. */
function shareNamed(sentence: string, label: string): number {
  const own = wordsOf(label);
  const heard = new Set(wordsOf(sentence));
  return own.length === 0 ? 0 : own.filter((w) => heard.has(w)).length / own.length;
}

interface Rests {
  readonly readings: readonly Reading[];
  /** So many of them, from the first on, are named by the sentence or by the condition itself. */
  readonly named: number;
}

/** Readings that a gate's condition rests on or that its sentence names, seen from one place. */
export function restsOn(desk: Desk, condition: string, sentence: string, place: string): Rests {
  const { model, state } = desk;
  const all = readings(desk);
  const of = derivationsFor(state);
  const said = sentence.replace(/\{[^}]*\}/g, ' ');
  const spoken = new Map<string, number>();
  for (const [key, { label }] of model.keys) {
    const at = namedAt(said, label);
    if (at !== undefined) spoken.set(key, at);
  }
  const inOrder = [...spoken].sort((a, b) => a[1] - b[1]).map(([key]) => key);
  const own = model.expression(condition).names.filter((n) => model.keys.has(n));
  const shown = [...sentence.matchAll(/\{([a-z][a-z0-9_]*)/g)].map((m) => m[1] ?? '');
  const roots = [...inOrder, ...own, ...shown].filter((key) => {
    const info = model.keys.get(key);
    return info !== undefined && state.values.enclosing(info.at, place) !== undefined;
  });
  const out: Reading[] = [];
  const seen = new Set<Derivation>();
  let layer = [...new Set(roots.map((key) => of(key, place)))];
  while (layer.length) {
    for (const d of layer) {
      seen.add(d);
      const from = model.keys.get(d.key)?.from;
      const key = from?.by === 'question' || from?.by === 'rows' ? from.question?.key : undefined;
      // The newest of a log comes first.
      const hit = key && all.find((r) => r.question.key === key && r.place === d.place);
      if (hit && !out.includes(hit)) out.push(hit);
    }
    layer = [...new Set(layer.flatMap((d) => d.inputs))].filter((d) => !seen.has(d));
  }
  const weight = ({ question }: Reading): number => {
    const at = spoken.get(question.key) ?? (own.includes(question.key) ? sentence.length : undefined);
    if (at !== undefined) return at;
    const share = shareNamed(said, question.label);
    return share < 0.5 ? Number.POSITIVE_INFINITY : sentence.length + 2 - share;
  };
  const sorted = out.map((r) => [weight(r), r] as const).sort((a, b) => (a[0] === b[0] ? 0 : a[0] - b[0]));
  return {
    readings: sorted.map(([, r]) => r),
    named: sorted.filter(([w]) => w <= sentence.length).length,
  };
}
