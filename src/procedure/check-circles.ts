/** Finds values that depend on themselves, directly or round a corner. */
import type { Environment } from '@marcbachmann/cel-js';
import { compile } from './expression.js';
import type { KeyInfo } from './model.js';
import type { Complain, Path } from './problem.js';
import type { Procedure, Step } from './schema.js';

/** Which other keys each key reads, in its own rule and its conditions. */
export function needsOf(keys: ReadonlyMap<string, KeyInfo>, env: Environment): ReadonlyMap<string, readonly string[]> {
  const reads = (texts: readonly (string | undefined)[]): string[] =>
    texts.flatMap((t) => {
      if (t === undefined) return [];
      try {
        return [...compile(() => env, t).names];
      } catch {
        return [];
      }
    });
  const needs = new Map<string, string[]>();
  for (const [key, info] of keys) {
    const f = info.from;
    if (f.by === 'fact')
      needs.set(
        key,
        'over' in f.fact ? reads([f.fact.all, f.fact.any, f.fact.count, f.fact.list]) : reads([f.fact.is, f.fact.when]),
      );
    else if (f.by === 'calc') needs.set(key, reads([f.use.when, ...Object.values(f.use.with)]));
    else if (f.by === 'question') needs.set(key, reads([f.question.when, f.step.when]));
  }
  return needs;
}

export function checkCircles(
  p: Procedure,
  keys: ReadonlyMap<string, KeyInfo>,
  needs: ReadonlyMap<string, readonly string[]>,
  /** Steps whose conditions were complained of already. */
  late: ReadonlySet<Step>,
  complain: Complain,
): void {
  const pathOf = (key: string): Path => {
    const f = keys.get(key)?.from;
    if (f?.by === 'fact') return ['facts', (p.facts ?? []).indexOf(f.fact)];
    if (f?.by === 'calc') return ['calcs', (p.calcs ?? []).indexOf(f.use)];
    if (f?.by === 'question') return ['steps', p.steps.indexOf(f.step)];
    return [];
  };
  const state = new Map<string, 'open' | 'clear'>();
  const reported = new Set<string>();
  const visit = (key: string, trail: readonly string[]): void => {
    if (state.get(key) === 'clear') return;
    if (state.get(key) === 'open') {
      const circle = trail.slice(trail.indexOf(key));
      const id = [...circle].sort().join();
      const told = circle.every((k) => {
        const from = keys.get(k)?.from;
        return from?.by === 'question' && late.has(from.step);
      });
      if (!told && !reported.has(id)) {
        reported.add(id);
        complain(
          'value-circle',
          pathOf(key),
          `The value “${key}” depends on itself: ${[...circle, key].join(' needs ')}.`,
          'Break the circle.',
        );
      }
      return;
    }
    state.set(key, 'open');
    for (const n of needs.get(key) ?? []) visit(n, [...trail, key]);
    state.set(key, 'clear');
  };
  for (const key of keys.keys()) visit(key, []);
}
