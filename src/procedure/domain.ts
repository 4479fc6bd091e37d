/** What a value can be, as far as the procedure itself says. */
import type { Tables } from '../calc/types.js';
import { isNode, nodesOf } from './expression.js';
import type { KeyInfo } from './model.js';
import { kindOf, optionsOf, type Question } from './questions/index.js';

/** The words that a question can be answered with, or undefined when it takes others. */
function choicesOf(q: Question, tables: Tables): string[] | undefined {
  // What is not offered here may be asked for all the same: a part says it for every procedure.
  const options = q.kind === 'choice' ? q.options : optionsOf(q, tables);
  return kindOf(q).type === 'bool' || !options.length ? undefined : options.map((o) => o.value);
}

/**
 * All words that a key can hold: choices, the value taken in their absence, and of a fact the words at the ends of its
 * `a ? 'x' : 'y'`. Undefined when that can't be told.
 */
export function wordsOf(
  key: string,
  keys: ReadonlyMap<string, KeyInfo>,
  tables: Tables,
  parse: (text: string) => unknown,
  depth = 0,
): string[] | undefined {
  const info = keys.get(key);
  if (info?.words) return [...info.words];
  const from = info?.from;
  const q = from?.by === 'question' || (from?.by === 'rows' && from.what === 'all') ? from.question : undefined;
  if (q) {
    const choices = choicesOf(q, tables);
    return choices && (typeof q.otherwise === 'string' ? [...choices, q.otherwise] : choices);
  }
  if (from?.by !== 'fact' || 'over' in from.fact || depth > 5) return undefined;
  try {
    return ends(parse(from.fact.is));
  } catch {
    return undefined;
  }

  function ends(node: unknown): string[] | undefined {
    if (!isNode(node)) return undefined;
    if (node.op === 'value') return typeof node.args === 'string' ? [node.args] : undefined;
    if (node.op === 'id') return wordsOf(String(node.args), keys, tables, parse, depth + 1);
    if (node.op !== '?:') return undefined;
    const [, a, b] = nodesOf(node);
    const [x, y] = [ends(a), ends(b)];
    return x && y && [...x, ...y];
  }
}
