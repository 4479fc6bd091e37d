/** Two or three lengths typed in one go; the asked key holds the list, each part is a key of its own. */
import { canonicalUnit } from '../../units/kinds.js';
import { parseDimensions } from '../../units/parse.js';
import { showQuantity } from '../../units/show.js';
import type { Asked } from './base.js';
import { kindOfQuestion } from './kind.js';
import { noReading, outside, ranged } from './reading.js';

export interface Dimensions extends Asked {
  kind: 'dimensions';
  parts: string[];
  unit: string;
  kept_in?: string | undefined;
  limits: [number, number];
  plausible?: [number, number] | undefined;
  plus_minus?: number | undefined;
}

const shown = (v: number): string => showQuantity(v, 'length', { unit: canonicalUnit.length });

export const dimensions = kindOfQuestion<Dimensions>({
  schema: ({ z, asked, key, kept_in, plausible, limits, plus_minus }) =>
    z.strictObject({
      ...asked,
      kind: z.literal('dimensions'),
      /** The asked key itself holds the list; each part is a key of its own. */
      parts: z.array(key).min(2).max(3),
      unit: z.string(),
      kept_in,
      limits,
      plausible,
      plus_minus,
    }),
  type: 'list<double>',
  control: 'lengths',
  read(q, text) {
    const read = parseDimensions(text, q.parts.length, q.unit);
    if (!read.ok) return noReading(`${q.label}: ${read.message}`);
    let unusual: string | undefined;
    for (const v of read.values) {
      const r = ranged(v, shown, q);
      if (r.refuse) return noReading(r.refuse);
      unusual ??= r.unusual;
    }
    return { ok: true, value: read.values, typed: text, unusual };
  },
  unfit(q, value) {
    if (!Array.isArray(value) || value.length !== q.parts.length) return `it is not ${q.parts.length} lengths`;
    return value.map((v) => outside(v, q.limits, shown)).find((why) => why !== undefined);
  },
  words: (q) => `${q.parts.length} lengths in ${q.unit}`,
  quantity: () => 'length',
  unit: (q) => q.unit,
  range: (q) => q.limits,
  parts: (q) => q.parts,
  check: (q, { unit, path }) => unit(q.unit, 'length', [...path, 'unit']),
});
