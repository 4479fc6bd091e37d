/** A measured value with a unit. */
import type { QuantityKind } from '../../units/kinds.js';
import { parseQuantity } from '../../units/parse.js';
import { showQuantity } from '../../units/show.js';
import type { Asked } from './base.js';
import { kindOfQuestion } from './kind.js';
import { noReading, outside, ranged } from './reading.js';

export interface Quantity extends Asked {
  kind: 'quantity';
  quantity: QuantityKind;
  unit: string;
  kept_in?: string | undefined;
  plausible?: [number, number] | undefined;
  limits: [number, number];
  plus_minus?: number | undefined;
  no_more_than?: string | undefined;
  wanted?: string | undefined;
  near?: string | undefined;
}

/** Three figures are enough for a bound that was worked out. */
const rough = (value: number, shown: (v: number) => string): string => shown(Number(value.toPrecision(3)));

export const quantity = kindOfQuestion<Quantity>({
  schema: ({ z, asked, cel, quantity, kept_in, plausible, limits, plus_minus }) =>
    z.strictObject({
      ...asked,
      kind: z.literal('quantity'),
      quantity,
      unit: z.string().describe('unit of a bare number'),
      kept_in,
      plausible,
      limits,
      plus_minus,
      no_more_than: cel.optional().describe('more than this cannot be; refused while it is typed'),
      near: cel
        .optional()
        .describe(
          'the reading before: in the brisk pace a figure is complete with its tenth, and the point may be left out where only that can be meant',
        ),
      wanted: cel.optional().describe('what was asked for; below half and above twice of it the guide asks once more'),
    }),
  type: 'double',
  control: 'measure',
  read(q, text, _tables, { most, wanted }) {
    const read = parseQuantity(text, q.quantity, q.unit);
    if (!read.ok) return noReading(`${q.label}: ${read.message}`);
    const shown = (v: number): string => showQuantity(v, q.quantity);
    const r = ranged(read.value, shown, q);
    if (r.refuse) return noReading(r.refuse);
    if (most !== undefined && read.value > most * (1 + 1e-9))
      return noReading(
        `${q.label}: ${shown(read.value)} cannot be; there is ${rough(most, shown)} at most. Look at the point and the unit, and type it again.`,
      );
    const far = wanted !== undefined && wanted > 0 && (read.value > 2 * wanted || read.value < 0.5 * wanted);
    const unusual = far
      ? `${q.label}: ${shown(read.value)} is far from the ${rough(wanted, shown)} that was asked for. Measure once more.`
      : r.unusual;
    return { ok: true, value: read.value, typed: text, plusMinus: read.plusMinus, unusual };
  },
  unfit: (q, value) => outside(value, q.limits, (v) => showQuantity(v, q.quantity)),
  words: (q) => `a ${q.quantity}${q.unit ? ` in ${q.unit}` : ''}`,
  quantity: (q) => q.quantity,
  unit: (q) => q.unit,
  range: (q) => q.limits,
  tried: true,
  bounds: (q) => ({ most: q.no_more_than, wanted: q.wanted, near: q.near }),
  check(q, { unit, expression, path }) {
    unit(q.unit, q.quantity, [...path, 'unit']);
    for (const name of ['no_more_than', 'wanted', 'near'] as const)
      expression(q[name], 'double', [...path, name], q.quantity);
  },
});
