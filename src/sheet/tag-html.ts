/** The tag as two cards at true size, each with the QR code of its own words. */
import { encode } from 'uqr';
import { escapeHtml as esc, safeText } from '../text/safe-text.js';
import type { Tag } from './tag.js';

/** mm: A7 by ISO 216 lying; a credit card by ISO/IEC 7810 (ID-1). */
const sizes = [
  { name: 'a7', says: 'A7', width: 105, height: 74, code: 36, letters: [10, 8.6, 6.6, 6, 5.4] },
  { name: 'card', says: 'card', width: 85.6, height: 54, code: 26, letters: [7.6, 6.4, 5.2, 4.7, 4.2] },
] as const;

/** Letters on a tag up to which the largest and each smaller size does. */
const ROOM = [270, 420, 600, 800] as const;

/** White margin that a reader needs, in modules (ISO/IEC 18004). */
const QUIET = 4;

function codeSvg(text: string, mm: number): string {
  const { data, size } = encode(text, { ecc: 'M', border: 0 });
  const path = data
    .flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x + QUIET} ${y + QUIET}h1v1h-1z`] : [])))
    .join('');
  const whole = size + 2 * QUIET;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm}mm" height="${mm}mm" viewBox="0 0 ${whole} ${whole}" role="img" ` +
    'aria-label="QR code of the words on this tag" shape-rendering="crispEdges"><title>QR code of the words on this tag</title>' +
    `<rect width="${whole}" height="${whole}" fill="#fff"/><path d="${path}" fill="#000"/></svg>`
  );
}

export function tagHtml(tag: Tag): string {
  const plain = safeText(tag.plain, { lines: true });
  const letters = tag.lines.reduce((n, l) => n + l.label.length + l.text.length, 0);
  const items = tag.lines.map((l) => `<li><strong>${esc(l.label)}:</strong> ${esc(l.text)}</li>`).join('');
  const cards = sizes.map((s) => {
    const size = s.letters[ROOM.filter((most) => letters > most).length];
    return (
      `<div class="tag ${s.name}" style="width:${s.width}mm;min-height:${s.height}mm;font-size:${size}pt">` +
      `<ul>${items}</ul>${codeSvg(plain, s.code)}</div>`
    );
  });
  return `<div class="tags">${cards.join('')}</div>`;
}
