/** Watches that an expression adds and compares only quantities of one kind. */
import type { Tables } from '../calc/types.js';
import type { QuantityKind } from '../units/kinds.js';
import { kindOfUnit, unitOf } from './column-units.js';
import { type CelNode, callOf, isNode } from './expression.js';
import type { KeyInfo } from './model.js';

/** A kind; 'bare' for a number written out, which fits any; undefined when it can't be told. */
type Found = QuantityKind | 'bare' | undefined;
type Clash = (a: QuantityKind, b: QuantityKind, node: CelNode) => void;

export function quantityKindOf(
  root: unknown,
  keys: ReadonlyMap<string, KeyInfo>,
  tables: Tables,
  clash: Clash,
): QuantityKind | undefined {
  const join = (a: Found, b: Found, node: CelNode): Found => {
    if (a === 'bare') return b;
    if (b === 'bare' || a === b) return a;
    if (a === undefined || b === undefined) return undefined;
    clash(a, b, node);
    return undefined;
  };
  const sum = (a: Found, b: Found, node: CelNode): Found => {
    if (a === 'temperature' && b === 'temperature') return node.op === '-' ? 'temperature-difference' : undefined;
    if (a === 'temperature' && b === 'temperature-difference') return 'temperature';
    if (node.op === '+' && a === 'temperature-difference' && b === 'temperature') return 'temperature';
    return join(a, b, node);
  };
  const call = (node: CelNode): Found => {
    const { name = '', on, given = [] } = callOf(node) ?? {};
    const kinds = given.map(find);
    find(on);
    if (name === 'min' || name === 'max') return join(kinds[0], kinds[1], node);
    if (name === 'number_in') {
      const [table, , column] = given;
      const unit = unitOf(tables, String(table?.args), String(column?.args));
      return unit === undefined ? undefined : kindOfUnit(unit);
    }
    return ['abs', 'round', 'at', 'last', 'highest', 'sum', 'first'].includes(name) ? kinds[0] : undefined;
  };
  const find = (node: unknown): Found => {
    if (!isNode(node)) return undefined;
    const args = Array.isArray(node.args) ? node.args : [node.args];
    switch (node.op) {
      case 'id':
        return keys.get(String(node.args))?.quantity;
      case 'value':
        return typeof node.args === 'number' ? 'bare' : undefined;
      case '+':
      case '-':
        return sum(find(args[0]), find(args[1]), node);
      case '<':
      case '<=':
      case '>':
      case '>=':
      case '==':
      case '!=':
        join(find(args[0]), find(args[1]), node);
        return undefined;
      case '-_':
        return find(args[0]);
      case '?:': {
        find(args[0]);
        return join(find(args[1]), find(args[2]), node);
      }
      case 'call':
      case 'rcall':
        return call(node);
      case '*': {
        const [a, b] = [find(args[0]), find(args[1])];
        return a === 'bare' ? b : b === 'bare' ? a : undefined;
      }
      case '/': {
        const [a, b] = [find(args[0]), find(args[1])];
        return b === 'bare' ? a : undefined;
      }
      default:
        for (const a of args)
          if (Array.isArray(a)) a.forEach(find);
          else find(a);
        return undefined;
    }
  };
  const found = find(root);
  return found === 'bare' ? undefined : found;
}
