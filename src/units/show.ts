/** Shows a quantity with as many figures as it deserves. */
import { canonicalUnit, kindTraits, type QuantityKind } from './kinds.js';
import { inDays } from './shown-units.js';
import { findUnit, type Unit, units } from './unit-names.js';

/** Keeps `12 000` on one line. */
const groupBlank = '\u00a0';

/** `12000` as `12 000` (a no-break blank between), from five figures on. */
function grouped(text: string): string {
  const [whole = '', part] = text.split('.');
  const digits = whole.replace('-', '');
  const spaced = digits.length < 5 ? whole : whole.replace(/\B(?=(\d{3})+(?!\d))/g, groupBlank);
  return part === undefined ? spaced : `${spaced}.${part}`;
}

/** Decimals that a half width allows: one figure of it, two for 1.1 to 1.9. Negative: tens and up. */
function decimalsFor(plusMinus: number): number {
  const power = Math.floor(Math.log10(plusMinus) + 1e-9);
  const first = plusMinus / 10 ** power;
  return (first >= 1.05 && first < 1.95 ? 1 : 0) - power;
}

/** Fixed decimals, or rounded to tens and more when `decimals` is negative. */
function fixed(value: number, decimals: number): string {
  // Halves go up as on paper: toFixed alone makes 0.86 of 0.865.
  if (decimals >= 0) return (value * (1 + 1e-12)).toFixed(Math.min(decimals, 12));
  const step = 10 ** -decimals;
  return (Math.round(value / step) * step).toFixed(0);
}

/** Nothing that is measured here is so small in its canonical unit: what is left of equal figures when they are subtracted. */
const DUST = 1e-9;
export const withoutDust = (value: number): number => (Math.abs(value) < DUST ? 0 : value);

/** Speeds that were worked out: nobody sets a drive to the single turn. */
const SPEED = 4;

function plainFigures(value: number, kind: QuantityKind, options: ShowOptions, canonical: boolean): string {
  const figures = options.figures ?? FIGURES;
  const size = Math.abs(value);
  if (kind === 'money') return Number.isInteger(value) ? value.toFixed(0) : value.toFixed(2);
  const workedOut = options.figures !== undefined && canonical;
  if (workedOut && (kind === 'speed' || kind === 'speed-factor') && size >= 10 ** SPEED)
    return Number(value.toPrecision(SPEED)).toFixed(0);
  if (canonical && kindTraits[kind].whole && size >= 10) return value.toFixed(0);
  if (workedOut && kind === 'length' && size >= 1 && size < 100) return String(Number(value.toFixed(RULE)));
  if (size >= 10 ** figures) return value.toFixed(0);
  return String(Number(value.toPrecision(figures)));
}

/** Decimals that so many significant figures have; none where nothing is asked for. */
const decimalsOfFigures = (value: number, figures: number | undefined): number =>
  figures === undefined || value === 0 ? -12 : figures - 1 - Math.floor(Math.log10(Math.abs(value)) + 1e-9);

const decimalsOf = (text: string): number => text.split('.')[1]?.length ?? 0;

/** Significant figures where nothing else is said. */
const FIGURES = 4;
/** Lengths that a hand sets: a rule reads a tenth of a millimetre, however wide the figure is. */
const RULE = 1;

/** No figure that the half width does not bear, no zero of what is not zero, no more than without a half width. */
function roundedBy(value: number, half: number, plain: string, kind: QuantityKind, unit: string): string {
  if (value === 0 || kind === 'money' || plain.includes('e')) return plain;
  const first = -Math.floor(Math.log10(Math.abs(value)) + 1e-9);
  const least = unit === 'mm' ? Math.max(first, RULE) : first;
  // Nobody sets a hundredth of a millimetre that is itself in doubt by more.
  const byHand = unit === 'mm' && half >= 0.05 && Math.abs(value) >= 1;
  const most = kindTraits[kind].whole
    ? decimalsOf(plain)
    : Math.min(byHand ? RULE : FIGURES, Math.max(0, FIGURES - 1 + first));
  return fixed(value, Math.min(most, Math.max(decimalsFor(half), least)));
}

export interface ShowOptions {
  /** Half width in the canonical unit. */
  readonly plusMinus?: number | undefined;
  /** Half width that the value is rounded by without being shown. */
  readonly roundBy?: number | undefined;
  /** A reading: with its half width it keeps the figures that were read, also those below that half width. */
  readonly asRead?: boolean;
  /** Show in this unit instead of the canonical one. */
  readonly unit?: string | undefined;
  /** Significant figures that are shown at least, whatever the half width: others are reckoned with it by hand. */
  readonly least?: number | undefined;
  /** Significant figures where no half width is known; 4 unless said. */
  readonly figures?: number;
}

/** The canonical unit, or of a kind with a scale the largest in which the figure is 1 or more. */
function nearUnit(value: number, kind: QuantityKind): Unit | undefined {
  const scale = kindTraits[kind].scale.flatMap((u) => findUnit(u, kind) ?? []);
  if (value === 0 || scale.length === 0) return units[kind][0];
  return scale.filter((u) => Math.abs(u.from(value)) >= 1).at(-1) ?? scale[0];
}

/**
 * What was worked out (canonical) as text with its unit, rounded by its half width.
 * Durations as `1 h 30 min` unless a unit is asked for. Values that are not finite show as `-`.
 */
export function showQuantity(worked: number, kind: QuantityKind, options: ShowOptions = {}): string {
  if (!Number.isFinite(worked)) return '-';
  const value = withoutDust(worked);
  if (kind === 'duration' && options.unit === undefined && options.plusMinus === undefined) return showDuration(value);
  const unit = options.unit === undefined ? nearUnit(value, kind) : (findUnit(options.unit, kind) ?? units[kind][0]);
  const from = unit?.from ?? ((v: number) => v);
  const shown = from(value);
  const width = (by: number | undefined): number => (by === undefined ? 0 : Math.abs(from(by) - from(0)));
  const half = width(options.plusMinus);
  const name = unit?.show ?? canonicalUnit[kind];
  const tail = name === '' ? '' : name === '°' ? '°' : ` ${name}`;
  const plain = plainFigures(shown, kind, options, from(1) === 1);
  const by = width(options.roundBy);
  if (!(half > 0) || !Number.isFinite(half)) {
    const rounded = by > 0 && Number.isFinite(by) ? roundedBy(shown, by, plain, kind, name) : plain;
    const least = decimalsOfFigures(shown, options.least);
    const text = decimalsOf(rounded) < least ? fixed(shown, least) : rounded;
    return `${grouped(minus(text))}${tail}`;
  }
  const decimals = Math.max(decimalsFor(half), decimalsOfFigures(shown, options.least));
  const told = options.asRead && decimalsOf(plain) > decimals ? plain : fixed(shown, decimals);
  return `${grouped(minus(told))} ± ${grouped(fixed(half, decimals))}${tail}`;
}

/** Never `-0`. */
const minus = (text: string): string => (/^-[0.]*$/.test(text) ? text.slice(1) : text);

/** Minutes as `45 s`, `7.5 min`, `1 h 30 min`, `120 h`; days only where hours say little (from 10 days on). */
export function showDuration(minutes: number): string {
  const size = Math.abs(minutes);
  const sign = minutes < 0 ? '-' : '';
  if (size === 0) return '0 min';
  if (size < 1) return `${sign}${Number((size * 60).toPrecision(3))} s`;
  if (size < 60) {
    const rounded = Number(size.toPrecision(3));
    return rounded >= 60 ? `${sign}1 h` : `${sign}${rounded} min`;
  }
  const whole = Math.round(size);
  if (whole >= 10 * 24 * 60) {
    const days = Math.round(whole / (24 * 60));
    return `${sign}${grouped(String(days))} ${inDays}`;
  }
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  return rest === 0 || hours >= 100 ? `${sign}${hours} h` : `${sign}${hours} h ${rest} min`;
}
