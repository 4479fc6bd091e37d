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

/** Operations that compare a count. */
const counts: ReadonlySet<string> = new Set(['==', '!=', '<', '<=', '>', '>=']);
/** What asks something of each item of a list, by a name for it. */
const each: ReadonlySet<string> = new Set(['exists', 'all', 'filter', 'map']);

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
  // A count is a whole number only beside another: as the library compares them, so do numbers.
  if (counts.has(op) && isList(args)) {
    const [a, b] = args;
    if (isNode(a) && isNode(b) && typeof b.args === 'bigint' && callOf(a)?.name === 'size') {
      const list = callOf(a)?.on;
      const tree = list && treeOf(list, functions);
      return tree === undefined ? undefined : [op, ['size(', tree], Number(b.args)];
    }
  }
  if (op === '[]' && isList(args)) {
    const [list, index] = args;
    const tree = isNode(list) ? treeOf(list, functions) : undefined;
    return tree !== undefined && isNode(index) && typeof index.args === 'bigint' && index.op === 'value'
      ? ['item(', tree, Number(index.args)]
      : undefined;
  }
  if (op === 'rcall') {
    const { name = '', on, given = [] } = callOf({ op, args, start: 0, end: 0 }) ?? {};
    const [item] = given;
    return each.has(name) && on && given.length === 2 && item?.op === 'id'
      ? made(`${name}(`, [on, ...given])
      : undefined;
  }
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
  /** Names of items, while something is asked of each. */
  private readonly items: string[] = [];

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
      return this.items.includes(tree) || this.fits(tree, value) ? value : unsure;
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
    if (typeof second === 'string' && each.has(op.slice(0, -1))) return this.ofEach(op, first, second, third, values);
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
    if (op === 'size(' || op === 'item(') {
      const [list, index] = parts;
      if (!isList(list)) return unsure;
      if (op === 'size(') return list.length;
      return list[Number(index)] ?? none;
    }
    try {
      return this.functions[op.slice(0, -1)]?.(...(parts as never[]));
    } catch {
      return none;
    }
  }
  private ofEach(op: string, of: Tree, item: string, ask: Tree, values: Readonly<Record<string, Answer>>): unknown {
    const list = this.of(of, values);
    if (list === none) return none;
    if (!isList(list)) return unsure;
    this.items.push(item);
    const inner: Record<string, Answer> = { ...values };
    const said = list.map((value) => {
      if (typeof value !== 'number' && typeof value !== 'string' && typeof value !== 'boolean') return unsure;
      inner[item] = value;
      return this.of(ask, inner);
    });
    this.items.pop();
    // What nothing comes out of for one item is left to the library.
    if (said.includes(none) || said.includes(unsure)) return unsure;
    if (op === 'map(') return said;
    if (!said.every((answer) => typeof answer === 'boolean')) return unsure;
    if (op === 'filter(') return list.filter((_, i) => said[i]);
    return op === 'exists(' ? said.includes(true) : !said.includes(false);
  }
}
