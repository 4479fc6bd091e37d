/** Decisions that their own last answer would reopen at once. */
import type { Complain } from './problem.js';
import { partsOf } from './questions/index.js';
import type { Procedure } from './schema.js';

export function checkDecisions(p: Procedure, needs: ReadonlyMap<string, readonly string[]>, complain: Complain): void {
  const hangs = (key: string, on: string): boolean => {
    const seen = new Set<string>();
    const open = [key];
    for (let k = open.pop(); k !== undefined; k = open.pop()) {
      if (k === on) return true;
      if (seen.has(k)) continue;
      seen.add(k);
      open.push(...(needs.get(k) ?? []));
    }
    return false;
  };
  p.steps.forEach((s, i) => {
    // The figures are kept with the last answer, as they were just before it.
    const last = s.ask?.at(-1);
    if (!s.decision || !last) return;
    const own = [last.key, ...partsOf(last)];
    (s.rests_on ?? []).forEach((key, j) => {
      if (own.some((o) => hangs(key, o)))
        complain(
          ['steps', i, 'rests_on', j],
          `The decision “${s.id}” rests on “${key}”, which its own answer “${last.key}” changes.`,
          'Let it rest on what was known before.',
        );
    });
  });
}
