/** The run-in log as curves: temperature over minutes, stages and the limit. */
import { numberOf, numbersOf, type PictureValues, wordOf } from './picture.js';

export interface DrawnCurve {
  readonly name: string;
  readonly points: readonly { readonly x: number; readonly y: number }[];
}
export interface RunInShape {
  readonly curves: readonly DrawnCurve[];
  readonly limit: number | undefined;
  /** Minutes at which a stage begins. */
  readonly stages: readonly { readonly at: number; readonly stage: number; readonly speed?: number }[];
  readonly end: number;
  readonly low: number;
  readonly high: number;
}

/** What a log of a bearing can hold; beyond it a scale can't be drawn. degC and minutes. */
const sane = { temp: [-300, 2000], minutes: [0, 1e6] } as const;
const within = (x: number | undefined, [low, high]: readonly [number, number]): boolean =>
  x !== undefined && x >= low && x <= high;

/** So far under the limit a low drawing leaves it out, K: it would press the curves flat. */
const farBelow = 15;

/**
 * Undefined while there is nothing to draw. Readings outside what can be are left out. `close`: the scale keeps close to the
 * readings, for a drawing of a few lines.
 */
export function runInShape(values: PictureValues, close = false): RunInShape | undefined {
  const minutes = numbersOf(values, 'minutes');
  const curves = ['', '_2'].flatMap((tail, i) => {
    const temps = numbersOf(values, `temp${tail}`);
    const n = Math.min(temps.length, minutes.length);
    if (n === 0) return [];
    const points = Array.from({ length: n }, (_, k) => ({ x: minutes[k] ?? 0, y: temps[k] ?? 0 })).filter(
      (p) => within(p.x, sane.minutes) && within(p.y, sane.temp),
    );
    if (!points.length) return [];
    return [{ name: wordOf(values, `name${tail}`) ?? (i ? 'second bearing' : 'temperature'), points }];
  });
  if (!curves.length) return undefined;
  const stop = numberOf(values, 'limit');
  const limit = within(stop, sane.temp) ? stop : undefined;
  const stage = numbersOf(values, 'stages');
  // Speed of each stage, rpm; stage 1 is the first.
  const speeds = numbersOf(values, 'speeds');
  const stages = stage.flatMap((s, i) =>
    i < minutes.length && within(minutes[i], sane.minutes) && s !== stage[i - 1]
      ? [{ at: minutes[i] ?? 0, stage: s, ...(speeds[s - 1] === undefined ? {} : { speed: speeds[s - 1] }) }]
      : [],
  );
  const read = curves.flatMap((c) => c.points.map((p) => p.y));
  const shown = limit !== undefined && (!close || Math.max(...read) > limit - farBelow);
  const ys = shown ? [...read, limit] : read;
  const step = close ? 5 : 10;
  const low = Math.floor(Math.min(...ys) / step) * step;
  const high = Math.ceil((Math.max(...ys) + 1) / step) * step;
  const end = Math.max(1, ...curves.flatMap((c) => c.points.map((p) => p.x)));
  return { curves, limit, stages, end, low, high: high > low ? high : low + 10 };
}

/** Temperature at a minute on straight lines between readings; undefined outside the log. */
export function at(curve: DrawnCurve, x: number): number | undefined {
  const p = curve.points;
  const i = p.findIndex((q) => q.x >= x);
  const b = p[i];
  if (!b) return undefined;
  const a = p[i - 1];
  if (!a) return b.x === x ? b.y : undefined;
  return b.x === a.x ? b.y : a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
}
