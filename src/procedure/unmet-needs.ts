/**
 * Needs of a part that it can do without: a value with “otherwise” becomes a fact where the procedure has none, and what
 * is said about a step or branch that is optional and not there is left out. Nothing is added where the procedure gives it.
 */
import { isRecord } from '../guards/guards.js';
import type { CelType } from './expression.js';
import { underscored } from './model.js';
import type { Need, Part } from './schema.js';

type Plain = Readonly<Record<string, unknown>>;
const blocks = (v: unknown): Plain[] => (Array.isArray(v) ? v.filter(isRecord) : []);
const words = (v: unknown): string[] => (typeof v === 'string' ? [v] : Array.isArray(v) ? v.flatMap(words) : []);

/** Ids of steps and branches of a procedure before it was checked, and every key that it gives. */
export interface GivenNames {
  readonly keys: Set<string>;
  readonly steps: ReadonlySet<string>;
  readonly branches: ReadonlySet<string>;
}

export function givenBy(plain: Plain): GivenNames {
  const asked = blocks(plain.steps).flatMap((s) => blocks(s.ask).flatMap((q) => [...words(q.key), ...words(q.parts)]));
  const reads = isRecord(plain.follows) && isRecord(plain.follows.reads) ? Object.keys(plain.follows.reads) : [];
  const worked = blocks(plain.calcs).flatMap((c) => (isRecord(c.gives) ? words(Object.values(c.gives)) : []));
  const facts = blocks(plain.facts).flatMap((f) => words(f.key));
  const branches = new Set(blocks(plain.branches).flatMap((b) => words(b.id)));
  const events = [...branches].map((b) => `event_${underscored(b)}`);
  return {
    keys: new Set([...asked, ...reads, ...worked, ...facts, ...events]),
    steps: new Set(blocks(plain.steps).flatMap((s) => words(s.id))),
    branches,
  };
}

export type KeyNeed = Extract<Need, { key: string }>;
export const isKey = (n: Need): n is KeyNeed => 'key' in n;
export const typeOf = (n: KeyNeed): CelType => n.type ?? (n.quantity ? 'double' : 'string');

const literal = (value: string | number | boolean): string =>
  typeof value === 'string'
    ? `'${value.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`
    : typeof value === 'number' && Number.isInteger(value)
      ? value.toFixed(1)
      : String(value);

/** Facts for what a part can do without, each with the place of its need in the list of needs. */
export function standIns(part: Part, given: GivenNames): { readonly fact: Plain; readonly need: number }[] {
  return (part.needs ?? []).flatMap((n, need) => {
    if ('branch' in n && n.optional && !given.branches.has(n.branch)) {
      const key = `event_${underscored(n.branch)}`;
      return given.keys.has(key) ? [] : [{ need, fact: { key, at: n.at, label: n.branch, type: 'bool', is: 'false' } }];
    }
    if (!('key' in n) || n.otherwise === undefined || given.keys.has(n.key)) return [];
    return [{ need, fact: factFor(n, n.otherwise) }];
  });
}

function factFor(n: KeyNeed, otherwise: string | number | boolean): Plain {
  const kind = n.quantity ? { quantity: n.quantity } : { type: typeOf(n) };
  return { key: n.key, at: n.at, label: n.key.replaceAll('_', ' '), ...kind, is: literal(otherwise) };
}

/** An item of a part without what it says about optional steps and branches that are not there. */
export function without(item: unknown, part: Part, given: GivenNames): unknown {
  const gone = new Set(
    (part.needs ?? []).flatMap((n) => {
      if ('step' in n && n.optional && !given.steps.has(n.step)) return [`step ${n.step}`];
      return 'branch' in n && n.optional && !given.branches.has(n.branch) ? [`branch ${n.branch}`] : [];
    }),
  );
  if (!isRecord(item)) return item;
  const offered = withOffers(item, part, given);
  return gone.size === 0 ? offered : withoutGone(offered, gone);
}

/** Answers that hang on a need are offered only where the procedure gives it. */
function withOffers(item: Plain, part: Part, given: GivenNames): Plain {
  const option = (o: unknown): unknown => {
    if (!isRecord(o) || o.only_with === undefined) return o;
    const { only_with: key, ...rest } = o;
    const lacking = (part.needs ?? []).some((n) => isKey(n) && n.key === key && n.otherwise === false);
    return lacking && !given.keys.has(String(key)) ? { ...rest, offered: false } : rest;
  };
  const question = (q: unknown): unknown =>
    isRecord(q) && Array.isArray(q.options) ? { ...q, options: q.options.map(option) } : q;
  return Array.isArray(item.ask) ? { ...item, ask: item.ask.map(question) } : item;
}

function withoutGone(item: Plain, gone: ReadonlySet<string>): Plain {
  const lacks = (what: string, name: unknown): boolean => gone.has(`${what} ${String(name)}`);
  const out: Record<string, unknown> = { ...item };
  for (const list of ['not_after', 'reopens']) {
    const left = Array.isArray(out[list]) ? out[list].filter((n) => !lacks('step', n)) : undefined;
    if (left?.length) out[list] = left;
    else delete out[list];
  }
  for (const one of ['warn_at', 'behind']) if (lacks('step', out[one])) delete out[one];
  const offers = (x: Plain): Plain => {
    const { raise, ...rest } = x;
    const all = Array.isArray(raise) ? raise : [raise];
    const left = all.filter((b) => !lacks('branch', b));
    if (left.length === all.length) return x;
    return left.length ? { ...rest, raise: left } : rest;
  };
  if (Array.isArray(out.gates)) out.gates = out.gates.map((g) => (isRecord(g) ? offers(g) : g));
  for (const list of ['after', 'lost_with'])
    if (isRecord(out.anew) && Array.isArray(out.anew[list]))
      out.anew = { ...out.anew, [list]: out.anew[list].filter((n) => !lacks('step', n)) };
  if (isRecord(out.fresh)) {
    if (lacks('step', out.fresh.after)) delete out.fresh;
    else out.fresh = offers(out.fresh);
  }
  return out;
}
