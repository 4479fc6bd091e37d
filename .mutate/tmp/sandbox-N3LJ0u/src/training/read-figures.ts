/** One text read as several figures of one kind: “14 mm and 8 mm”, “14; 8”, “14 8”. Pure. */
// @ts-nocheck

import type { QuantityKind } from '../units/kinds.js';
import { parseQuantity } from '../units/parse.js';

export type FiguresRead =
  | { readonly ok: true; readonly values: readonly number[] }
  | { readonly ok: false; readonly message: string };

/** Ways to part them, the surest first. A comma alone may be a decimal comma, so it comes late. */
const parters = [/\s*(?:;|\band\b|&|\/|\+|\n)\s*|,\s+/i, /\s*,\s*/, /\s+/];

/** `wanted` figures when the text can be parted so; otherwise as many as it holds. Bare numbers take the last unit named. */
export function readFigures(text: string, wanted: number, kind: QuantityKind): FiguresRead {
  const whole = text.trim().slice(0, 500);
  let first: FiguresRead | undefined;
  for (const parter of parters) {
    const parts = whole.split(parter).filter(Boolean);
    const read = readAll(parts, kind);
    if (read.ok && read.values.length === wanted) return read;
    if (!first || (!first.ok && read.ok)) first = read;
  }
  return first ?? { ok: false, message: 'Nothing was typed; a guess is allowed.' };
}

function readAll(parts: readonly string[], kind: QuantityKind): FiguresRead {
  const values: number[] = [];
  const unit = /[^\d\s.,+-].*$/.exec(parts.at(-1) ?? '')?.[0];
  for (const part of parts) {
    const bare = /^[\d\s.,+-]+$/.test(part);
    const read = parseQuantity(bare && unit ? `${part} ${unit}` : part, kind);
    if (!read.ok) return { ok: false, message: read.message };
    values.push(read.value);
  }
  return parts.length ? { ok: true, values } : { ok: false, message: 'Nothing was typed; a guess is allowed.' };
}
