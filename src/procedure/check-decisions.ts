/** Decisions that their own answers would reopen at once. */
import type { Environment } from '@marcbachmann/cel-js';
import type { Calculator } from '../calc/types.js';
import { isNode, nodesOf } from './expression.js';
import type { KeyInfo } from './model.js';
import type { Complain } from './problem.js';
import { partsOf, type Question } from './questions/index.js';
import type { Procedure } from './schema.js';

interface Around {
  readonly keys: ReadonlyMap<string, KeyInfo>;
  /** Which other keys each key reads. */
  readonly needs: ReadonlyMap<string, readonly string[]>;
  readonly env: Environment;
  readonly calculators: Readonly<Record<string, Calculator>>;
}

const keysOf = (q: Question): readonly string[] => [q.key, ...partsOf(q)];

export function checkDecisions(p: Procedure, around: Around, complain: Complain): void {
  p.steps.forEach((s, i) => {
    const asks = s.ask ?? [];
    if (!s.decision) return;
    (s.rests_on ?? []).forEach((key, j) => {
      // Each answer keeps the figures as they were just before it: one that is known then and moves with this or a later
      // answer of the same step asks for the earlier answers once more.
      const own = asks.find(
        (q) => keysOf(q).some((k) => hangs(around, key, k)) && (q === asks.at(-1) || knownWithout(around, key, q)),
      );
      if (own)
        complain(
          'decision-reopens-itself',
          ['steps', i, 'rests_on', j],
          `The decision “${s.id}” rests on “${key}”, which its own answer “${own.key}” changes.`,
          'Let it rest on what was known before, or ask that in a step of its own before.',
        );
    });
  });
}

function hangs({ needs }: Around, key: string, on: string): boolean {
  const seen = new Set<string>();
  const open = [key];
  for (let k = open.pop(); k !== undefined; k = open.pop()) {
    if (k === on) return true;
    if (seen.has(k)) continue;
    seen.add(k);
    open.push(...(needs.get(k) ?? []));
  }
  return false;
}

/** Whether a figure can be known while a question is not answered: a calculator may have a value of its own instead. */
function knownWithout({ keys, env, calculators }: Around, figure: string, q: Question): boolean {
  const open = new Set<string>();
  const text = (source: string | undefined): boolean => {
    if (source === undefined) return true;
    try {
      return node(env.parse(source).ast);
    } catch {
      return false;
    }
  };
  const node = (n: unknown): boolean => {
    if (Array.isArray(n)) return n.every(node);
    if (!isNode(n)) return true;
    if (n.op === 'id') return key(String(n.args));
    const [a, b, c] = nodesOf(n);
    if (n.op === '?:') return node(a) && (node(b) || node(c));
    if (n.op === '&&' || n.op === '||') return node(a) || node(b);
    return node(n.args);
  };
  const key = (name: string): boolean => {
    const from = keys.get(name)?.from;
    if (from?.by === 'question') return from.question.key !== q.key || q.otherwise !== undefined;
    if (open.has(name) || !from) return true;
    open.add(name);
    const known =
      from.by === 'fact'
        ? 'over' in from.fact || (text(from.fact.is) && text(from.fact.when))
        : from.by === 'calc'
          ? Object.entries(from.use.with).every(([input, source]) => {
              const calc = Object.hasOwn(calculators, from.use.calc) ? calculators[from.use.calc] : undefined;
              return calc?.inputs[input]?.optional === true || text(source);
            })
          : true;
    open.delete(name);
    return known;
  };
  return key(figure);
}
