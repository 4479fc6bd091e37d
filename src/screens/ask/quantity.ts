/** A measured value: digits, and its unit by an arrow or typed behind it. */
import type { Controls } from '../../procedure/questions/kind.js';
import type { QuantityKind } from '../../units/kinds.js';
import { isShortened } from '../../units/measure.js';
import { powerOfTen } from '../../units/number.js';
import { unitPresets } from '../../units/presets.js';
import { findUnit } from '../../units/unit-names.js';
import type { Line } from '../look/line.js';
import { type Asker, emptyInput, type Input } from './asker.js';
import { edit, fieldLines } from './edit-line.js';

type Q = Controls['measure'];

/** A unit as the row of units shows it. */
export const display = (unit: string, kind: QuantityKind): string => findUnit(unit, kind)?.show ?? unit;

/** The units that an arrow goes through, the question's own among them. */
export function unitsFor(kind: QuantityKind, own: string): readonly string[] {
  const presets: readonly string[] = unitPresets[kind].filter((u) => u !== '');
  const first = display(own, kind);
  if (!own || presets.includes(first)) return presets;
  return [first, ...presets];
}

/** No unit was typed behind the figure; a `k` or `M` for thousands or millions is none. */
function isBare(text: string, kind: QuantityKind): boolean {
  const figure = isShortened(kind) ? text.replace(/(\d)\s?[kKM]\s*$/, '$1') : text;
  return !/[\p{L}°"'%µ]/u.test(
    powerOfTen(figure)
      .replace(/^.*?(?=\d)/, '')
      .replace(/(\d)e[+-]?\d+\s*$/i, '$1'),
  );
}

/** The same of several figures with a sign between them, such as `8x6x3`. */
export const isBareSize = (text: string, kind: QuantityKind): boolean =>
  isBare(powerOfTen(text).replace(/[x×]/gi, ' '), kind);

/** A bare number gets the unit that is shown beside it; a unit that was typed wins. */
export function withUnit(text: string, unit: string, own: string, kind: QuantityKind): string {
  return isBare(text, kind) && unit && unit !== own ? `${text.trim()} ${unit}` : text.trim();
}

export function unitRow(units: readonly string[], now: string): Line {
  return units.flatMap((u, i) => [
    { text: i ? '  ' : '' },
    u === now ? { text: `[${u}]`, tone: 'strong' as const } : { text: ` ${u} `, tone: 'quiet' as const },
  ]);
}

export function nextUnit(units: readonly string[], now: string, step: number): string {
  const i = Math.max(0, units.indexOf(now));
  return units[(i + step + units.length) % units.length] ?? now;
}

/** The unit that a bare number has: the one picked here, else the one in which it was answered last, else the question's own. */
export function unitNow(input: Input, kind: QuantityKind, own: string, last: string | undefined): string {
  return input.unit || (last && unitsFor(kind, own).includes(last) ? last : display(own, kind));
}

/**
 * Three figures without their point are tenths where that is near the reading before, and as they stand they would be
 * far beyond it: 226 after 22.4. Else they stay as typed: nothing that may have been meant is ever made smaller.
 */
export function withPoint(text: string, near: number): string {
  if (!/^\d{3}$/.test(text)) return text;
  const whole = Number(text);
  return Math.abs(whole / 10 - near) <= 10 && whole - near >= 100 ? `${text.slice(0, 2)}.${text.slice(2)}` : text;
}

/** The unit behind the field; one that was typed stands there already. */
const tailOf = (input: Input, unit: string, kind: QuantityKind): string => (isBare(input.text, kind) ? unit : '');

export const askQuantity: Asker<Q> = {
  press(input, key, { question, unit, near, goesOn }) {
    const units = unitsFor(question.quantity, question.unit);
    const now = unitNow(input, question.quantity, question.unit, unit);
    if (units.length > 1 && (key.name === 'up' || key.name === 'down'))
      return { input: { ...input, unit: nextUnit(units, now, key.name === 'down' ? 1 : -1) } };
    if (key.name === 'enter')
      return {
        input,
        submit: input.text.trim()
          ? withUnit(input.text, now, display(question.unit, question.quantity), question.quantity)
          : '',
      };
    const edited = edit(input, key, 40);
    if (!edited || near === undefined || key.name !== 'char' || now !== display(question.unit, question.quantity))
      return edited && { input: edited };
    const text = withPoint(edited.text, near);
    const pointed = { ...edited, text, at: text === edited.text ? edited.at : text.length };
    return goesOn && /^\d+[.,]\d$/.test(text) ? { input: pointed, submit: text } : { input: pointed };
  },
  blocks(input, { question, ascii, unit, brief }) {
    const units = unitsFor(question.quantity, question.unit);
    const now = unitNow(input, question.quantity, question.unit, unit);
    return [
      { rank: 0, lines: (width) => fieldLines(input, width, ascii, true, tailOf(input, now, question.quantity)) },
      ...(units.length > 1 && !(brief && input.unit === '')
        ? [{ rank: 1, label: 'Unit', lines: () => [[{ text: '  ' }, ...unitRow(units, now)]] }]
        : []),
    ];
  },
  line: (input, { question, ascii, unit }, width) =>
    fieldLines(
      input,
      width,
      ascii,
      true,
      tailOf(input, unitNow(input, question.quantity, question.unit, unit), question.quantity),
    )[0] ?? [],
  hints(_input, { question }) {
    const many = unitsFor(question.quantity, question.unit).length > 1;
    return [
      { key: 'Enter', does: 'record', rank: 1, told: true },
      ...(many ? [{ key: '↑↓', does: 'unit', rank: 2, told: true }] : []),
    ];
  },
  takesLetters: (input) => input.text !== '',
  keep: (input) => (input.text ? `${input.text}\n${input.unit}` : undefined),
  restore(kept) {
    const [text = '', unit = ''] = kept.split('\n');
    return { ...emptyInput, text, unit, at: [...text].length };
  },
};
