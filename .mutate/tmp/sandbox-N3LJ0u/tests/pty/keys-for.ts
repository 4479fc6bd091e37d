/** Which keys give an answer on the screen as it stands: a pick goes by the digit that is drawn before its line. */
// @ts-nocheck

import type { Question } from '../../src/procedure/schema.js';
import { keySequences } from './harness.js';

/** A reading of the file as it is typed. */
export const words = (raw: unknown): string =>
  raw === undefined
    ? ''
    : Array.isArray(raw)
      ? raw.join(',')
      : raw === true
        ? 'yes'
        : raw === false
          ? 'no'
          : String(raw);

/** Keys that empty the field: something may stand in it from before the window closed. */
export function emptied(screen: string): string {
  const text = /^ *> (.*)[▏_]/m.exec(screen)?.[1] ?? '';
  return text === '' ? '' : keySequences.end + keySequences.backspace.repeat(text.length);
}

/** The digit that stands before the option with this value. */
function digit(q: Question, value: string, screen: string): string {
  const options = 'options' in q ? (q.options ?? []) : [];
  const label = q.kind === 'yes-no' ? (value === 'yes' ? 'Yes' : 'No') : options.find((o) => o.value === value)?.label;
  if (label === undefined) throw new Error(`${q.key} has no option ${value}`);
  const hit = digitBefore(label, screen);
  if (!hit) throw new Error(`No line for ${label}:\n${screen}`);
  return hit;
}

/** The digit that picks the line with this beginning. */
export function digitBefore(label: string, screen: string): string | undefined {
  const lines = screen
    .replaceAll('\u00a0', ' ')
    .split('\n')
    .flatMap((l) => {
      const [, key, text] = /^\s*[▸>]?\s*([1-9])\s+(.*?)\s*$/.exec(l) ?? [];
      return key && text ? [{ key, text }] : [];
    });
  // A longer label may be folded; but “Run on” is no beginning of it where a line holds it whole, or more of it.
  const whole = lines.find((l) => l.text === label || l.text.startsWith(`${label} `));
  const folded = lines.filter((l) => label.startsWith(`${l.text} `)).sort((x, y) => y.text.length - x.text.length)[0];
  return (whole ?? folded)?.key;
}

/** Keys that give this answer on this screen. */
export function keysOf(q: Question, text: string, screen: string): string {
  switch (q.kind) {
    case 'choice':
    case 'yes-no':
      return digit(q, text, screen);
    case 'series':
      return `${screen.includes('So far: ') ? keySequences.backspace.repeat(q.most) : ''}${text
        .split(',')
        .map((v) => digit(q, v, screen))
        .join('')}0`;
    case 'counter': {
      const so = Number(/^ *(\d+) of \d+ /m.exec(screen)?.[1] ?? 0);
      return `${'-'.repeat(so)}${'+'.repeat(Number(text))}0`;
    }
    case 'quantity':
      // A bare number has the unit that was used last.
      return `${emptied(screen)}${text && !/\p{L}|[°"%]/u.test(text) ? `${text} ${q.unit}` : text}\r`;
    default:
      return `${emptied(screen)}${text}\r`;
  }
}
