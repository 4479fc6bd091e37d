/** Inputs that several calculators share, with the limits within which their formulas hold. */
import type { QuantityKind } from '../units/kinds.js';
import type { InputSpec, ResultSpec, Source } from './types.js';

type Limits = readonly [number, number];

export const quantityInput = (
  label: string,
  kind: QuantityKind,
  unit: string,
  limits: Limits,
  optional = false,
): InputSpec => ({ type: 'quantity', label, kind, unit, limits, ...(optional ? { optional } : {}) });

export const length = (label: string, limits: Limits, optional = false): InputSpec =>
  quantityInput(label, 'length', 'mm', limits, optional);
export const speed = (label: string, limits: Limits = [1, 200_000], optional = false): InputSpec =>
  quantityInput(label, 'speed', 'rpm', limits, optional);
/** `table`: its rows are choices too. */
export const choiceInput = (
  label: string,
  choices: readonly string[],
  optional = false,
  table: string | undefined = undefined,
): InputSpec => ({
  type: 'choice',
  label,
  choices,
  ...(table === undefined ? {} : { table }),
  ...(optional ? { optional } : {}),
});
export const flag = (label: string): InputSpec => ({ type: 'flag', label, optional: true });

export const bore: InputSpec = length('Bore', [1, 1000]);
export const outsideInput: InputSpec = length('Outside diameter', [2, 1500]);
export const width: InputSpec = length('Width', [1, 500]);
export const ndm = (optional = false): InputSpec =>
  quantityInput('Speed factor n dm', 'speed-factor', 'mm/min', [1, 1e7], optional);

/** A result in the canonical unit of its kind. */
export const result = (label: string, kind: QuantityKind, unit: string, list = false): ResultSpec => ({
  label,
  kind,
  unit,
  ...(list ? { list } : {}),
});
export const yesNoResult = (label: string): ResultSpec => ({ label, unit: '', flag: true });
export const oneOf = (label: string, words: readonly string[]): ResultSpec => ({ label, unit: '', words });
export const word = (label: string, list = false): ResultSpec => ({ label, unit: '', ...(list ? { list } : {}) });

export const arithmetic = (text: string): Source => ({ tag: 'A', text });
export const usual = (text: string): Source => ({ tag: 'M', text });
export const commonPractice = (text: string): Source => ({ tag: 'CP', text });

/** A figure for a worked line: four figures, trailing zeros cut. */
export const figure = (value: number, figures = 4): string => {
  if (!Number.isFinite(value)) return '-';
  if (Math.abs(value) >= 10 ** figures) return value.toFixed(0);
  return String(Number(value.toPrecision(figures)));
};
