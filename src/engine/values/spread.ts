/** How the half widths of readings pass through an expression: by the one way that the calculators take. */
import { halfWidth } from '../../calc/uncertainty.js';
import { isList } from '../../guards/guards.js';
import type { Answer } from '../journal/entry.js';
import type { Known } from './known.js';

type Run = (values: Record<string, Answer>) => Answer | undefined;

const numberOf = (run: Run, values: Record<string, Answer>): number => {
  const found = run(values);
  return typeof found === 'number' ? found : Number.NaN;
};

/** Half the span of an expression over the two ends of one value; 0 when it has no width or no number comes out. */
export function halfDifference(run: Run, values: Record<string, Answer>, name: string, part: Known): number {
  if (typeof part.value !== 'number' || typeof part.plusMinus !== 'number') return 0;
  return halfWidth((x) => numberOf(run, { ...values, ...x }), { [name]: part.value }, [[name, part.plusMinus]])
    .plusMinus;
}
/** Half width of an expression's value: root of the sum of squares; of a list one for each item. */
export function spreadOf(
  run: Run,
  values: Record<string, Answer>,
  parts: readonly (readonly [string, Known])[],
  value: Answer,
): number | readonly number[] | undefined {
  if (isList(value)) {
    const only = parts.length === 1 ? parts[0]?.[1].plusMinus : undefined;
    if (isList(only) && only.length === value.length) return only;
    // Of a list that was cut nobody knows which width belongs to which item: the widest holds for each.
    const widths = parts.flatMap(([, p]) => p.plusMinus ?? []);
    return widths.length ? value.map(() => Math.max(...widths)) : undefined;
  }
  if (typeof value !== 'number') return undefined;
  let sum = 0;
  for (const [name, p] of parts) sum += halfDifference(run, values, name, p) ** 2;
  return sum > 0 ? Math.sqrt(sum) : undefined;
}
