/** Expressions as the library reads them, walked. */
import { isList } from '../guards/guards.js';

/** A node of the parsed expression, as far as we walk it. */
export interface CelNode {
  readonly op: string;
  readonly args: unknown;
  readonly start: number;
  readonly end: number;
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
