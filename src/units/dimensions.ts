/** Reads a block or a face typed as one: `12x9x4 mm`, `12 × 9 × 4`, `1 in x 10 mm x 5 mm`. */
import type { QuantityKind } from './kinds.js';
import { cleaned, readMeasure } from './measure.js';
import { expected } from './wording.js';

export type DimensionsRead =
  | { readonly ok: true /** mm */; readonly values: readonly number[] /** as typed */; readonly unit: string }
  | { readonly ok: false; readonly message: string };

const refuse = (message: string): { ok: false; message: string } => ({ ok: false, message });
const example = (count: number): string => `${['12', '9', '4', '4', '4'].slice(0, count).join('x')} mm`;

/** True for a text with a multiplication sign between two figures. */
export const looksLikeDimensions = (text: string): boolean => /\d[^\dx×*]*(?:[x×*]|\bby\b)\s*[\d.,]/i.test(text);

/** `count` lengths in mm. One unit behind the last (or the first) holds for all; bare numbers are in `bareUnit`. */
export function parseDimensions(text: string, count: number, bareUnit = 'mm'): DimensionsRead {
  const clean = cleaned(text, 'length');
  if (!clean.ok) return refuse(clean.message.replace(expected.length, `${count} lengths such as ${example(count)}`));
  const parts = clean.text.split(/\s*(?:[x×*]|\bby\b)\s*/i);
  if (parts.length !== count)
    return refuse(`That is ${parts.length} of ${count} lengths: type all ${count}, such as ${example(count)}.`);
  const typed = parts.map((part) => /[a-zµμ"″]+$/i.exec(part)?.[0]);
  const given = [...new Set(typed.filter((unit): unit is string => unit !== undefined))];
  const missing = typed.some((unit) => unit === undefined);
  if (missing && given.length > 1)
    return refuse(`It is not clear which unit each length has: type one unit for all, such as ${example(count)}.`);
  const unit = given[0] ?? bareUnit;
  const values: number[] = [];
  for (const part of parts) {
    const read = readMeasure(part, 'length' satisfies QuantityKind, unit);
    if (!read.ok) return refuse(read.message);
    values.push(read.value);
  }
  return { ok: true, values, unit: given.join(', ') || bareUnit };
}
