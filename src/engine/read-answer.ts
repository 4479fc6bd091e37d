/** What a person types or picks, read as the answer to a question. */
import type { Tables } from '../calc/types.js';
import type { Question } from '../procedure/schema.js';
import { canonicalUnit } from '../units/kinds.js';
import { parseDimensions, parseQuantity } from '../units/parse.js';
import { showQuantity } from '../units/show.js';
import type { Answer } from './entry.js';

export type Read =
  | {
      readonly ok: true;
      readonly value: Answer;
      readonly typed?: string;
      readonly plusMinus?: number;
      /** Set when it is outside the usual range: ask once more before recording. */
      readonly unusual?: string;
    }
  | { readonly ok: false; readonly message: string };

const refuse = (message: string): Read => ({ ok: false, message });
/** Longest text where a question names no other, in UTF-16 units. */
export const TEXT_MOST = 500;

export interface Option {
  readonly value: string;
  readonly label: string;
  readonly note?: string;
}

/** The options of a question that is picked from a list. */
export function optionsOf(question: Question, tables: Tables): readonly Option[] {
  switch (question.kind) {
    case 'choice':
    case 'series':
      return question.options;
    case 'choice-from-table': {
      const rows = tables[question.table]?.rows ?? [];
      return [
        ...(question.options ?? []),
        ...rows.map((r) => {
          const shown = question.show ? r[question.show] : undefined;
          const label = shown === undefined || shown === null ? r.id : `${r.id}  ${shown}`;
          return { value: r.id, label: r.tag === 'shop' ? `${label} (the shop’s own)` : label };
        }),
      ];
    }
    case 'yes-no':
      return [
        { value: 'yes', label: 'Yes' },
        { value: 'no', label: 'No' },
      ];
    default:
      return [];
  }
}

function pick(text: string, options: readonly Option[], label: string): Read {
  const wanted = text.trim().toLowerCase();
  const hit =
    options.find((o) => o.value.toLowerCase() === wanted) ?? options.find((o) => o.label.toLowerCase() === wanted);
  if (hit) return { ok: true, value: hit.value };
  const list = options.slice(0, 12).map((o) => o.value);
  return refuse(
    `${label}: “${brief(text)}” is none of the choices; type one of ${list.join(', ')}${options.length > 12 ? ', …' : ''}.`,
  );
}

/** Three figures are enough for a bound that was worked out. */
const rough = (value: number, shown: (v: number) => string): string => shown(Number(value.toPrecision(3)));

const brief = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);

function ranged(
  value: number,
  shown: (v: number) => string,
  q: { label: string; limits: [number, number]; plausible?: [number, number] | undefined },
): { refuse?: string; unusual?: string } {
  const [low, high] = q.limits;
  if (value < low || value > high)
    return {
      refuse: `${q.label}: ${shown(value)} is outside what can be; type a value from ${shown(low)} to ${shown(high)}.`,
    };
  if (q.plausible && (value < q.plausible[0] || value > q.plausible[1]))
    return {
      unusual: `${q.label}: ${shown(value)} is unusual; ${shown(q.plausible[0])} to ${shown(q.plausible[1])} is common. Measure once more.`,
    };
  return {};
}

/** `1.200` is refused where twelve hundred could be meant as well as one and a fifth. */
function twoWays(text: string, [low, high]: readonly [number, number]): string | undefined {
  const m = /^\s*(\d{1,3})\.(\d{3})\s*$/.exec(text);
  if (!m) return undefined;
  const [asPoint, asThousands] = [Number(text), Number(`${m[1]}${m[2]}`)];
  if (asThousands < low || asThousands > high || asPoint < low) return undefined;
  return `“${brief(text.trim())}” can mean ${asThousands} or ${asPoint}; type ${asThousands} or ${asPoint}.`;
}

/** The number without the word behind it, or what is wrong with that word. */
function withoutUnit(text: string, units: readonly string[] = []): { text: string; strange?: string } {
  const [, number = text, word] = /^(.*\d)\s*(\p{L}[\p{L}.]*)\s*$/u.exec(text) ?? [];
  if (word === undefined || units.some((u) => u.toLowerCase() === word.toLowerCase())) return { text: number };
  const wanted = units[0] === undefined ? `a bare number such as ${number}` : `a number of ${units[0]}`;
  return { text, strange: `“${brief(word)}” does not belong behind it; type ${wanted}.` };
}

/** What can be held against an answer only in the job: how far a counter has to go, what cannot be more, what was asked for. */
export interface Bounds {
  readonly counted?: number | undefined;
  readonly most?: number | undefined;
  readonly wanted?: number | undefined;
}

/** Something that stands alone beside another answer, or twice where each can be said but once. */
function severalTrouble(q: Extract<Question, { kind: 'series' }>, values: readonly string[]): string | undefined {
  const label = (value: string): string => q.options.find((o) => o.value === value)?.label ?? value;
  // Only a list of what was found has such an option; letters or balls one by one may well be alike.
  if (q.each !== undefined || !q.options.some((o) => o.alone)) return undefined;
  const alone = values.find((v) => q.options.find((o) => o.value === v)?.alone);
  if (alone !== undefined && values.length > 1)
    return `${q.label}: “${label(alone)}” can’t stand beside another answer; give it alone or leave it out.`;
  const twice = values.find((v, i) => values.indexOf(v) !== i);
  return twice === undefined ? undefined : `${q.label}: “${label(twice)}” stands there twice; give each once.`;
}

/** Read what was typed (or picked, by the option's value). */
export function readAnswer(question: Question, raw: unknown, tables: Tables, bounds: Bounds = {}): Read {
  const { counted } = bounds;
  const text = Array.isArray(raw) ? raw.join(',') : typeof raw === 'boolean' ? (raw ? 'yes' : 'no') : String(raw ?? '');
  const q = question;
  if (text.trim() === '' && q.optional) return { ok: true, value: '' };
  if (text.trim() === '' && q.kind !== 'text') return refuse(`${q.label}: nothing was typed; give an answer first.`);
  switch (q.kind) {
    case 'choice':
    case 'choice-from-table':
      return pick(text, optionsOf(q, tables), q.label);
    case 'yes-no': {
      const word = text.trim().toLowerCase();
      if (['yes', 'y', 'true'].includes(word)) return { ok: true, value: true };
      if (['no', 'n', 'false'].includes(word)) return { ok: true, value: false };
      return refuse(`${q.label}: “${brief(text)}” is neither yes nor no; type yes or no.`);
    }
    case 'series': {
      const items = text.split(/[,;\s]+/).filter(Boolean);
      const read = items.map((i) => pick(i, q.options, q.label));
      const bad = read.find((r) => !r.ok);
      if (bad) return bad;
      if (items.length < q.least || items.length > q.most)
        return refuse(
          `${q.label}: ${items.length} given; ${q.least} to ${q.most} are expected, such as ${q.options[0]?.value},${q.options[0]?.value}.`,
        );
      const values = read.map((r) => (r.ok ? String(r.value) : ''));
      const trouble = severalTrouble(q, values);
      return trouble === undefined ? { ok: true, value: values, typed: text } : refuse(trouble);
    }
    case 'text': {
      const most = q.longest ?? TEXT_MOST;
      if (text.length > most)
        return refuse(`${q.label}: ${text.length} characters are too many; shorten it to ${most}.`);
      if (text.trim() === '' && !q.optional) return refuse(`${q.label}: nothing was typed; write a word or two.`);
      return { ok: true, value: text.trim() };
    }
    case 'number':
    case 'counter': {
      const whole = q.kind === 'counter' || q.whole === true;
      const bare = q.kind === 'number' ? withoutUnit(text, q.units) : { text };
      if (bare.strange !== undefined) return refuse(`${q.label}: ${bare.strange}`);
      const read = parseQuantity(bare.text, whole ? 'count' : 'ratio');
      if (!read.ok) return refuse(`${q.label}: ${read.message}`);
      if (q.kind === 'counter') {
        if (counted !== undefined && read.value !== counted)
          return refuse(
            `${q.label}: ${read.value} counted, but ${counted} ${q.unit} are to be done; count again and type ${counted}.`,
          );
        return { ok: true, value: read.value, typed: text };
      }
      const thousands = whole ? undefined : twoWays(text, q.limits);
      if (thousands) return refuse(`${q.label}: ${thousands}`);
      const r = ranged(read.value, (v) => String(v), q);
      if (r.refuse) return refuse(r.refuse);
      return { ok: true, value: read.value, typed: text, plusMinus: read.plusMinus, unusual: r.unusual };
    }
    case 'quantity': {
      const read = parseQuantity(text, q.quantity, q.unit);
      if (!read.ok) return refuse(`${q.label}: ${read.message}`);
      const shown = (v: number): string => showQuantity(v, q.quantity);
      const r = ranged(read.value, shown, q);
      if (r.refuse) return refuse(r.refuse);
      const { most, wanted } = bounds;
      if (most !== undefined && read.value > most * (1 + 1e-9))
        return refuse(
          `${q.label}: ${shown(read.value)} cannot be; there is ${rough(most, shown)} at most. Look at the point and the unit, and type it again.`,
        );
      const far = wanted !== undefined && wanted > 0 && (read.value > 2 * wanted || read.value < 0.5 * wanted);
      const unusual = far
        ? `${q.label}: ${shown(read.value)} is far from the ${rough(wanted, shown)} that was asked for. Measure once more.`
        : r.unusual;
      return { ok: true, value: read.value, typed: text, plusMinus: read.plusMinus, unusual };
    }
    case 'dimensions': {
      const read = parseDimensions(text, q.parts.length, q.unit);
      if (!read.ok) return refuse(`${q.label}: ${read.message}`);
      let unusual: string | undefined;
      for (const v of read.values) {
        const r = ranged(v, (x) => showQuantity(x, 'length', { unit: canonicalUnit.length }), q);
        if (r.refuse) return refuse(r.refuse);
        unusual ??= r.unusual;
      }
      return { ok: true, value: read.values, typed: text, unusual };
    }
  }
}
