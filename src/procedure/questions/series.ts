/** Several picks in a row, such as ball by ball. */
import type { Asked } from './base.js';
import { kindOfQuestion, type Option } from './kind.js';
import { isPick, noPick, noReading, pick } from './reading.js';

export interface Series extends Asked {
  kind: 'series';
  options: (Option & { alone?: boolean | undefined })[];
  least: number;
  most: number;
  each?: string | undefined;
}

/** Something that stands alone beside another answer, or twice where each can be said but once. */
function severalTrouble(q: Series, values: readonly string[]): string | undefined {
  const label = (value: string): string => q.options.find((o) => o.value === value)?.label ?? value;
  // Only a list of what was found has such an option; letters or balls one by one may well be alike.
  if (q.each !== undefined || !q.options.some((o) => o.alone)) return undefined;
  const alone = values.find((v) => q.options.find((o) => o.value === v)?.alone);
  if (alone !== undefined && values.length > 1)
    return `${q.label}: “${label(alone)}” can’t stand beside another answer; give it alone or leave it out.`;
  const twice = values.find((v, i) => values.indexOf(v) !== i);
  return twice === undefined ? undefined : `${q.label}: “${label(twice)}” stands there twice; give each once.`;
}

export const series = kindOfQuestion<Series>({
  schema: ({ z, asked, option, words }) =>
    z.strictObject({
      ...asked,
      kind: z.literal('series'),
      /** `alone`: this one stands by itself, such as "nothing". */
      options: z.array(option.extend({ alone: z.boolean().optional() })).min(2),
      least: z.number().int().positive(),
      most: z.number().int().positive(),
      each: words.optional().describe('what one of them is called, such as ball'),
    }),
  type: 'list<string>',
  control: 'series',
  read(q, text) {
    const items = text.split(/[,;\s]+/).filter(Boolean);
    const read = items.map((i) => pick(i, q.options, q.label));
    const bad = read.find((r) => !r.ok);
    if (bad) return bad;
    if (items.length < q.least || items.length > q.most)
      return noReading(
        `${q.label}: ${items.length} given; ${q.least} to ${q.most} are expected, such as ${q.options[0]?.value},${q.options[0]?.value}.`,
      );
    const values = read.map((r) => (r.ok ? String(r.value) : ''));
    const trouble = severalTrouble(q, values);
    return trouble === undefined ? { ok: true, value: values, typed: text } : noReading(trouble);
  },
  unfit(q, value) {
    if (!Array.isArray(value) || value.length < q.least || value.length > q.most)
      return `it is no list of ${q.least} to ${q.most}`;
    return value.every((v) => isPick(v, q.options)) ? undefined : noPick;
  },
  words: (q) => `${q.least} to ${q.most} of: ${q.options.map((o) => o.label).join(' / ')}`,
  options: (q) => q.options,
  check(q, { complain, path }) {
    if (q.least > q.most)
      complain(
        'limits-order',
        [...path, 'least'],
        `“${q.key}” asks for at least ${q.least} but at most ${q.most}.`,
        'Turn them round.',
      );
  },
});
