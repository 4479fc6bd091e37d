/** Rows "at a limit, just below, just above it" for one calculator: what was worked out by hand, and what it must say. */
import { expect, it } from 'vitest';
import { calc, refusal } from './support.js';

/** A number within 0.05 %, one with its half width (2 %) and the input it is mostly from, a word, a list; undefined: not there. */
type Expected =
  | number
  | readonly [value: number, half: number, from?: string]
  | string
  | boolean
  | readonly string[]
  | undefined;
type Row = readonly [
  line: string,
  results: Readonly<Record<string, Expected>>,
  /** A few words of each warning, of all of them, in their order. */
  mind?: readonly string[],
  /** Every worked line, whole. */
  worked?: readonly string[],
];

const isPair = (expected: Expected): expected is readonly [number, number, string?] =>
  Array.isArray(expected) && typeof expected[0] === 'number';

function closeTo(found: unknown, expected: number, share: number, what: string): void {
  expect(typeof found, what).toBe('number');
  expect(Math.abs(Number(found) - expected), `${what}: ${found}, by hand ${expected}`).toBeLessThanOrEqual(
    Math.abs(expected) * share,
  );
}

export function holds(rows: readonly Row[]): void {
  for (const [line, results, mind, worked] of rows) it(line, () => check(line, results, mind, worked));
}

function check(...[line, results, mind, worked]: Row): void {
  const found = calc(line);
  for (const [key, expected] of Object.entries(results)) {
    const result = found.results[key];
    if (isPair(expected)) {
      closeTo(result?.value, expected[0], 0.0005, key);
      closeTo(result?.plusMinus, expected[1], 0.02, `half width of ${key}`);
      if (expected[2] !== undefined) expect(result?.dominant, `${key} is mostly from`).toBe(expected[2]);
    } else if (typeof expected === 'number') closeTo(result?.value, expected, 0.0005, key);
    else expect(result?.value, key).toEqual(expected);
  }
  if (mind) {
    expect(found.warnings, found.warnings.join('\n')).toHaveLength(mind.length);
    mind.forEach((words, i) => expect(found.warnings[i]).toContain(words));
  }
  if (worked) expect((found as unknown as { worked: readonly string[] }).worked).toEqual(worked);
}

export function refuses(rows: readonly (readonly [line: string, key: string, words: string])[]): void {
  it.each(rows)('refuses %s', (line, key, words) => {
    const said = refusal(line);
    expect(said.startsWith(`${key}: `), said).toBe(true);
    expect(said).toContain(words);
  });
}

/** `temp=5 load=`: the whole line with one input changed and one left out. */
export function changed(name: string, base: Readonly<Record<string, string>>, change: string): string {
  const all = { ...base };
  for (const pair of change.split(' ').filter((part) => part !== '')) {
    const [key = '', to = ''] = pair.split('=');
    if (to === '') delete all[key];
    else all[key] = to;
  }
  return [name, ...Object.entries(all).map(([key, to]) => `${key}=${to}`)].join(' ');
}
