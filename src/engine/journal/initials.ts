/** Initials: the one place that says what they are and when two of them mean the same person. Pure. */

/** Stands for the initials of nobody: who fills in what comes before a practice that begins late. */
export const FILLED_BY = 'BENCH';

/** What is said where initials are wanted and something else was typed. */
export const initialsSentence = 'Initials are one to eight Latin letters or digits, a letter first, such as AP.';

// Letters of another script look the same and would let one person stand as two. Latin-1 and Latin Extended-A,
// with the letters of Romanian and Vietnamese, are what European and most other Latin alphabets write.
const shape = /^[A-Za-zÀ-ÖØ-öø-ſȘ-țẠ-ỹ][A-Za-zÀ-ÖØ-öø-ſȘ-țẠ-ỹ0-9.-]{0,7}$/;

/** Letters that no decomposition parts from their stroke. */
const plainer: Readonly<Record<string, string>> = {
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  ħ: 'h',
  ŧ: 't',
  ŀ: 'l',
  ı: 'i',
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
};

/** As they are recorded: full-width letters as plain ones, no blanks around; undefined when they are no initials. */
export function tidyInitials(typed: string): string | undefined {
  // Far longer than any initials: not worth the work of a compatibility decomposition.
  if (typed.length > 100) return undefined;
  const text = typed.normalize('NFKC').trim();
  return shape.test(text) ? text : undefined;
}

/** What of initials tells one person from another: letters and digits, without case, accents, points and strokes. */
function person(initials: string): string {
  return initials
    .slice(0, 100)
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}/gu, '')
    .replace(/[øłđðħŧŀıßæœ]/g, (letter) => plainer[letter] ?? letter)
    .replace(/[^\p{L}\p{N}]/gu, '');
}

/** True when both stand for one person. Errs on the side of yes: AP, A.P, ap and ÁP are one. */
export function sameInitials(a: string, b: string): boolean {
  return person(a) === person(b);
}
