/** Conditions of a procedure in plain words, for people who review it on paper. */
import { parse } from '@marcbachmann/cel-js';
import { type CelNode, callOf, isNode, nodesOf } from '../procedure/expression.js';
import type { KeyInfo } from '../procedure/model.js';
import { ownUnitOf } from '../procedure/questions/index.js';
import { kindTraits, type QuantityKind } from '../units/kinds.js';
import { showQuantity } from '../units/show.js';
import { findUnit } from '../units/unit-names.js';

type Keys = ReadonlyMap<string, KeyInfo>;
/** Stands where a part has no plain words. */
const NO_WORDS = '…';

const comparisons: Readonly<Record<string, string>> = {
  '==': 'is',
  '!=': 'is not',
  '<': 'is less than',
  '<=': 'is at most',
  '>': 'is more than',
  '>=': 'is at least',
};
const arithmetic: Readonly<Record<string, string>> = { '+': '+', '-': '−', '*': '×', '/': '÷', '%': 'mod' };

/** The expression in words; its own text in backquotes where words would be no clearer. */
export function inWords(text: string, keys: Keys): string {
  try {
    const words = say(parse(text).ast, keys, false);
    if (!words.includes(NO_WORDS)) return words;
  } catch {
    // Its own text says more.
  }
  return `\`${text.replace(/\s+/g, ' ').trim()}\``;
}

function say(n: unknown, keys: Keys, inner: boolean): string {
  if (!isNode(n)) return '?';
  const [a, b, c] = nodesOf(n);
  switch (n.op) {
    case 'id':
      return nameOf(String(n.args), keys);
    case 'value':
      return literal(n.args, undefined, keys);
    case '!_':
      if (a && callOf(a)?.name === 'exists') return overList(a, keys, 'none of');
      return isNode(a) && a.op === 'id' ? `not “${nameOf(String(a.args), keys)}”` : `not (${say(a, keys, false)})`;
    case '-_':
      return `−${say(a, keys, true)}`;
    case '&&':
    case '||': {
      const word = n.op === '&&' ? 'and' : 'or';
      const side = (x: unknown): string =>
        isNode(x) && (x.op === '&&' || x.op === '||') && x.op !== n.op ? `(${clause(x, keys)})` : clause(x, keys);
      return `${side(a)} ${word} ${side(b)}`;
    }
    case '==':
    case '!=':
    case '<':
    case '<=':
    case '>':
    case '>=':
      return a && b ? compared(n.op, a, b, keys) : NO_WORDS;
    case '?:':
      return `${say(b, keys, true)} if ${clause(a, keys)}, otherwise ${say(c, keys, false)}`;
    case 'in':
      return isNode(b) && b.op === 'list'
        ? `${say(a, keys, true)} is ${nodesOf(b)
            .map((x) => literal(x.args, a, keys))
            .join(' or ')}`
        : `${say(b, keys, true)} has ${literal(a?.args, b, keys)}`;
    case 'call':
      return called(n, keys);
    case 'rcall': {
      const call = callOf(n);
      if (call?.name === 'size') return `number of ${say(call.on, keys, true)}`;
      if (call?.name === 'contains') return `${say(call.on, keys, true)} has ${say(call.given[0], keys, true)} in it`;
      return overList(n, keys);
    }
    case 'list':
      return (
        nodesOf(n)
          .map((x) => say(x, keys, false))
          .join(', ') || 'nothing'
      );
    case '[]':
      return `${say(a, keys, true)} (item ${say(b, keys, true)})`;
    default: {
      const sign = arithmetic[n.op];
      if (!sign) return NO_WORDS;
      const sum = `${say(a, keys, true)} ${sign} ${say(b, keys, true)}`;
      return inner ? `(${sum})` : sum;
    }
  }
}

/** What is said of the items of a list: one of them, each of them, those that; `one` where it is denied. */
function overList(n: CelNode, keys: Keys, one = 'one of'): string {
  const { name: method, on, given: [item, part] = [] } = callOf(n) ?? {};
  if (!on || item?.op !== 'id') return NO_WORDS;
  const list = on.op === 'id' ? keys.get(String(on.args)) : undefined;
  const name = String(item.args);
  const from = list ?? [...keys.values()][0];
  if (!from) return NO_WORDS;
  const inside = new Map([
    ...keys,
    [name, { ...from, key: name, label: 'it', ...(list ? {} : { quantity: undefined }) }],
  ]);
  const such = alike(part, name, inside) ?? `fits: ${say(part, inside, false)}`;
  const whole = say(on, keys, true);
  switch (method) {
    case 'exists':
      return `${one} ${whole} ${such}`;
    case 'all':
      return `each of ${whole} ${such}`;
    case 'filter':
      return `what in ${whole} ${such}`;
    case 'map':
      return `for each of ${whole}: ${say(part, inside, false)}`;
    default:
      return NO_WORDS;
  }
}

/** `v == 'a' || v == 'b'` as “is a or b”, `v != 'a' && v != 'b'` as “is neither a nor b”. */
function alike(n: unknown, name: string, keys: Keys): string | undefined {
  const words = (x: unknown, sign: string, join: string): string[] | undefined => {
    if (!isNode(x)) return undefined;
    const [a, b] = nodesOf(x);
    if (x.op === join) {
      const [left, right] = [words(a, sign, join), words(b, sign, join)];
      return left && right && [...left, ...right];
    }
    const own = x.op === sign && a?.op === 'id' && a.args === name && b?.op === 'value';
    return own ? [literal(b.args, a, keys)] : undefined;
  };
  const any = words(n, '==', '||');
  if (any) return `is ${any.join(' or ')}`;
  const none = words(n, '!=', '&&');
  return none && (none.length > 1 ? `is neither ${none.join(' nor ')}` : `is not ${none[0]}`);
}

/** Items are counted from 1 by people: `y - 1.0` is item y. */
function item(n: CelNode | undefined, keys: Keys): string {
  if (n?.op === 'value') return String(Number(n.args) + 1);
  const [a, b] = n ? nodesOf(n) : [];
  if (n?.op === '-' && b?.op === 'value') {
    const less = Number(b.args) - 1;
    return less === 0 ? say(a, keys, true) : `${say(a, keys, true)} − ${less}`;
  }
  return `${say(n, keys, true)} + 1`;
}

/** A yes-no part: a bare name is put in quotes so that it reads as a statement. */
const clause = (n: unknown, keys: Keys): string =>
  isNode(n) && n.op === 'id' ? `“${nameOf(String(n.args), keys)}”` : say(n, keys, false);

function compared(op: string, a: CelNode, b: CelNode, keys: Keys): string {
  const side = (x: CelNode, other: CelNode): string =>
    x.op === 'value' ? literal(x.args, other, keys) : say(x, keys, true);
  return `${side(a, b)} ${comparisons[op]} ${side(b, a)}`;
}

function called(n: CelNode, keys: Keys): string {
  const { name, given } = callOf(n) ?? { name: NO_WORDS, given: [] };
  const parts = given.map((g) => say(g, keys, false));
  switch (name) {
    case 'min':
      return `the smaller of ${parts.join(' and ')}`;
    case 'max':
      return `the larger of ${parts.join(' and ')}`;
    case 'abs':
      return `the size of (${parts[0]})`;
    case 'round':
      return `${parts[0]}, rounded`;
    case 'last':
      return `the last ${parts[0]}`;
    case 'highest':
      return `the highest of ${parts[0]}`;
    case 'sum':
      return `the sum of ${parts[0]}`;
    case 'first':
      return `the first of ${parts[0]}`;
    case 'at':
      return `${parts[0]} (item ${item(given[1], keys)})`;
    case 'join':
      return `${parts[0]}, one after the other`;
    case 'number_in':
    case 'text_in':
      return `“${rawWord(given[2])}” of ${parts[1]} in the table ${rawWord(given[0])}`;
    default:
      return `${name}(${parts.join(', ')})`;
  }
}
const rawWord = (n: CelNode | undefined): string =>
  typeof n?.args === 'string' ? n.args.replaceAll('-', ' ') : NO_WORDS;

const nameOf = (key: string, keys: Keys): string => {
  const info = keys.get(key);
  if (!info) return key;
  return info.from.by === 'rows' && info.from.what === 'all' ? `readings of ${info.label}` : info.label;
};

/** A figure in the unit in which it is kept, and in that of the question too where that is another. */
export function figureWords(n: number, kind: QuantityKind, own: string | undefined): string {
  const text = showQuantity(n, kind);
  const unit = own === undefined ? undefined : findUnit(own, kind);
  if (!unit || (unit.to(1) === 1 && unit.to(0) === 0) || kindTraits[kind].scale.includes(unit.show)) return text;
  const asked = showQuantity(n, kind, { unit: own });
  return asked === text ? text : `${text} (${asked})`;
}

/** A written value; the value at its other side tells its unit or what the choice is called. */
function literal(value: unknown, other: unknown, keys: Keys): string {
  const info = isNode(other) && other.op === 'id' ? keys.get(String(other.args)) : undefined;
  if (typeof value === 'number' || typeof value === 'bigint') {
    const n = Number(value);
    const by = info?.from;
    const asked = (by?.by === 'question' || by?.by === 'rows') && by.question ? ownUnitOf(by.question) : undefined;
    return info?.quantity ? figureWords(n, info.quantity, asked) : String(n);
  }
  if (typeof value === 'string') {
    const from = info?.from;
    const q = from?.by === 'question' || from?.by === 'rows' ? from.question : undefined;
    const option = q && 'options' in q ? q.options?.find((o) => o.value === value) : undefined;
    const place = from?.by === 'place' ? from.labels?.[value] : undefined;
    return `“${option?.label ?? place ?? value.replaceAll(/(?<=\w)-(?=\w)/g, ' ')}”`;
  }
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return NO_WORDS;
}
