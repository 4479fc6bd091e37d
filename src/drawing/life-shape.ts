/** A figure of a rotor over the years: a line for each bearing, and what was done when. */
import { numberOf, numbersOf, type PictureValues, pictureWords, wordOf } from './picture.js';
import type { DrawnCurve } from './run-in-shape.js';

export interface LifeShape {
  readonly curves: readonly DrawnCurve[];
  /** Days from the first event to the last, at least 1. */
  readonly end: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly events: readonly { readonly at: number; readonly mark: string }[];
  /** First and last day in words. */
  readonly from: string;
  readonly to: string;
}

/** What a scale can be drawn for: days of two centuries, values of any figure that is measured. */
const sane = { days: 80_000, value: 1e7 } as const;
const dayIn = (x: number): boolean => x >= 0 && x <= sane.days;

/** Undefined while there is nothing to draw. What is outside what can be is left out. */
export function lifeShape(values: PictureValues): LifeShape | undefined {
  const curves = ['', '_2'].flatMap((tail, i): DrawnCurve[] => {
    const [days, levels] = [numbersOf(values, `days${tail}`), numbersOf(values, `level${tail}`)];
    const n = Math.min(days.length, levels.length);
    const points = Array.from({ length: n }, (_, k) => ({ x: days[k] ?? 0, y: levels[k] ?? 0 })).filter(
      (p) => dayIn(p.x) && Math.abs(p.y) <= sane.value,
    );
    return points.length ? [{ name: wordOf(values, `name${tail}`) ?? (i ? 'second bearing' : 'value'), points }] : [];
  });
  if (!curves.length) return undefined;
  const marks = pictureWords(values, 'event_marks');
  const at = numbersOf(values, 'event_days');
  const ys = curves.flatMap((c) => c.points.map((p) => p.y));
  const [least, most] = [Math.min(...ys), Math.max(...ys)];
  const margin = Math.max((most - least) * 0.1, Math.abs(most) * 0.02, 0.1);
  return {
    curves,
    end: Math.max(
      1,
      ...[numberOf(values, 'end') ?? 0, ...at].filter(dayIn),
      ...curves.flatMap((c) => c.points.map((p) => p.x)),
    ),
    low: least >= 0 ? Math.max(0, least - margin) : least - margin,
    high: most + margin,
    unit: wordOf(values, 'unit') ?? '',
    events: marks
      .slice(0, at.length)
      .map((mark, k) => ({ at: at[k] ?? 0, mark: [...mark].slice(0, 2).join('') }))
      .filter((e) => dayIn(e.at)),
    from: wordOf(values, 'from') ?? '',
    to: wordOf(values, 'to') ?? '',
  };
}
