/**
 * An expression as a tree that is kept beside the content, and what it comes to. The library reads and checks expressions;
 * those made of the operations here need neither again. `procedure/trees` holds what comes out against the library.
 */
import { isList } from '../guards/guards.js';
import type { Answer } from './answer.js';
import { type CelNode, callOf, isNode, nodesOf } from './cel-node.js';

/** A number, yes or no, a name; or an operation and its parts, of which `'` is a text as it stands. */
export type Tree = number | boolean | string | readonly Tree[];
export type Trees = Readonly<Record<string, Tree>>;

/** By the text of an operation as the library names it, of two values that have one. */
type Operation = (a: unknown, b: unknown) => unknown;
const numbers =
  (run: (a: number, b: number) => unknown): Operation =>
  (a, b) =>
    typeof a === 'number' && typeof b === 'number' ? run(a, b) : unsure;

/** Nothing comes out: a value is missing, or the operation has none for these. */
const none = Symbol('none');
/** Values of types that are left to the library. */
const unsure = Symbol('unsure');

const alike: Operation = (a, b) =>
  typeof a === typeof b && (typeof a === 'number' || typeof a === 'string' || typeof a === 'boolean')
    ? a === b
    : unsure;

const operations: Readonly<Record<string, Operation>> = {
  '==': alike,
  '!=': (a, b) => {
    const same = alike(a, b);
    return same === unsure ? unsure : !same;
  },
  '<': numbers((a, b) => a < b),
  '<=': numbers((a, b) => a <= b),
  '>': numbers((a, b) => a > b),
  '>=': numbers((a, b) => a >= b),
  '+': (a, b) => (typeof a === 'string' && typeof b === 'string' ? a + b : numbers((x, y) => x + y)(a, b)),
  '-': numbers((a, b) => a - b),
  '*': numbers((a, b) => a * b),
  '/': numbers((a, b) => a / b),
  in: (a, list) => {
    if (!isList(list) || typeof a !== 'string') return unsure;
    return list.every((item) => typeof item === 'string') ? list.includes(a) : unsure;
  },
};
const binary: ReadonlySet<string> = new Set([...Object.keys(operations), '&&', '||']);

/** Functions of expressions, by name: each throws where it has no value. */
export type Functions = Readonly<Record<string, (...given: never[]) => unknown>>;

/** What was read, as a tree; undefined where it holds an operation that is left to the library. */
export function treeOf({ op, args }: CelNode, functions: ReadonlySet<string>): Tree | undefined {
  const made = (name: string, parts: readonly CelNode[]): Tree | undefined => {
    const trees = parts.map((part) => treeOf(part, functions));
    return trees.every((t) => t !== undefined) ? [name, ...trees] : undefined;
  };
  if (op === 'value') {
    if (typeof args === 'string') return ["'", args];
    return typeof args === 'number' || typeof args === 'boolean' ? args : undefined;
  }
  if (op === 'id') return typeof args === 'string' ? args : undefined;
  if (op === '!_' || op === '-_') return isNode(args) ? made(op, [args]) : undefined;
  if (op === '?:' || binary.has(op)) return made(op, nodesOf({ op, args, start: 0, end: 0 }));
  if (op === 'list' && isList(args)) return args.every(isNode) ? made('[', args) : undefined;
  const call = op === 'call' ? callOf({ op, args, start: 0, end: 0 }) : undefined;
  return call && functions.has(call.name) ? made(`${call.name}(`, call.given) : undefined;
}

/** Names that it reads, in their order. */
export function namesIn(tree: Tree, names: Set<string> = new Set()): ReadonlySet<string> {
  if (typeof tree === 'string') names.add(tree);
  else if (isList(tree) && tree[0] !== "'") for (const part of tree.slice(1)) namesIn(part, names);
  return names;
}

/** What an expression comes to: `known` false where nothing comes out; undefined where it is left to the library. */
export class TreeRun {
  constructor(
    private readonly functions: Functions,
    /** Whether a value is of the type that its name was declared with. */
    private readonly fits: (name: string, value: Answer) => boolean,
  ) {}

  /** `left` where it is left to the library. */
  run(tree: Tree, values: Readonly<Record<string, Answer>>): { readonly value: unknown } | 'none' | 'left' {
    const value = this.of(tree, values);
    return value === none ? 'none' : value === unsure ? 'left' : { value };
  }

  private of(tree: Tree, values: Readonly<Record<string, Answer>>): unknown {
    if (typeof tree === 'string') {
      const value = Object.hasOwn(values, tree) ? values[tree] : undefined;
      if (value === undefined) return none;
      return this.fits(tree, value) ? value : unsure;
    }
    if (typeof tree !== 'object') return tree;
    const [op, first = '', second = '', third = ''] = tree;
    if (typeof op !== 'string') return unsure;
    switch (op) {
      case "'":
        return first;
      case '!_':
      case '-_': {
        const a = this.of(first, values);
        if (a === none || a === unsure) return a;
        if (op === '!_') return typeof a === 'boolean' ? !a : unsure;
        return typeof a === 'number' ? -a : unsure;
      }
      case '&&':
      case '||': {
        // One side alone may settle it, whatever the other is.
        const settles = op === '||';
        const a = this.of(first, values);
        if (a === settles || a === unsure) return a;
        const b = this.of(second, values);
        return b === settles || b === unsure ? b : a === none ? none : b;
      }
      case '?:': {
        const a = this.of(first, values);
        if (a === none || a === unsure) return a;
        return typeof a === 'boolean' ? this.of(a ? second : third, values) : unsure;
      }
    }
    const run = operations[op];
    if (run) {
      const a = this.of(first, values);
      if (a === none || a === unsure) return a;
      const b = this.of(second, values);
      return b === none || b === unsure ? b : run(a, b);
    }
    const parts: unknown[] = [];
    for (let i = 1; i < tree.length; i++) {
      const part = this.of(tree[i] ?? '', values);
      if (part === none || part === unsure) return part;
      parts.push(part);
    }
    if (op === '[') return parts;
    try {
      return this.functions[op.slice(0, -1)]?.(...(parts as never[]));
    } catch {
      return none;
    }
  }
}
