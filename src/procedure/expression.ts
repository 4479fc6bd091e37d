/** CEL expressions of a procedure: one environment, checked once, evaluated with what is known. */
import { Environment } from '@marcbachmann/cel-js';
import type { Tables } from '../calc/types.js';
import { isList } from '../guards/guards.js';
import type { Answer } from './answer.js';

export type CelType = 'double' | 'string' | 'bool' | 'list<double>' | 'list<string>' | 'list<bool>';

/** A node of the parsed expression, as far as we walk it. */
export interface CelNode {
  readonly op: string;
  readonly args: unknown;
  readonly start: number;
  readonly end: number;
}

export interface Expression {
  readonly root: CelNode;
  /** Names that it reads. */
  readonly names: readonly string[];
  /** Undefined when a value that it needs is missing or an operation is undefined (an unknown table row, say). */
  readonly run: (values: Readonly<Record<string, Answer>>) => Answer | undefined;
}

export function isNode(x: unknown): x is CelNode {
  return typeof x === 'object' && x !== null && 'op' in x && 'args' in x;
}

/** The parts of an operation that are expressions themselves, in their order. */
export const nodesOf = ({ args }: CelNode): readonly CelNode[] => (isList(args) ? args : [args]).filter(isNode);

interface Call {
  readonly name: string;
  /** What a method is called on. */
  readonly on: CelNode | undefined;
  readonly given: readonly CelNode[];
}

/** A call such as max(a, b) or list.all(x, …); undefined for everything else. */
export function callOf({ op, args }: CelNode): Call | undefined {
  if ((op !== 'call' && op !== 'rcall') || !isList(args)) return undefined;
  const [name, first, last] = args;
  const given = op === 'call' ? first : last;
  return {
    name: String(name),
    on: op === 'rcall' && isNode(first) ? first : undefined,
    given: isList(given) ? given.filter(isNode) : [],
  };
}

/** Calls visit on the node and all below it. */
export function walk(node: unknown, visit: (n: CelNode) => void): void {
  if (Array.isArray(node)) for (const n of node) walk(n, visit);
  else if (isNode(node)) {
    visit(node);
    walk(node.args, visit);
  }
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

/** The environment of all names of a procedure; visibility between places is checked apart. */
export function environmentFor(types: ReadonlyMap<string, CelType>, tables: Tables): Environment {
  const env = new Environment({
    unlistedVariablesAreDyn: false,
    limits: { maxAstNodes: 2000, maxDepth: 80, maxListElements: 200, maxMapEntries: 10, maxCallArguments: 10 },
  });
  for (const [name, type] of types) env.registerVariable(name, type);
  env.registerFunction('min(double, double): double', (a: number, b: number) => Math.min(a, b));
  env.registerFunction('max(double, double): double', (a: number, b: number) => Math.max(a, b));
  env.registerFunction('abs(double): double', (a: number) => Math.abs(a));
  env.registerFunction('round(double, double): double', (a: number, digits: number) => {
    const f = 10 ** digits;
    return Math.round(a * f) / f;
  });
  env.registerFunction('at(list<double>, double): double', (list: number[], i: number) => {
    const v = list[i];
    if (v === undefined) throw new Error('no such item');
    return v;
  });
  env.registerFunction('last(list<double>): double', (list: number[]) => {
    const v = list.at(-1);
    if (v === undefined) throw new Error('empty list');
    return v;
  });
  env.registerFunction('sum(list<double>): double', (list: number[]) => list.reduce((a, b) => a + b, 0));
  env.registerFunction('first(list<double>, double): list<double>', (list: number[], n: number) => list.slice(0, n));
  env.registerFunction('distinct(list<string>): list<string>', (list: string[]) => [...new Set(list)]);
  env.registerFunction('join(list<string>, string): string', (list: string[], by: string) => list.join(by));
  env.registerFunction('number_in(string, string, string): double', (t: string, r: string, c: string) =>
    Number(cell(tables, t, r, c)),
  );
  env.registerFunction('text_in(string, string, string): string', (t: string, r: string, c: string) =>
    String(cell(tables, t, r, c)),
  );
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

/** Parse for evaluation. The text must have passed the check when the procedure was loaded. */
export function compile(
  env: Environment,
  text: string,
  typeOf: (name: string) => CelType | undefined = () => undefined,
): Expression {
  const parsed = env.parse(text);
  const names = new Set<string>();
  walk(parsed.ast, (n) => {
    if (n.op === 'id' && typeof n.args === 'string') names.add(n.args);
  });
  // Many an expression is a name alone: its value is what stands under it.
  const type = parsed.ast.op === 'id' ? typeOf(text) : undefined;
  const root: unknown = parsed.ast;
  if (!isNode(root)) throw new Error(`“${text}” was read as no expression`);
  return {
    root,
    names: [...names],
    run: (values) => {
      if (type && Object.hasOwn(values, text) && fits[type](values[text])) return values[text];
      if (surelyUnknown(root, values)) return undefined;
      try {
        return plain(parsed(values));
      } catch {
        return undefined;
      }
    },
  };
}
