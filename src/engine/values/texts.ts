/** Values as words: for texts with {key} in them, for screens and for the sheet. */
import { isList } from '../../guards/guards.js';
import { type KeyInfo, keepsTyped, type Model } from '../../procedure/model.js';
import { optionsOf, type Question, quantityOf } from '../../procedure/questions/index.js';
import { currencyIn } from '../../units/currency.js';
import { canonicalUnit } from '../../units/kinds.js';
import { type ShowOptions, showQuantity, withoutDust } from '../../units/show.js';
import type { Answer } from '../journal/entry.js';
import type { Values } from './values.js';

/** Significant figures of what was worked out from readings whose width nobody knows. */
const WORKED_OUT = 3;
/** A mark along a rule, in mm. */
const MARK = 0.1;

/** From so many minutes on a time is told in minutes, though it was asked for in seconds. */
const STOPWATCH = 10;

const one = (
  info: KeyInfo | undefined,
  value: number | string | boolean,
  width: Pick<ShowOptions, 'plusMinus' | 'roundBy' | 'asRead' | 'figures'> = {},
  model?: Model,
): string => {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const asked = info && 'question' in info.from ? info.from.question : undefined;
  if (typeof value === 'number') {
    // A number without a quantity keeps its figures, unless a half width is told with it.
    if (!info?.quantity)
      return width.plusMinus ? showQuantity(value, 'ratio', width) : String(Number(withoutDust(value).toPrecision(6)));
    // A plain ratio has no unit of its own; a calculator may give it one, such as mm/mL.
    const unit = info.quantity === 'ratio' && info.unit ? ` ${info.unit}` : '';
    // A time that is asked for in seconds is told in seconds, as the stopwatch shows it.
    const worked = 'fact' in info.from && 'is' in info.from.fact ? info.from.fact : undefined;
    const unitOf = asked?.kind === 'quantity' ? asked.unit : worked?.unit;
    const seconds = info.quantity === 'duration' && unitOf === 's' && Math.abs(value) < STOPWATCH;
    const how = { ...width, least: worked?.figures, ...(seconds ? { unit: 's' } : {}) };
    return `${showQuantity(value, info.quantity, how)}${unit}`;
  }
  if (asked && model) return optionsOf(asked, model.tables).find((o) => o.value === value)?.label ?? value;
  return value;
};

/** A value of a key as a person reads it. */
export function showValue(
  model: Model,
  key: string,
  value: Answer,
  plusMinus?: number | readonly number[],
  how: 'with-width' | 'as-read' | 'rounded' = 'with-width',
): string {
  const info = model.keys.get(key);
  const width = (half: number | undefined) =>
    how === 'rounded' ? { roundBy: half, figures: WORKED_OUT } : { plusMinus: half, asRead: how === 'as-read' };
  if (!isList(value)) return one(info, value, width(isList(plusMinus) ? undefined : plusMinus), model);
  return value.map((v, i) => one(info, v, width(isList(plusMinus) ? plusMinus[i] : undefined), model)).join(', ');
}

/** What a key is called at a place; itself where there is none such. */
export const labelAt = (values: Values, key: string, place: string): string =>
  fillIn(values, values.model.keys.get(key)?.label ?? key, place);

/**
 * The items of a named list, each with its name; undefined where it has none, or not as many as items. They are what a hand is to set, such as
 * marks along a rule, so that the figure is the same wherever it stands, with what it may be off by where there is room.
 */
export function namedItems(
  values: Values,
  key: string,
  place: string,
  withSpread = false,
): readonly { readonly name: string; readonly shown: string }[] | undefined {
  const info = values.model.keys.get(key);
  if (info?.names === undefined) return undefined;
  const list = values.get(key, place);
  const names = values.get(info.names, place);
  if (!list.known || !names.known || !isList(list.value) || !isList(names.value)) return undefined;
  const called = names.value.map(String);
  if (called.length !== list.value.length) return undefined;
  const half = isList(list.plusMinus) ? list.plusMinus : [];
  return list.value.map((item, i) => {
    const roundBy = half[i] ?? (info.quantity === 'length' ? MARK : undefined);
    const width = withSpread && half[i] !== undefined ? { plusMinus: half[i] } : { roundBy };
    return { name: called[i]!, shown: one(info, item, width, values.model) };
  });
}

/** A key at a place in words; "not known yet" when it is not. */
export function showKey(values: Values, key: string, place: string, withSpread = false): string {
  const v = values.get(key, place);
  if (!v.known) return 'not known yet';
  const items = namedItems(values, key, place);
  if (items) return items.map((i) => `${i.name}: ${i.shown}`).join('; ');
  const read = v.origin.from === 'answer';
  const typed = v.origin.from === 'answer' ? v.origin.typed : undefined;
  const info = values.model.keys.get(key);
  const currency = typed !== undefined && info?.quantity === 'money' ? currencyIn(typed) : undefined;
  // Letters behind a size, such as those of its clearance, say more than the row.
  if (typed !== undefined && keepsTyped(info) && info?.quantity === undefined) return typed;
  if (currency) return `${showValue(values.model, key, v.value)} ${currency}`;
  // What was read stands as it was read; what was worked out has the figures that it deserves.
  if (withSpread) {
    const how = read ? 'as-read' : v.plusMinus === undefined ? 'rounded' : 'with-width';
    return showValue(values.model, key, v.value, v.plusMinus, how);
  }
  return showValue(values.model, key, v.value, read ? undefined : v.plusMinus, read ? 'as-read' : 'rounded');
}

/** The name of a figure inside a sentence, such as `(dose)`. */
function named({ label, key }: KeyInfo): string {
  const bare =
    label
      .replace(/\{[^}]*\}/g, '')
      .replace(/\s+/g, ' ')
      .trim() || key;
  return `(${/^.\p{Lu}/u.test(bare) ? bare : `${bare.slice(0, 1).toLowerCase()}${bare.slice(1)}`})`;
}

/** What was expected as it was said; a bare figure is taken in the unit that stood on the screen. */
export function predictionWords(
  model: Model,
  { key, typed, value }: { readonly key: string; readonly typed?: string; readonly value: Answer },
): string {
  const said = typed ?? String(value);
  const { unit = '' } = model.keys.get(key) ?? {};
  return unit && /^[\d\s.,]+$/.test(said) ? `${said.trim()} ${unit}` : said;
}

/** Keys that a text names in braces, each as often as it stands there. */
export const keysNamedIn = (text: string): string[] =>
  [...text.matchAll(/\{([a-z][a-z0-9_]*)/g)].map((m) => m[1] ?? '');

/** Replaces {key}; `special` answers for {key.old} and the like. */
export function fillIn(
  values: Values,
  text: string,
  place: string,
  special?: (name: string) => string | undefined,
): string {
  return text.replace(/\{([a-z][a-z0-9_]*(?:\.[a-z]+)?)\}/g, (whole, name: string) => {
    const own = special?.(name);
    if (own !== undefined) return own;
    const info = values.model.keys.get(name);
    // In a sentence an unknown figure is named, so that the sentence can still be read.
    if (info) return values.get(name, place).known ? showKey(values, name, place) : named(info);
    // {key.old} and {key.change} where there is nothing to tell them from.
    return values.model.keys.has(name.split('.')[0] ?? '') ? 'not known' : whole;
  });
}

/** What a question suggests, as it would be typed; undefined while it is not known. */
export function suggestionOf(values: Values, q: Question, place: string): string | undefined {
  if (q.suggest === undefined) return undefined;
  const v = values.evaluate(q.suggest, place);
  if (!v.known || Array.isArray(v.value)) return undefined;
  if (typeof v.value === 'boolean') return v.value ? 'yes' : 'no';
  if (typeof v.value !== 'number') return String(v.value) || undefined;
  const number = String(Number(v.value.toPrecision(6)));
  const kind = quantityOf(q);
  return kind ? `${number} ${canonicalUnit[kind]}`.trim() : number;
}
