/**
 * How the half widths of readings pass through a formula, for calculators and for expressions of a procedure alike.
 * What one input contributes is half the span of the result over both ends of that input and its middle; where an end lies
 * outside the domain of the formula, the slope on the side that is left. The parts are added as a root of squares
 * (independent inputs: law of propagation in the Guide to the expression of uncertainty in measurement, JCGM 100, with its
 * numerical differences of 5.1.3). The ends see a clamp, a step or a valley that a slope at the middle does not.
 */
import type { Measured } from './types.js';

export interface Propagated {
  readonly value: number;
  /** Half width; absent when no input has one. */
  readonly plusMinus?: number;
  /** Name of the input that contributes most. */
  readonly dominant?: string;
}

type Numbers<T> = { readonly [K in keyof T]: number };
type Names = Readonly<Record<string, number>>;

/** Value of `f` at the inputs, with its half width and the input that dominates it. Unit: that of `f`. */
export function propagate<T extends Readonly<Record<string, Measured>>>(
  inputs: T,
  f: (x: Numbers<T>) => number,
): Propagated {
  const at: Record<string, number> = {};
  const widths: [name: string, half: number][] = [];
  for (const name of Object.keys(inputs)) {
    const { value, plusMinus } = inputs[name]!;
    at[name] = value;
    if (plusMinus !== undefined) widths.push([name, plusMinus]);
  }
  const value = f(at as Numbers<T>);
  if (widths.length === 0) return { value };
  return { value, ...halfWidth(f as (x: Names) => number, at, widths) };
}

/** Half width of `f` at `at`, whose inputs have these half widths, and the input that contributes most. Unit: that of `f`. */
export function halfWidth(
  f: (x: Names) => number,
  at: Names,
  widths: readonly (readonly [name: string, half: number])[],
): { readonly plusMinus: number; readonly dominant?: string } {
  let sum = 0;
  let most = 0;
  let dominant: string | undefined;
  for (const [name, half] of widths) {
    const part = contribution(f, at, name, half);
    sum += part * part;
    if (part > most) {
      most = part;
      dominant = name;
    }
  }
  return { plusMinus: Math.sqrt(sum), ...(dominant === undefined ? {} : { dominant }) };
}

/** Half the span over both ends and the middle; one-sided where a side lies outside the domain of the function. */
function contribution(f: (x: Names) => number, at: Names, name: string, half: number): number {
  if (half === 0) return 0;
  const x = at[name] ?? 0;
  const probe = (to: number): number => {
    try {
      return f({ ...at, [name]: to });
    } catch {
      return Number.NaN;
    }
  };
  const [up, here, down] = [probe(x + half), probe(x), probe(x - half)];
  if (!Number.isFinite(here)) return 0;
  if (Number.isFinite(up) && Number.isFinite(down)) return (Math.max(up, here, down) - Math.min(up, here, down)) / 2;
  // Small against both the value and its width, yet far above rounding.
  const step = Math.max(Math.abs(x) * 1e-6, half * 1e-4);
  const [above, below] = [probe(x + step), probe(x - step)];
  if (Number.isFinite(above) && Number.isFinite(below)) return (Math.abs(above - below) / (2 * step)) * half;
  if (Number.isFinite(above)) return (Math.abs(above - here) / step) * half;
  return Number.isFinite(below) ? (Math.abs(here - below) / step) * half : 0;
}
