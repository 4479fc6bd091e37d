/** Reads what people type, in any usual unit, into the canonical unit of its kind. Never guesses. */
import { looksLikeDimensions, parseDimensions } from './dimensions.js';
import { canonicalUnit, type QuantityKind } from './kinds.js';
import { cleaned, type QuantityRead, readMeasure } from './measure.js';
import { expected } from './wording.js';

export { parseDimensions } from './dimensions.js';
export type { QuantityRead } from './measure.js';

/**
 * Value in the canonical unit of `kind`, or one sentence that says what to type.
 * A number without a unit is in `bareUnit`. `unit` in the answer is as typed.
 */
export function parseQuantity(text: string, kind: QuantityKind, bareUnit: string = canonicalUnit[kind]): QuantityRead {
  if (kind === 'duration') return parseDuration(text, bareUnit);
  if (kind === 'speed' && /hz/i.test(text)) return parseDriveSpeed(text, bareUnit);
  if (kind === 'room' && looksLikeDimensions(text)) {
    const read = parseDimensions(text, 3, 'm');
    if (!read.ok) return { ok: false, message: `${read.message.replace(/: type .*$/, '')}: type ${expected.room}.` };
    const value = read.values.reduce((product, mm) => product * (mm / 1000), 1);
    return { ok: true, value: Number(value.toPrecision(12)), unit: read.unit };
  }
  return readMeasure(text, kind, bareUnit);
}

/**
 * A speed that a drive shows as a frequency: turns a minute are 60 f by the pole pairs, which have to stand behind it. Slip
 * makes an induction motor a little slower, so it is the most that it can turn.
 */
function parseDriveSpeed(text: string, bareUnit: string): QuantityRead {
  const clean = cleaned(text, 'speed');
  if (!clean.ok) return clean;
  const [, shown = '', unit = '', count = '', what = ''] =
    /^(.*?)\s*(k?hz)[\s,;/x]*(\d+)?\s*(pp|pairs?|pole ?pairs?|poles?)?$/i.exec(clean.text) ?? [];
  const frequency = readMeasure(`${shown} ${unit}`, 'frequency');
  if (!shown || !frequency.ok) return readMeasure(text, 'speed', bareUnit);
  if (!count || !what)
    return {
      ok: false,
      message: `${shown} ${unit} is what the drive puts out, not turns: type the pole pairs behind it, such as ${shown} ${unit} 2 pp - half the poles of the plate.`,
    };
  const poles = /^poles?$/i.test(what);
  const pairs = Number(count) / (poles ? 2 : 1);
  if (!Number.isInteger(pairs) || pairs < 1 || pairs > 50)
    return {
      ok: false,
      message: `“${count} ${what}” is no number of ${poles ? 'poles' : 'pole pairs'}: type 1 to 50 pole pairs, such as ${shown} ${unit} 2 pp.`,
    };
  const half = frequency.plusMinus === undefined ? {} : { plusMinus: (60 * frequency.plusMinus) / pairs };
  return { ok: true, value: (60 * frequency.value) / pairs, unit: `${unit} ${count} ${what}`, ...half };
}

/** Time also as `1 h 30 min` or `1h30`. `1:30` is refused: hours or minutes can't be told. */
function parseDuration(text: string, bareUnit: string): QuantityRead {
  const clean = cleaned(text, 'duration');
  if (!clean.ok) return clean;
  if (/\d\s*:\s*\d/.test(clean.text))
    return { ok: false, message: `"${clean.text}" can be hours or minutes: type ${expected.duration}.` };
  const pair =
    /^(\d+ ?(?:h|hrs?|hours?)) ?(\d+)( ?(?:m|min|mins|minutes?))?$/i.exec(clean.text) ??
    /^(\d+ ?(?:d|days?)) ?(\d+)( ?(?:h|hrs?|hours?))$/i.exec(clean.text);
  if (!pair) return readMeasure(text, 'duration', bareUnit);
  const whole = readMeasure(pair[1] ?? '', 'duration');
  const rest = readMeasure(`${pair[2]} ${pair[3] ?? 'min'}`, 'duration');
  if (!whole.ok) return whole;
  if (!rest.ok) return rest;
  return { ok: true, value: whole.value + rest.value, unit: clean.text.replace(/^\d+ ?/, '').replace(/[\d ]+/g, ' ') };
}
