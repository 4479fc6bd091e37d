/** Figures three lines tall, to be read from where one stands. */
// @ts-nocheck

import { type Line, strong } from './line.js';
import { widthOf } from './wrap.js';

/** Two points of a column in one character: three rows of text hold five of points and a blank one. */
const points: Readonly<Record<string, string>> = {
  '0': '111101101101111',
  '1': '010110010010111',
  '2': '111001111100111',
  '3': '111001111001111',
  '4': '101101111001001',
  '5': '111100111001111',
  '6': '111100111101111',
  '7': '111001001001001',
  '8': '111101111101111',
  '9': '111101111001111',
  '.': '000000000000010',
  ',': '000000000010010',
  '-': '000000111000000',
  '+': '000010111010000',
  '/': '001001010100100',
  '%': '101001010100101',
  ' ': '000000000000000',
};
const upper = '▀';
const lower = '▄';
const both = '█';

/** The figures, or the plain text where they are too wide, hold a letter or the terminal shows ASCII only. */
export function bigFigures(text: string, ascii: boolean, width: number): Line[] {
  const clean = text.replace(/\u00a0/g, ' ').replace(/−/g, '-');
  const all = [...clean];
  if (ascii || all.some((c) => points[c] === undefined) || all.length * 4 > width) return [strong(text)];
  const rows = [0, 1, 2].map((r) =>
    all
      .map((c) => {
        const p = points[c] ?? '';
        return [0, 1, 2]
          .map((x) => {
            const top = p[r * 2 * 3 + x] === '1';
            const bottom = r < 2 && p[(r * 2 + 1) * 3 + x] === '1';
            return top ? (bottom ? both : upper) : bottom ? lower : ' ';
          })
          .join('');
      })
      .join(' ')
      .trimEnd(),
  );
  return rows.map(strong);
}

/** A figure with its unit: the figure large, the unit beside its foot. */
export function bigQuantity(text: string, ascii: boolean, width: number): Line[] {
  const m = /^([\d\s\u00a0.,+\-−]*\d)(.*)$/.exec(text);
  if (!m?.[1]) return [strong(text)];
  const tail = (m[2] ?? '').trim();
  // `2 h 30 min` has no one figure to be large.
  if (/\d/.test(tail) && !tail.startsWith('±')) return [strong(text)];
  const rows = bigFigures(m[1], ascii, width - widthOf(tail) - 2);
  if (rows.length < 3) return [strong(text)];
  const last = rows[2] ?? [];
  const widest = Math.max(...rows.map((r) => widthOf(r[0]?.text ?? '')));
  const pad = ' '.repeat(widest - widthOf(last[0]?.text ?? '') + 2);
  return [...rows.slice(0, 2), [...last, { text: `${pad}${tail}`, tone: 'strong' }]];
}
