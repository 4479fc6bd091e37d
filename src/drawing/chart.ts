/** A curve as a grid of characters, on a scale that several curves share. */
import asciichart from 'asciichart';
import { at, type DrawnCurve } from './run-in-shape.js';

// In the order that asciichart wants: crossing, axis, unused, unused, level, corners, upright.
const thin = ['┼', '┤', '╶', '╴', '─', '╰', '╭', '╮', '╯', '│'];
const thick = ['┼', '┤', '╶', '╴', '━', '┗', '┏', '┓', '┛', '┃'];
const plain = ['+', '|', '-', '-', '-', '`', '.', '.', "'", '|'];
const double = ['+', '|', '=', '=', '=', '`', '.', '.', "'", '|'];

export const symbols = (ascii: boolean, i: number): string[] =>
  (ascii ? [plain, double] : [thin, thick])[i ? 1 : 0] ?? thin;

interface Scale {
  readonly low: number;
  readonly high: number;
  /** Where the axis ends, from 0. */
  readonly end: number;
  /** Columns of the scale at the left, the axis included. */
  readonly left: number;
  readonly format: (x: number) => string;
}

export function chart(curve: DrawnCurve, s: Scale, columns: number, rows: number, marks: string[]): string[][] {
  const first = curve.points[0]?.y ?? s.low;
  const last = curve.points.at(-1);
  const series = Array.from({ length: columns }, (_, i) => {
    const x = (i / (columns - 1)) * s.end;
    return at(curve, x) ?? (last && x > last.x ? last.y : first);
  });
  const text = asciichart.plot(series, {
    height: rows - 1,
    min: s.low,
    max: s.high,
    // One cell for the number and one for the axis, whatever the number's length.
    offset: 2,
    format: s.format,
    symbols: marks,
  });
  return text.split('\n').map((line) => [...line]);
}

/** Later charts over earlier ones; the scale is the same in all. */
export function overlay(charts: readonly string[][][], left: number): string[][] {
  const [base = [], ...over] = charts;
  for (const chart of over)
    chart.forEach((row, y) => {
      row.forEach((c, x) => {
        const to = base[y];
        if (to && x >= left && c !== ' ') to[x] = c;
      });
    });
  return base;
}
