/** Columns that a text takes in a terminal. The bundle gives this to ink too, in place of the library (src/build/options.mjs). */
// @ts-nocheck

import stringWidth from 'string-width';

/**
 * Letters, signs and line drawings that take one column each in every terminal, with colours between them. Asking the
 * library about them would load the whole of Unicode's cluster rules, which costs more than all else in the first frame.
 */
const narrow =
  /^[\u0020-\u007e\u00a0-\u00ac\u00ae-\u02ff\u0370-\u0377\u0384-\u03ff\u2010-\u2027\u2030-\u205e\u2190-\u21ff\u2200-\u22ff\u2300-\u2311\u2500-\u25fc\u2713\u2717]*$/;
const colours = /\u001b\[[0-9;]*m/g;

export function textWidth(text: string): number {
  const bare = text.includes('\u001b') ? text.replace(colours, '') : text;
  return narrow.test(bare) ? bare.length : stringWidth(text);
}

export default textWidth;
