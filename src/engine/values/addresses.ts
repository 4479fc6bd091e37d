/** Where a name that is read at a place lives: found once for each procedure. */
import type { Expression } from '../../procedure/expression.js';
import type { KeyInfo, Model } from '../../procedure/model.js';
import type { Value } from './known.js';

export interface Address {
  readonly info: KeyInfo;
  /** The place, at or around the one it is read at, that it belongs to. */
  readonly home: string;
  /** Of its own among all values. */
  readonly number: number;
}

/** The place of `kind` at or around `place`; undefined when the kind lies deeper. */
export function enclosing(model: Model, kind: string, place: string): string | undefined {
  for (let p = model.place.get(place); p; p = p.parent ? model.place.get(p.parent) : undefined)
    if (p.kind === kind) return p.id;
  return undefined;
}

/** An expression at a place. */
export interface ExpressionAt {
  readonly expression: Expression;
  /** Names that it reads, and where each lives. */
  readonly names: readonly { readonly name: string; readonly address: Address | undefined }[];
  /** What it came to last, and from which values: while they are the same, so is what comes out. */
  last: { readonly from: readonly Value[]; readonly came: Value & { readonly names: readonly string[] } } | undefined;
}

export class Addresses {
  private readonly found = new Map<string, Map<string, Address | undefined>>();
  private readonly expressions = new Map<string, Map<string, ExpressionAt>>();
  private count = 0;

  constructor(private readonly model: Model) {}

  of(key: string, place: string): Address | undefined {
    let places = this.found.get(key);
    if (!places) {
      places = new Map();
      this.found.set(key, places);
    }
    if (!places.has(place)) places.set(place, this.find(key, place));
    return places.get(place);
  }

  expression(text: string, place: string): ExpressionAt {
    let places = this.expressions.get(text);
    if (!places) {
      places = new Map();
      this.expressions.set(text, places);
    }
    let at = places.get(place);
    if (!at) {
      const expression = this.model.expression(text);
      const names = expression.names.filter((name) => this.model.keys.has(name));
      at = { expression, names: names.map((name) => ({ name, address: this.of(name, place) })), last: undefined };
      places.set(place, at);
    }
    return at;
  }

  private find(key: string, place: string): Address | undefined {
    const info = this.model.keys.get(key);
    if (!info) return undefined;
    const home = enclosing(this.model, info.at, place);
    if (home === undefined) return undefined;
    return home === place ? { info, home, number: this.count++ } : this.of(key, home);
  }
}

const known = new WeakMap<Model, Addresses>();

export function addressesOf(model: Model): Addresses {
  const addresses = known.get(model) ?? new Addresses(model);
  known.set(model, addresses);
  return addresses;
}
