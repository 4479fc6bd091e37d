/** What several kinds of question share in reading an answer and in judging a recorded one. */
import type { Answer } from '../answer.js';
import type { Option, ReadAnswer } from './kind.js';

export const noReading = (message: string): ReadAnswer<never> => ({ ok: false, message });
export const cutShort = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);

/** One of the options, by its value or its label. */
export function pick(text: string, options: readonly Option[], label: string): ReadAnswer<string> {
  const wanted = text.trim().toLowerCase();
  const hit =
    options.find((o) => o.value.toLowerCase() === wanted) ?? options.find((o) => o.label.toLowerCase() === wanted);
  if (hit) return { ok: true, value: hit.value };
  const list = options.slice(0, 12).map((o) => o.value);
  return noReading(
    `${label}: “${cutShort(text)}” is none of the choices; type one of ${list.join(', ')}${options.length > 12 ? ', …' : ''}.`,
  );
}

/** Outside the limits it is refused, outside the plausible range it is unusual. */
export function ranged(
  value: number,
  shown: (v: number) => string,
  q: { label: string; limits: readonly [number, number]; plausible?: readonly [number, number] | undefined },
): { refuse?: string; unusual?: string } {
  const [low, high] = q.limits;
  if (value < low || value > high)
    return {
      refuse: `${q.label}: ${shown(value)} is outside what can be; type a value from ${shown(low)} to ${shown(high)}.`,
    };
  if (q.plausible && (value < q.plausible[0] || value > q.plausible[1]))
    return {
      unusual: `${q.label}: ${shown(value)} is unusual; ${shown(q.plausible[0])} to ${shown(q.plausible[1])} is common. Read it once more.`,
    };
  return {};
}

export const noPick = 'it is none of the choices';

/** Looked up for each answer of a journal: a set is made once for each list of options. */
const words = new WeakMap<readonly Option[], ReadonlySet<unknown>>();

export function isPick(value: Answer | undefined, options: readonly Option[]): boolean {
  let known = words.get(options);
  if (!known) {
    known = new Set(options.map((o) => o.value));
    words.set(options, known);
  }
  return known.has(value);
}

/** Why a recorded figure can't be one of these limits. */
export function outside(
  value: unknown,
  [low, high]: readonly [number, number],
  shown: (v: number) => string,
): string | undefined {
  if (typeof value !== 'number' || !Number.isFinite(value)) return 'it is no number';
  return value < low || value > high ? `it is not from ${shown(low)} to ${shown(high)}` : undefined;
}
