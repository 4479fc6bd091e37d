/**
 * First-order propagation of uncertainty: central differences and root sum of squares
 * (the law of propagation in the Guide to the expression of uncertainty in measurement, JCGM 100).
 * Holds for independent inputs and widths small enough that the function is nearly straight over them.
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

/** Value of `f` at the inputs, with its half width and the input that dominates it. Unit: that of `f`. */
export function propagate<T extends Readonly<Record<string, Measured>>>(
  inputs: T,
  f: (x: Numbers<T>) => number,
): Propagated {
  const names = Object.keys(inputs);
  const at: Record<string, number> = {};
  for (const name of names) at[name] = inputs[name]?.value ?? Number.NaN;
  const value = f(at as Numbers<T>);

  let sum = 0;
  let most = 0;
  let dominant: string | undefined;
  let known = false;
  for (const name of names) {
    const half = inputs[name]?.plusMinus;
    if (half === undefined) continue;
    known = true;
    if (half === 0) continue;
    const part = Math.abs(slope(f as (x: Record<string, number>) => number, at, name, half)) * half;
    sum += part * part;
    if (part > most) {
      most = part;
      dominant = name;
    }
  }
  if (!known) return { value };
  return { value, plusMinus: Math.sqrt(sum), ...(dominant === undefined ? {} : { dominant }) };
}

/** Central difference; one-sided where a side lies outside the domain of the function. */
function slope(
  f: (x: Record<string, number>) => number,
  at: Readonly<Record<string, number>>,
  name: string,
  half: number,
): number {
  const x = at[name] ?? 0;
  // Small against both the value and its width, yet far above rounding.
  const step = Math.max(Math.abs(x) * 1e-6, half * 1e-4);
  const probe = (to: number): number => {
    try {
      return f({ ...at, [name]: to });
    } catch {
      return Number.NaN;
    }
  };
  const [up, down] = [probe(x + step), probe(x - step)];
  if (Number.isFinite(up) && Number.isFinite(down)) return (up - down) / (2 * step);
  const here = probe(x);
  if (Number.isFinite(up)) return (up - here) / step;
  return Number.isFinite(down) ? (here - down) / step : 0;
}
