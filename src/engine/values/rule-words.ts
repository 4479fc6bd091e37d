/** A rule of the procedure with the numbers of this job in it, as a technician reads it: only what was taken, no code. */
import { type CelNode, callOf, isNode, nodesOf } from '../../procedure/expression.js';
import { showValue } from './texts.js';
import type { Values } from './values.js';

/** How strongly a sign binds, so that brackets stand only where they are needed. */
const binds: Readonly<Record<string, number>> = { '+': 1, '-': 1, '*': 2, '/': 2 };
const sign: Readonly<Record<string, string>> = { '+': '+', '-': '-', '*': '×', '/': '/' };

interface Said {
  readonly text: string;
  readonly strength: number;
}
const whole = (text: string): Said => ({ text, strength: 3 });

/** Undefined where it has no words. `shownOf` gives a key as it is shown. */
export function ruleWords(
  values: Values,
  rule: string,
  place: string,
  shownOf: (key: string) => string | undefined,
): string | undefined {
  const { model } = values;
  const { root } = model.expression(rule);
  const source = (n: CelNode): string => rule.slice(n.start, n.end);
  const item = (list: CelNode, i: CelNode): Said | undefined => {
    const v = values.evaluate(`at(${source(list)}, ${source(i)})`, place);
    if (!v.known || typeof v.value !== 'number') return undefined;
    const half = Array.isArray(v.plusMinus) ? undefined : v.plusMinus;
    return whole(list.op === 'id' ? showValue(model, String(list.args), v.value, half) : String(v.value));
  };
  const call = (n: CelNode): Said | undefined => {
    const { name, given: [a, b] = [] } = callOf(n) ?? {};
    if (name === 'at' && a && b) return item(a, b);
    const first = a && say(a);
    if (!first) return undefined;
    if (name === 'round') return whole(`${first.text}, rounded`);
    if (name === 'abs') return whole(`the size of (${first.text})`);
    const second = b && say(b);
    if (!second || (name !== 'min' && name !== 'max')) return undefined;
    return whole(`the ${name === 'min' ? 'smaller' : 'larger'} of ${first.text} and ${second.text}`);
  };
  const say = (n: unknown): Said | undefined => {
    if (!isNode(n)) return undefined;
    const args = nodesOf(n);
    switch (n.op) {
      case 'id': {
        const shown = shownOf(String(n.args));
        return shown === undefined ? undefined : whole(shown);
      }
      case 'value':
        return typeof n.args === 'number' ? whole(String(n.args)) : undefined;
      case '?:': {
        const [condition, yes, no] = args;
        const taken = condition && values.holds(source(condition), place);
        return taken === undefined ? undefined : say(taken ? yes : no);
      }
      case 'call':
        return call(n);
      default: {
        const strength = binds[n.op];
        const [a, b] = args.map(say);
        if (strength === undefined || !a || !b) return undefined;
        const left = a.strength < strength ? `(${a.text})` : a.text;
        const right = b.strength < strength || (b.strength === strength && (n.op === '-' || n.op === '/'));
        return { text: `${left} ${sign[n.op]} ${right ? `(${b.text})` : b.text}`, strength };
      }
    }
  };
  return say(root)?.text;
}
