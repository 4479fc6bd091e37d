/**
 * Tries out a condition with everything that its values can be. Only conditions over choices, yes-no values and
 * numbers compared with written numbers can be tried to the end; of any other nothing is claimed.
 */
import type { Environment } from '@marcbachmann/cel-js';
import type { Calculator, Inputs, Tables } from '../calc/types.js';
import type { Answer } from './answer.js';
import { type CelNode, compile, type Expression, nodesOf, walk } from './expression.js';
import type { KeyInfo } from './model.js';
import { kindOf, rangeOf } from './questions/index.js';
import type { CalcUse } from './schema.js';

export interface ConditionTrial {
  /**
   * It can come out true, or at least false; undefined when it can't be tried to the end. With `fixed` these questions
   * have one answer, calculators are worked with what can be tried, and facts gathered from below are those of one place.
   */
  readonly can: (
    text: string,
    missing: (key: string) => boolean,
    fixed?: ReadonlyMap<string, Answer>,
  ) => Outcomes | undefined;
  /** Questions, facts and results that a condition reads, directly or through others. */
  readonly reads: (text: string) => ReadonlySet<string>;
}
interface Outcomes {
  readonly true: boolean;
  /** These are tried only as long as it was never true. */
  readonly false: boolean;
  readonly unsettled: boolean;
}

const MOST_CASES = 20_000;
const MOST_VALUES = 80;

interface Plan {
  /** Values to try, by key. */
  readonly leaves: Map<string, readonly Answer[]>;
  /** Facts and results to work out, innermost first. */
  readonly facts: Map<string, Pick<Expression, 'run'>>;
}

export function trialFor(
  keys: ReadonlyMap<string, KeyInfo>,
  env: Environment,
  tables: Tables,
  sound: (text: string) => boolean,
  calculators: Readonly<Record<string, Calculator>> = {},
): ConditionTrial {
  const plan = (
    text: string,
    missing: (key: string) => boolean,
    fixed?: ReadonlyMap<string, Answer>,
  ): (Plan & { run: Expression }) | undefined => {
    const leaves = new Map<string, readonly Answer[]>();
    const facts: Plan['facts'] = new Map();
    const numbers = new Map<string, number[]>();
    const open = new Set<string>();
    const read = (source: string): Expression | undefined => {
      const e = compile(() => env, source);
      const ast = env.parse(source).ast;
      const compared = comparedNumbers(ast);
      for (const name of e.names) {
        const info = keys.get(name);
        if (!info || open.has(name) || open.size > 40) return undefined;
        const from = info.from;
        const given = fixed?.get(name);
        if (given !== undefined) {
          leaves.set(name, [given]);
          continue;
        }
        if (fixed && from.by === 'fact' && 'over' in from.fact && !facts.has(name)) {
          const source = from.fact.all ?? from.fact.any;
          open.add(name);
          const inner = source !== undefined && sound(source) ? read(source) : undefined;
          open.delete(name);
          if (inner) facts.set(name, inner);
        }
        if (fixed && from.by === 'calc' && !facts.has(name) && !leaves.has(name)) {
          open.add(name);
          const worked = result(from.use, from.result);
          open.delete(name);
          if (worked) facts.set(name, worked);
        }
        if (from.by === 'fact' && !('over' in from.fact) && !from.fact.when && !facts.has(name)) {
          open.add(name);
          const inner = sound(from.fact.is) ? read(from.fact.is) : undefined;
          open.delete(name);
          if (!inner) return undefined;
          facts.set(name, inner);
        } else if (info.type === 'double' && !facts.has(name)) {
          const found = compared.get(name);
          if (!found) return undefined;
          numbers.set(name, [...(numbers.get(name) ?? []), ...found]);
        }
        if (!facts.has(name) && info.type !== 'double' && !leaves.has(name)) {
          const values = finite(info, missing(name));
          if (!values) return undefined;
          leaves.set(name, values);
        }
      }
      return e;
    };
    /** A result whose inputs are all words and yes-no values; undefined for any other. */
    const result = (use: CalcUse, name: string): Pick<Expression, 'run'> | undefined => {
      const calculator = Object.hasOwn(calculators, use.calc) ? calculators[use.calc] : undefined;
      if (!calculator || use.when !== undefined) return undefined;
      const inputs: [string, Expression][] = [];
      for (const [key, source] of Object.entries(use.with)) {
        const type = calculator.inputs[key]?.type;
        const inner = type === 'choice' || type === 'flag' ? sound(source) && read(source) : undefined;
        if (!inner) return undefined;
        inputs.push([key, inner]);
      }
      return {
        run(values) {
          try {
            const given = inputs.map(([key, e]) => [key, e.run(values)] as const);
            return calculator.run(Object.fromEntries(given) as Inputs, tables).results[name]?.value;
          } catch {
            return undefined;
          }
        },
      };
    };
    const run = sound(text) ? read(text) : undefined;
    if (!run) return undefined;
    for (const [name, found] of numbers) {
      const values = sampled(keys.get(name), found, missing(name));
      if (!values) return undefined;
      leaves.set(name, values);
    }
    return { leaves, facts, run };
  };

  /** All that a value with an end can be; empty when it is missing. */
  const finite = (info: KeyInfo, missing: boolean): readonly Answer[] | undefined => {
    const from = info.from;
    if (from.by === 'question') {
      if (from.part !== undefined) return undefined;
      const q = from.question;
      const rest = q.otherwise === undefined ? [] : [q.otherwise];
      if (missing) return rest;
      const all = kindOf(q).all?.(q, tables);
      if (info.type === 'bool') return all;
      return all && all.length <= MOST_VALUES ? [...all, ...rest] : undefined;
    }
    if (info.words && info.type === 'string') return info.words;
    return info.type === 'bool' && from.by !== 'rows' ? [true, false] : undefined;
  };

  /** Numbers at and around those that it is compared with, inside its limits. */
  const sampled = (info: KeyInfo | undefined, found: number[], missing: boolean): readonly Answer[] | undefined => {
    if (info?.from.by !== 'question') return undefined;
    const q = info.from.question;
    const range = rangeOf(q);
    if (!range) return undefined;
    const rest = typeof q.otherwise === 'number' ? [q.otherwise] : [];
    if (missing) return rest;
    const [low, high] = range;
    const step = (n: number): number => Math.max(1e-6, Math.abs(n) * 1e-6);
    const all = found.flatMap((n) => [n - step(n), n, n + step(n)]).filter((n) => n >= low && n <= high);
    return [...new Set([low, ...all, high, ...rest])];
  };

  return {
    reads(text) {
      const seen = new Set<string>();
      const open = [text];
      for (let source = open.pop(); source !== undefined; source = open.pop()) {
        let names: readonly string[] = [];
        try {
          names = compile(() => env, source).names;
        } catch {
          // An expression that can't be read reads nothing.
        }
        for (const name of names) {
          if (seen.has(name)) continue;
          seen.add(name);
          const from = keys.get(name)?.from;
          if (from?.by === 'fact')
            open.push(
              ...('over' in from.fact
                ? [from.fact.all, from.fact.any, from.fact.count, from.fact.list]
                : [from.fact.is, from.fact.when]
              ).filter((x) => x !== undefined),
            );
          if (from?.by === 'calc')
            open.push(...Object.values(from.use.with), ...(from.use.when ? [from.use.when] : []));
        }
      }
      return seen;
    },
    can: (text, missing, fixed) => {
      let p: ReturnType<typeof plan>;
      try {
        p = plan(text, missing, fixed);
      } catch {
        return undefined;
      }
      if (!p) return undefined;
      const names = [...p.leaves].filter(([, values]) => values.length > 0);
      const cases = names.reduce((n, [, values]) => n * values.length, 1);
      if (cases > MOST_CASES) return undefined;
      const seen = { true: false, false: false, unsettled: false };
      for (let i = 0; i < cases; i++) {
        const values: Record<string, Answer> = {};
        let rest = i;
        for (const [name, list] of names) {
          values[name] = list[rest % list.length]!;
          rest = Math.floor(rest / list.length);
        }
        for (const [name, fact] of p.facts) {
          const v = fact.run(values);
          if (v !== undefined) values[name] = v;
        }
        const outcome = p.run.run(values);
        seen[outcome === true ? 'true' : outcome === false ? 'false' : 'unsettled'] = true;
        if (seen.true) break;
      }
      return seen;
    },
  };
}

/** Keys that stand only in comparisons with written numbers, each with these; others map to undefined. */
function comparedNumbers(ast: unknown): Map<string, number[] | undefined> {
  const good = new Map<string, number[]>();
  const goodUses = new Map<string, number>();
  const uses = new Map<string, number>();
  const literal = (n: CelNode | undefined): number | undefined => {
    if (n?.op === 'value' && typeof n.args === 'number') return n.args;
    if (n?.op === '-_') {
      const below = literal(nodesOf(n)[0]);
      return below === undefined ? undefined : -below;
    }
    return undefined;
  };
  walk(ast, (n) => {
    if (n.op === 'id') uses.set(String(n.args), (uses.get(String(n.args)) ?? 0) + 1);
    if (!['<', '<=', '>', '>=', '==', '!='].includes(n.op)) return;
    const [a, b] = nodesOf(n);
    if (!a || !b) return;
    for (const [x, y] of [
      [a, b],
      [b, a],
    ] as const) {
      const value = literal(y);
      if (x.op !== 'id' || value === undefined) continue;
      const key = String(x.args);
      good.set(key, [...(good.get(key) ?? []), value]);
      goodUses.set(key, (goodUses.get(key) ?? 0) + 1);
    }
  });
  return new Map([...uses].map(([k, n]) => [k, goodUses.get(k) === n ? good.get(k) : undefined]));
}
