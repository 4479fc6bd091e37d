/** A number without a unit, or with a word behind it such as hours. */
import { parseQuantity } from '../../units/parse.js';
import type { Asked } from './base.js';
import { kindOfQuestion } from './kind.js';
import { cutShort, noReading, outside, ranged } from './reading.js';

export interface BareNumber extends Asked {
  kind: 'number';
  whole?: boolean | undefined;
  units?: string[] | undefined;
  plausible?: [number, number] | undefined;
  limits: [number, number];
  plus_minus?: number | undefined;
}

export const number = kindOfQuestion<BareNumber>({
  schema: ({ z, asked, words, plausible, limits, plus_minus }) =>
    z.strictObject({
      ...asked,
      kind: z.literal('number'),
      whole: z.boolean().optional(),
      /** Any other word behind the number is refused. */
      units: z.array(words).min(1).optional().describe('words that may stand behind the number, such as hours and h'),
      plausible,
      limits,
      plus_minus,
    }),
  type: 'double',
  control: 'figures',
  read(q, text) {
    const bare = withoutUnit(text, q.units);
    if (bare.strange !== undefined) return noReading(`${q.label}: ${bare.strange}`);
    const read = parseQuantity(bare.text, q.whole ? 'count' : 'ratio');
    if (!read.ok) return noReading(`${q.label}: ${read.message}`);
    const thousands = q.whole ? undefined : twoWays(text, q.limits);
    if (thousands) return noReading(`${q.label}: ${thousands}`);
    const r = ranged(read.value, (v) => String(v), q);
    if (r.refuse) return noReading(r.refuse);
    return { ok: true, value: read.value, typed: text, plusMinus: read.plusMinus, unusual: r.unusual };
  },
  unfit(q, value) {
    if (q.whole && !Number.isInteger(value)) return 'it is no whole number';
    return outside(value, q.limits, String);
  },
  words: (q) => `${q.whole ? 'a whole number' : 'a number'}${q.units ? ` of ${q.units[0]}` : ''}`,
  range: (q) => q.limits,
  tried: true,
});

/** `1.200` is refused where twelve hundred could be meant as well as one and a fifth. */
function twoWays(text: string, [low, high]: readonly [number, number]): string | undefined {
  const m = /^\s*(\d{1,3})\.(\d{3})\s*$/.exec(text);
  if (!m) return undefined;
  const [asPoint, asThousands] = [Number(text), Number(`${m[1]}${m[2]}`)];
  if (asThousands < low || asThousands > high || asPoint < low) return undefined;
  return `“${cutShort(text.trim())}” can mean ${asThousands} or ${asPoint}; type ${asThousands} or ${asPoint}.`;
}

/** The number without the word behind it, or what is wrong with that word. */
function withoutUnit(text: string, units: readonly string[] = []): { text: string; strange?: string } {
  const [, number = text, word] = /^(.*\d)\s*(\p{L}[\p{L}.]*)\s*$/u.exec(text) ?? [];
  if (word === undefined || units.some((u) => u.toLowerCase() === word.toLowerCase())) return { text: number };
  const wanted = units[0] === undefined ? `a bare number such as ${number}` : `a number of ${units[0]}`;
  return { text, strange: `“${cutShort(word)}” does not belong behind it; type ${wanted}.` };
}
