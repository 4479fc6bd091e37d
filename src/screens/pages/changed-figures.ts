/** The figures that a change moves, each told once for its place and with its unit. */
import type { Answer } from '../../engine/journal/entry.js';
import type { ChangedValue } from '../../engine/state/impact.js';
import type { State } from '../../engine/state/state.js';
import { namedItems, showValue } from '../../engine/values/texts.js';
import { isList } from '../../guards/guards.js';
import type { KeyInfo, Model } from '../../procedure/model.js';

const hasUnit = (info: KeyInfo): boolean =>
  info.quantity !== undefined && (info.quantity !== 'count' || info.unit !== '');

/** The key whose figure another only hands on, such as `x` of `here ? x : 4000.0`; a rule that reckons hands on none. */
function handsOn(model: Model, info: KeyInfo): KeyInfo | undefined {
  if (info.from.by !== 'fact') return undefined;
  const { fact } = info.from;
  if ('over' in fact) return fact.list === undefined ? undefined : model.keys.get(fact.list.trim());
  const ways = /^(?:[^?]*\?)?\s*([\w.]+)\s*(?::\s*([\w.]+)\s*)?$/.exec(fact.is.trim());
  const keys = [ways?.[1], ways?.[2]].filter((w): w is string => w !== undefined && model.keys.has(w));
  return keys.length === 1 ? model.keys.get(keys[0] ?? '') : undefined;
}

/** The key that says in which unit a figure is: its own, or the one that it hands on. */
function unitKey(model: Model, info: KeyInfo): KeyInfo {
  let at: KeyInfo | undefined = info;
  for (let i = 0; at && i < 8; i++) {
    if (hasUnit(at)) return at;
    at = handsOn(model, at);
  }
  return info;
}

/** `1400 rpm, 2800 rpm` as `1400, 2800 rpm`, where all have one unit. */
export function unitOnce(items: readonly string[]): string {
  const parts = items.map((item) => /^([\d\u00a0.±\s-]+?) (\p{L}.*|[°%].*)$/u.exec(item));
  const unit = parts[0]?.[2];
  if (items.length < 2 || unit === undefined || /\s/.test(unit) || parts.some((p) => p?.[2] !== unit))
    return items.join(', ');
  return `${parts.map((p) => p?.[1]).join(', ')} ${unit}`;
}

function words(state: State, v: ChangedValue, value: Answer | undefined, told: string): string {
  const { model } = state;
  const info = model.keys.get(v.key);
  if (value === undefined || !info || namedItems(state.values, v.key, v.place)) return told;
  const key = unitKey(model, info);
  const numbers = isList(value) ? value.filter((x) => typeof x === 'number') : [];
  if (numbers.length === 0 || !isList(value) || numbers.length < value.length)
    return key === info || typeof value !== 'number' ? told : showValue(model, key.key, value, undefined, 'rounded');
  if (key === info) return unitOnce(told.split(', '));
  return unitOnce(numbers.map((x) => showValue(model, key.key, x, undefined, 'rounded')));
}

/** True when two keys carry one figure: under one name, or one of them worked out from the other with nothing added. */
function sameFigure(model: Model, a: ChangedValue, b: ChangedValue): boolean {
  if (a.place !== b.place) return false;
  const moved = (v: ChangedValue): string => JSON.stringify([v.oldValue ?? null, v.nowValue ?? null]);
  if (moved(a) !== moved(b)) return false;
  if (a.label === b.label) return true;
  const names = (v: ChangedValue): readonly string[] => {
    const from = model.keys.get(v.key)?.from;
    return from?.by === 'fact' && 'is' in from.fact ? model.expression(from.fact.is).names : [];
  };
  return typeof a.nowValue === 'number' && (names(a).includes(b.key) || names(b).includes(a.key));
}

/** In the order in which they came; the first of what is the same figure stays. */
export function changedFigures(state: State, values: readonly ChangedValue[]): ChangedValue[] {
  const out: ChangedValue[] = [];
  for (const v of values) {
    if (out.some((o) => sameFigure(state.model, o, v))) continue;
    out.push({ ...v, old: words(state, v, v.oldValue, v.old), now: words(state, v, v.nowValue, v.now) });
  }
  return out;
}
