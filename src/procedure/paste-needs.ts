/** Needs that are missing, written as YAML that can be pasted: in a part under “needs”, in a procedure under “facts”. */
import type { KeyInfo } from './model.js';
import type { Need } from './schema.js';
import { isKey, typeOf } from './unmet-needs.js';

const flow = (pairs: readonly (readonly [string, string | undefined])[]): string =>
  `  - { ${pairs.flatMap(([name, value]) => (value === undefined ? [] : [`${name}: ${value}`])).join(', ')} }`;

/** `known`: what other procedures say of a key, such as its quantity; without it a word is taken. */
export function asNeeds(missing: readonly Need[], known: ReadonlyMap<string, KeyInfo>): string[] {
  return missing.map((n) => {
    if (!isKey(n)) return flow(Object.entries(n).map(([name, value]) => [name, String(value)] as const));
    const info = known.get(n.key);
    const type = info && info.type !== 'string' && !(info.quantity && info.type === 'double') ? info.type : undefined;
    return flow([
      ['key', n.key],
      ['at', info?.at ?? n.at],
      ['type', type],
      ['quantity', info?.quantity],
    ]);
  });
}

/** A value can be asked, worked out or simply said: the last is what is easiest to begin with. */
export function asFacts(missing: readonly Need[]): string[] {
  const start: Partial<Record<string, string>> = { double: '"1.0"', bool: '"false"', string: '"\'none\'"' };
  return missing.filter(isKey).map((n) =>
    flow([
      ['key', n.key],
      ['at', n.at],
      ['label', n.key.replaceAll('_', ' ')],
      ['type', n.quantity && typeOf(n) === 'double' ? undefined : typeOf(n)],
      ['quantity', n.quantity],
      ['is', start[typeOf(n)] ?? '"[]"'],
    ]),
  );
}
