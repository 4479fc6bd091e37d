/** CEL expressions of a procedure: one environment, checked once, evaluated with what is known. */
import { Environment } from '@marcbachmann/cel-js';
import type { Tables } from '../calc/types.js';
import { isList } from '../guards/guards.js';
import type { Answer } from './answer.js';
import { type CelNode, isNode, walk } from './cel-node.js';
import { type Functions, namesIn, type Tree, TreeRun, treeOf } from './tree.js';

export { type CelNode, callOf, isNode, nodesOf, walk } from './cel-node.js';

export type CelType = 'double' | 'string' | 'bool' | 'list<double>' | 'list<string>' | 'list<bool>';

export interface Expression {
  /** As the library reads it. */
  readonly root: CelNode;
  /** Names that it reads. */
  readonly names: readonly string[];
  /** Undefined when a value that it needs is missing or an operation is undefined (an unknown table row, say). */
  readonly run: (values: Readonly<Record<string, Answer>>) => Answer | undefined;
}

/** Those that have no value as soon as one of their parts has none. */
const strict: ReadonlySet<string> = new Set(['+', '-', '*', '/', '<', '<=', '>', '>=', '==', '!=', '!_', '-_']);

/** True where nothing can come out, as names have no value: then it is not even tried, which takes long to fail. */
function surelyUnknown(node: unknown, values: Readonly<Record<string, Answer>>): boolean {
  if (!isNode(node)) return false;
  const { op, args } = node;
  if (op === 'id') return typeof args === 'string' && !Object.hasOwn(values, args);
  if (!Array.isArray(args)) return strict.has(op) && surelyUnknown(args, values);
  const lacks = (part: unknown): boolean => surelyUnknown(part, values);
  if (strict.has(op)) return args.some(lacks);
  // One side alone may settle it.
  if (op === '&&' || op === '||') return args.every(lacks);
  return op === '?:' && (lacks(args[0]) || args.slice(1).every(lacks));
}

function cell(tables: Tables, table: string, row: string, column: string): unknown {
  const value = tables[table]?.rows.find((r) => r.id === row)?.[column];
  if (value === undefined || value === null) throw new Error(`no ${column} for ${row} in ${table}`);
  return value;
}

const signatures = {
  'min(double, double): double': 'min',
  'max(double, double): double': 'max',
  'abs(double): double': 'abs',
  'round(double, double): double': 'round',
  'at(list<double>, double): double': 'at',
  'last(list<double>): double': 'last',
  'highest(list<double>): double': 'highest',
  'sum(list<double>): double': 'sum',
  'first(list<double>, double): list<double>': 'first',
  'distinct(list<string>): list<string>': 'distinct',
  'join(list<string>, string): string': 'join',
  'number_in(string, string, string): double': 'number_in',
  'text_in(string, string, string): string': 'text_in',
} as const;

/** Functions of our own in expressions, by name; each throws where it has no value. */
const functionsOf = (tables: Tables) =>
  ({
    min: (a: number, b: number) => Math.min(a, b),
    max: (a: number, b: number) => Math.max(a, b),
    abs: (a: number) => Math.abs(a),
    round: (a: number, digits: number) => {
      const f = 10 ** digits;
      return Math.round(a * f) / f;
    },
    at: (list: readonly number[], i: number) => {
      const v = list[i];
      if (v === undefined) throw new Error('no such item');
      return v;
    },
    last: (list: readonly number[]) => {
      const v = list.at(-1);
      if (v === undefined) throw new Error('empty list');
      return v;
    },
    highest: (list: readonly number[]) => {
      if (list.length === 0) throw new Error('empty list');
      return Math.max(...list);
    },
    sum: (list: readonly number[]) => list.reduce((a, b) => a + b, 0),
    first: (list: readonly number[], n: number) => list.slice(0, n),
    distinct: (list: readonly string[]) => [...new Set(list)],
    join: (list: readonly string[], by: string) => list.join(by),
    number_in: (t: string, r: string, c: string) => Number(cell(tables, t, r, c)),
    text_in: (t: string, r: string, c: string) => String(cell(tables, t, r, c)),
  }) satisfies Functions;
const ours: ReadonlySet<string> = new Set(Object.values(signatures));

/** The environment of all names of a procedure; visibility between places is checked apart. */
export function environmentFor(types: ReadonlyMap<string, CelType>, tables: Tables): Environment {
  const env = new Environment({
    unlistedVariablesAreDyn: false,
    limits: { maxAstNodes: 2000, maxDepth: 80, maxListElements: 200, maxMapEntries: 10, maxCallArguments: 10 },
  });
  for (const [name, type] of types) env.registerVariable(name, type);
  const functions = functionsOf(tables);
  for (const [signature, name] of Object.entries(signatures)) env.registerFunction(signature, functions[name]);
  return env;
}

function plain(value: unknown): Answer | undefined {
  if (typeof value === 'bigint') return Number(value);
  if (typeof value === 'number') return Number.isFinite(value) ? value : undefined;
  if (typeof value === 'string' || typeof value === 'boolean') return value;
  if (Array.isArray(value)) return value.map((v) => plain(v)) as Answer;
  return undefined;
}

const fits: Readonly<Record<CelType, (v: unknown) => boolean>> = {
  double: (v) => Number.isFinite(v),
  string: (v) => typeof v === 'string',
  bool: (v) => typeof v === 'boolean',
  'list<double>': (v) => Array.isArray(v) && v.every(Number.isFinite),
  'list<string>': (v) => Array.isArray(v) && v.every((x) => typeof x === 'string'),
  'list<bool>': (v) => Array.isArray(v) && v.every((x) => typeof x === 'boolean'),
};

/** As far as the library looks at it before it works with a value. */
const isDeclared = (type: CelType | undefined, value: Answer): boolean =>
  type?.startsWith('list')
    ? isList(value)
    : typeof value === (type === 'double' ? 'number' : type?.replace('bool', 'boolean'));

/** What evaluates the expressions of one procedure without the library, as far as they go. */
export interface Evaluation {
  readonly typeOf: (name: string) => CelType | undefined;
  readonly trees: TreeRun;
}
export function evaluationOf(types: (name: string) => CelType | undefined, tables: Tables): Evaluation {
  return { typeOf: types, trees: new TreeRun(functionsOf(tables), (name, value) => isDeclared(types(name), value)) };
}

/** An expression as a tree that can be kept; undefined where it is left to the library. */
export function keptTree(env: Environment, text: string): Tree | undefined {
  const root: unknown = env.parse(text).ast;
  return isNode(root) ? treeOf(root, ours) : undefined;
}

const isName = (text: string): boolean => /^[a-z]\w*$/.test(text) && !['true', 'false', 'null'].includes(text);

/**
 * Parse for evaluation. The text must have passed the check when the procedure was loaded.
 * @param own evaluates what it can itself; without it the library does
 * @param kept the tree of this text, where it was kept
 */
export function compile(environment: () => Environment, text: string, own?: Evaluation, kept?: Tree): Expression {
  let read: { parsed: ReturnType<Environment['parse']>; root: CelNode } | undefined;
  const whole = () => {
    if (read) return read;
    const parsed = environment().parse(text);
    const root: unknown = parsed.ast;
    if (!isNode(root)) throw new Error(`“${text}” was read as no expression`);
    read = { parsed, root };
    return read;
  };
  const tree = own && (kept ?? (isName(text) ? text : text === 'true' || treeOf(whole().root, ours)));
  // Many an expression is a name alone: its value is what stands under it.
  const type = tree === text ? own?.typeOf(text) : undefined;
  return {
    get root() {
      return whole().root;
    },
    names: [...(tree === undefined ? namesOf(whole().root) : namesIn(tree))],
    run: (values) => {
      if (type && Object.hasOwn(values, text) && fits[type](values[text])) return values[text];
      const came = tree === undefined ? 'left' : own?.trees.run(tree, values);
      if (came === 'none') return undefined;
      if (came && came !== 'left') return plain(came.value);
      const { parsed, root } = whole();
      if (surelyUnknown(root, values)) return undefined;
      try {
        return plain(parsed(values));
      } catch {
        return undefined;
      }
    },
  };
}

function namesOf(root: CelNode): ReadonlySet<string> {
  const names = new Set<string>();
  walk(root, (n) => {
    if (n.op === 'id' && typeof n.args === 'string') names.add(n.args);
  });
  return names;
}
