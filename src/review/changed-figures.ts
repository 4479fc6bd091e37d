/** Which figures are worked out differently in another version of a procedure, directly or through others. */
import { parse } from '@marcbachmann/cel-js';
import { walk } from '../procedure/expression.js';
import type { Procedure } from '../procedure/schema.js';

interface Rule {
  readonly rule: string;
  readonly reads: readonly string[];
}

/** Keys of the new version; those that the old one does not have count as changed. */
export function changedFigureKeys(before: Procedure, after: Procedure): ReadonlySet<string> {
  const [old, now] = [rulesOf(before), rulesOf(after)];
  const changed = new Set([...now].filter(([key, r]) => old.get(key)?.rule !== r.rule).map(([key]) => key));
  for (let grown = true; grown; ) {
    grown = false;
    for (const [key, r] of now)
      if (!changed.has(key) && r.reads.some((k) => changed.has(k))) {
        changed.add(key);
        grown = true;
      }
  }
  return changed;
}

function rulesOf(p: Procedure): Map<string, Rule> {
  const out = new Map<string, Rule>();
  for (const f of p.facts ?? []) {
    const texts = 'over' in f ? [f.all, f.any, f.count, f.list] : [f.is, f.when];
    const { label: _, ...rule } = f;
    out.set(f.key, { rule: JSON.stringify(rule), reads: names(texts) });
  }
  for (const c of p.calcs ?? [])
    for (const [result, key] of Object.entries(c.gives))
      out.set(key, {
        rule: JSON.stringify([c.calc, c.at, c.when, c.with, result]),
        reads: names([c.when, ...Object.values(c.with)]),
      });
  return out;
}

function names(texts: readonly (string | undefined)[]): string[] {
  const out = new Set<string>();
  for (const t of texts) {
    if (t === undefined) continue;
    try {
      walk(parse(t).ast, (n) => {
        if (n.op === 'id') out.add(String(n.args));
      });
    } catch {
      // What can't be read reads nothing.
    }
  }
  return [...out];
}
