/** Judges expressions, names and texts of a procedure against its keys. */
import type { Environment } from '@marcbachmann/cel-js';
import type { Tables } from '../calc/types.js';
import { near } from './document.js';
import { type CelNode, type CelType, compile, isNode, walk } from './expression.js';
import type { KeyInfo } from './model.js';
import type { Complain, Path } from './problem.js';
import type { Procedure } from './schema.js';

export interface Judge {
  /** An expression at a kind of place, of a type; undefined texts pass. */
  expression: (text: string | undefined, at: string, type: CelType | undefined, path: Path) => void;
  /** Complains when the expression reads no name and always gives this. */
  constant: (text: string | undefined, bad: boolean, path: Path, message: string) => void;
  /** A key that must exist and be visible at a kind of place. */
  name: (key: string | undefined, at: string, path: Path) => void;
  noKey: (key: string, path: Path) => void;
  /** {key}s in a text. */
  text: (text: string | undefined, at: string, path: Path) => void;
  table: (table: string, path: Path, column?: string, columnPath?: Path) => void;
  /** Type of an expression, when it is sound. */
  typeOf: (text: string) => string | undefined;
}

export function judgeFor(
  p: Procedure,
  keys: ReadonlyMap<string, KeyInfo>,
  env: Environment,
  tables: Tables,
  complain: Complain,
): Judge {
  const names = [...keys.keys()];
  const within = new Map(p.places.map((k) => [k.id, k.within ?? 'job']));
  const sees = (at: string, of: string): boolean => {
    for (let k: string | undefined = at, n = 0; k && n < 9; k = within.get(k), n++) if (k === of) return true;
    return of === 'job';
  };
  const noKey = (key: string, path: Path, offset?: number): void =>
    complain(
      path,
      `There is no value “${key}”.`,
      near(key, names) || 'Use the key of a question, fact or calculation.',
      offset,
    );
  const visible = (key: string, at: string, path: Path, offset?: number): void => {
    const info = keys.get(key);
    if (!info) noKey(key, path, offset);
    else if (!sees(at, info.at))
      complain(
        path,
        `“${key}” belongs to a ${info.at} and can’t be seen from ${at === 'job' ? 'the whole job' : `a ${at}`}.`,
        `Gather it with a fact that has “over: ${info.at}”.`,
        offset,
      );
  };
  const table = (id: string, path: Path, column?: string, columnPath?: Path, offset?: number): void => {
    const t = tables[id];
    if (!t) {
      complain(
        path,
        `There is no table “${id}”.`,
        near(id, Object.keys(tables)) || `Known are: ${Object.keys(tables).join(', ')}.`,
        offset,
      );
      return;
    }
    const columns = [...new Set(t.rows.flatMap((r) => Object.keys(r)))];
    if (column && !columns.includes(column))
      complain(
        columnPath ?? path,
        `The table “${id}” has no column “${column}”.`,
        near(column, columns) || `Its columns are: ${columns.join(', ')}.`,
        offset,
      );
  };

  const literal = (n: CelNode, other: CelNode, path: Path): void => {
    if (n.op !== 'id' || other.op !== 'value' || typeof other.args !== 'string') return;
    const from = keys.get(String(n.args))?.from;
    if (from?.by !== 'question') return;
    const q = from.question;
    const values =
      q.kind === 'choice'
        ? q.options.map((o) => o.value)
        : q.kind === 'choice-from-table'
          ? [...(q.options ?? []).map((o) => o.value), ...(tables[q.table]?.rows.map((r) => r.id) ?? [])]
          : undefined;
    if (values && !values.includes(other.args))
      complain(
        path,
        `“${String(n.args)}” can never be “${other.args}”.`,
        near(other.args, values) || `Its choices are: ${values.slice(0, 20).join(', ')}.`,
        other.start,
      );
  };

  const expression: Judge['expression'] = (text, at, type, path) => {
    if (text === undefined) return;
    let ast: unknown;
    try {
      ast = env.parse(text).ast;
    } catch (e) {
      return complain(
        path,
        `The condition can’t be read: ${firstLine(e)}.`,
        "Conditions are CEL, such as kappa > 1.0 && seated == 'all-round'.",
        offsetOf(e),
      );
    }
    const before: string[] = [];
    walk(ast, (n) => {
      if (n.op === 'id' && typeof n.args === 'string' && !bound(ast).has(n.args)) {
        if (!keys.has(n.args)) before.push(n.args);
        visible(n.args, at, path, n.start);
      }
      if ((n.op === '==' || n.op === '!=') && Array.isArray(n.args)) {
        const [a, b] = n.args as CelNode[];
        if (a && b) {
          literal(a, b, path);
          literal(b, a, path);
        }
      }
      if (n.op === 'in' && Array.isArray(n.args)) {
        const [a, list] = n.args as CelNode[];
        if (a && isNode(list) && list.op === 'list' && Array.isArray(list.args))
          for (const item of list.args as CelNode[]) literal(a, item, path);
      }
      if (n.op === 'call' && Array.isArray(n.args) && (n.args[0] === 'number_in' || n.args[0] === 'text_in')) {
        const [t, , c] = (n.args[1] ?? []) as CelNode[];
        if (t && typeof t.args === 'string')
          table(
            t.args,
            path,
            c && c.op === 'value' && typeof c.args === 'string' ? c.args : undefined,
            undefined,
            t.start,
          );
      }
    });
    if (before.length) return;
    const checked = env.check(text);
    if (!checked.valid)
      return complain(
        path,
        `The condition does not fit: ${firstLine(checked.error)}.`,
        'Compare like with like; write numbers with a point (2.0) and words in single quotes.',
        offsetOf(checked.error),
      );
    const found = String(checked.type).replace(/^dyn<(.*)>$/, '$1');
    if (type && found !== type && found !== 'dyn' && !(type === 'double' && found === 'int') && !found.includes('dyn'))
      complain(path, `This gives ${typeWord(found)}, but ${typeWord(type)} is needed here.`, 'Change the expression.');
  };

  return {
    expression,
    constant: (text, bad, path, message) => {
      if (text === undefined) return;
      try {
        const e = compile(env, text);
        if (e.names.length === 0 && e.run({}) === bad)
          complain(path, message, 'Change the condition or take the part out.');
      } catch {
        // Reported by expression() already.
      }
    },
    name: (key, at, path) => {
      if (key !== undefined) visible(key, at, path);
    },
    noKey: (key, path) => noKey(key, path),
    text: (text, at, path) => {
      for (const m of (text ?? '').matchAll(/\{([^{}]*)\}/g)) {
        const key = (m[1] ?? '').replace(/\.(old|change)$/, '');
        visible(key, at, path, m.index + 1);
      }
    },
    table: (id, path, column, columnPath) => table(id, path, column, columnPath),
    typeOf: (text) => {
      const c = env.check(text);
      return c.valid ? String(c.type) : undefined;
    },
  };
}

/** Names bound by macros such as list.all(x, …). */
function bound(ast: unknown): Set<string> {
  const out = new Set<string>();
  walk(ast, (n) => {
    if (n.op === 'rcall' && Array.isArray(n.args)) {
      const [method, , args] = n.args as [unknown, unknown, CelNode[] | undefined];
      const first = args?.[0];
      if (['all', 'exists', 'exists_one', 'filter', 'map'].includes(String(method)) && first?.op === 'id')
        out.add(String(first.args));
    }
  });
  return out;
}

const firstLine = (e: unknown): string =>
  (e instanceof Error ? (e.message.split('\n')[0] ?? '') : String(e)).replace(/\.$/, '');
function offsetOf(e: unknown): number | undefined {
  const m = e instanceof Error ? (e as { node?: CelNode }).node : undefined;
  return m?.start;
}
const words: Record<string, string> = {
  bool: 'yes or no',
  double: 'a number',
  int: 'a number',
  string: 'a word',
  'list<double>': 'a list of numbers',
  'list<string>': 'a list of words',
};
const typeWord = (t: string): string => words[t] ?? t;
