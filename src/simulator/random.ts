/** Numbers that look drawn by chance and are the same each time: one stream for a seed. */

export interface Random {
  /** Evenly from `low` to `high`. */
  readonly between: (low: number, high: number) => number;
  /** Evenly on a logarithmic scale. */
  readonly ratio: (low: number, high: number) => number;
  /** Normal, mean 0 and standard deviation 1. */
  readonly normal: () => number;
  /** True with this probability. */
  readonly chance: (p: number) => boolean;
}

/** Numbers from 0 to 1, below 1: a 32-bit counter, stirred (mulberry32). Good for drawing rotors, not for secrets. */
export function uniformOf(from: number): () => number {
  let state = from | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let x = Math.imul(state ^ (state >>> 15), state | 1);
    x ^= x + Math.imul(x ^ (x >>> 7), x | 61);
    return ((x ^ (x >>> 14)) >>> 0) / 4294967296;
  };
}

export function randomOf(seed: number): Random {
  const next = uniformOf(Math.imul(seed | 0, 0x9e3779b1) ^ 0x5bf03635);
  const between = (low: number, high: number): number => low + (high - low) * next();
  return {
    between,
    ratio: (low, high) => low * (high / low) ** next(),
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    chance: (p) => next() < p,
  };
}
