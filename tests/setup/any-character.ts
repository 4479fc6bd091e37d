/**
 * Any character of Unicode, for property tests. The library's own (`unit: 'binary'`) draws the same ones for the same
 * seed, but to read one back it first makes a list of all 1,112,064, which takes each worker over a second.
 */
import fc from 'fast-check';

/** Halves of a pair (U+D800 to U+DFFF) are no characters. */
const firstHalf = 0xd800;
const halves = 0x800;

export const anyCharacter = fc.nat({ max: 0x10ffff - halves }).map(
  (at) => String.fromCodePoint(at < firstHalf ? at : at + halves),
  (value) => {
    const code = typeof value === 'string' ? value.codePointAt(0) : undefined;
    const whole = code !== undefined && String.fromCodePoint(code) === value;
    if (!whole || (code >= firstHalf && code < firstHalf + halves)) throw new Error('This is not one character');
    return code < firstHalf ? code : code - halves;
  },
);
