/** One number with its unit, and with what it may be off by, as a person types it. */
import { canonicalUnit, kindTraits, type QuantityKind } from './kinds.js';
import { plainText, readNumber, splitNumber } from './number.js';
import { findUnit, kindsOfUnit, tidy, type Unit } from './unit-names.js';
import { expected, kindName } from './wording.js';

export type QuantityRead =
  | {
      readonly ok: true;
      /** In the canonical unit of the kind. */
      readonly value: number;
      /** As typed; the bare unit when none was. */
      readonly unit: string;
      /** Half width in the canonical unit. */
      readonly plusMinus?: number;
    }
  | { readonly ok: false; readonly message: string };

const longest = 80;
const refuse = (message: string): { ok: false; message: string } => ({ ok: false, message });

/** Text cleaned for reading, or the complaint that it is empty, far too long or has a raised figure in it. */
export function cleaned(text: string, kind: QuantityKind): { ok: true; text: string } | { ok: false; message: string } {
  if (text.length > longest) return refuse(`That is too long to be one answer: type ${expected[kind]}.`);
  const plain = plainText(text);
  if (/\d\s*[⁰¹²³⁴-⁹₀-₉]/.test(plain)) return refuse(`A raised or lowered figure is not read: type ${expected[kind]}.`);
  if (plain === '') return refuse(`Nothing was typed: type ${expected[kind]}.`);
  return { ok: true, text: plain };
}

/** Number and unit, either of which may be missing its unit; `undefined` unit means none was typed. */
type Part = { ok: true; value: number; unit: Scale | undefined; typedUnit: string } | { ok: false; message: string };
/** What a figure with that unit is in the canonical one. */
type Scale = Pick<Unit, 'to'>;

function readPart(text: string, kind: QuantityKind, extraUnit?: (typed: string) => Scale | undefined): Part {
  const currency = kind === 'money' ? /^([€$£]|[a-z]{3} )\s*(.*)$/is.exec(text) : null;
  const body = currency ? `${currency[2]} ${currency[1]?.trim()}` : text;
  const split = splitNumber(body);
  if (!split) return refuse(`"${text}" has no number in front: type ${expected[kind]}.`);
  const { factor, rest: typedUnit } = shortened(split.rest.trim(), kind);
  const unit = typedUnit === '' ? undefined : (extraUnit?.(typedUnit) ?? findUnit(typedUnit, kind));
  if (typedUnit !== '' && !unit) return refuse(wrongUnit(typedUnit, kind));
  const strict = kindTraits[kind].whole && (unit === undefined || unit.to(1) === 1);
  const number = readNumber(split.number, strict);
  if (!number.ok) return refuse(`${number.message.replace(/[.]$/, '')}${strictTail(number.message, kind)}`);
  return { ok: true, value: number.value * factor, unit, typedUnit };
}

/** Kinds whose figures are large and have no unit that is written so: `15k` and `1.6M` can only be meant one way. */
export const isShortened = (kind: QuantityKind): boolean => kindTraits[kind].whole && kind !== 'concentration';

/** A `k` or `M` right behind the figure, alone or with a unit behind it, and what follows it. */
function shortened(rest: string, kind: QuantityKind): { factor: number; rest: string } {
  const [, sign = '', unit = ''] = (isShortened(kind) && /^([kKM])(?:\s+(.*))?$/s.exec(rest)) || [];
  return sign ? { factor: sign === 'M' ? 1e6 : 1e3, rest: unit } : { factor: 1, rest };
}

const strictTail = (message: string, kind: QuantityKind): string =>
  message.includes(': type ') ? '.' : `: type ${expected[kind]}.`;

function wrongUnit(typed: string, kind: QuantityKind): string {
  if (kind === 'volume' && /^(oz|ounces?)\.?$/i.test(typed))
    return 'An "oz" alone is a mass (28.35 g), not a volume: type fl oz for the US fluid ounce (29.57 mL), or a volume such as 1.5 mL.';
  if (kind === 'mass' && /fl/i.test(typed) && /oz|ounce/i.test(typed))
    return 'A fluid ounce is a volume (29.57 mL), not a mass: type oz for the mass, or a mass such as 128 g.';
  if (kind === 'mass' && /^gr\.?$/i.test(typed))
    return 'A "gr" can be a gram or a grain (0.0648 g): type g for grams, such as 128 g.';
  if (kind === 'money' && /^[a-z]{3}$/i.test(typed) && kindsOfUnit(typed).length === 0)
    return `"${typed}" is no currency of ISO 4217: type a bare amount such as 480, or one with its code, such as 480 EUR.`;
  const shown = typed.length > 20 ? `${typed.slice(0, 20)}…` : typed;
  const [other] = kindsOfUnit(typed);
  if (other) return `"${shown}" is a unit of ${kindName[other]}: type ${expected[kind]}.`;
  return `"${shown}" is not a unit of ${kindName[kind]}: type ${expected[kind]}.`;
}

const asIs: Scale = { to: (value) => value };
const hundredth: Scale = { to: (value) => value / 100 };

/** A kelvin or a percentage behind the +- sign is a width, not a value of the kind. */
function widthUnit(typed: string, kind: QuantityKind): Scale | undefined {
  if (kind === 'temperature' && /^k(elvin)?$/i.test(typed)) return asIs;
  return typed === '%' && kind !== 'share' && kind !== 'concentration' ? hundredth : undefined;
}

/** Reads `14.5 mm`, `14,5`, `1/2 in`, `14.5 +- 0.1 mm`. Bare numbers are in `bareUnit`. */
export function readMeasure(text: string, kind: QuantityKind, bareUnit: string = canonicalUnit[kind]): QuantityRead {
  const clean = cleaned(text, kind);
  if (!clean.ok) return clean;
  const parts = clean.text.split(/\s*(?:±|\+ ?\/? ?-)\s*/);
  const [first = '', second] = parts;
  if (parts.length > 2) return refuse(`There is more than one +- in that: type ${expected[kind]}.`);
  const main = readPart(first, kind);
  if (!main.ok) return main;
  const bare = findUnit(bareUnit, kind) ?? asIs;
  if (second === undefined) return finish(main.value, main.unit ?? bare, main.typedUnit || bareUnit, kind);

  const hint = `type the width behind the sign, such as 14.5 +- 0.1`;
  if (second === '') return refuse(`Nothing follows the +-: ${hint}.`);
  let own: Scale | undefined;
  const width = readPart(second, kind, (typed) => {
    own = widthUnit(typed, kind);
    return own;
  });
  if (!width.ok) return width;
  if (width.value < 0) return refuse(`The width behind +- can't be negative: ${hint}.`);
  const unit = main.unit ?? (own ? undefined : width.unit) ?? bare;
  const half = own
    ? own.to(width.value) * (own === hundredth ? scaleOf(unit, main.value) : 1)
    : scaleOf(width.unit ?? unit, width.value);
  return finish(main.value, unit, main.typedUnit || (own ? '' : width.typedUnit) || bareUnit, kind, tidy(half));
}

/** Width in the canonical unit: the offset of °F falls out. */
const scaleOf = (unit: Scale, width: number): number => Math.abs(unit.to(width) - unit.to(0));

function finish(value: number, unit: Scale, typed: string, kind: QuantityKind, plusMinus?: number): QuantityRead {
  const canonical = unit.to(value);
  if (canonical < 0 && !kindTraits[kind].belowZero)
    return refuse(`A ${kindName[kind]} can't be negative: type ${expected[kind]}.`);
  if (kind === 'temperature' && canonical < -273.15)
    return refuse(`That is below absolute zero: type ${expected[kind]}.`);
  if (kind === 'count' && !Number.isInteger(canonical))
    return refuse(`A count has no fractions: type ${expected[kind]}.`);
  return { ok: true, value: canonical, unit: typed, ...(plusMinus === undefined ? {} : { plusMinus }) };
}
