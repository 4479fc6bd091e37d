/** Reads a plain number the way people type one: comma or point, fraction, spaces between thousands. */

export type NumberRead =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly message: string };

const bad = (message: string): NumberRead => ({ ok: false, message });
/** Beyond this no quantity of this trade is meant; also keeps every later product finite. */
const largest = 1e15;

const vulgar: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
};

const raised = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const plainFigures = (text: string): string =>
  [...text].map((c) => (c === '⁻' ? '-' : raised.includes(c) ? String(raised.indexOf(c)) : c)).join('');

/** `1.6x10^6` and `1.6·10⁶`, as data sheets print it, as `1.6e6`. */
export const powerOfTen = (text: string): string =>
  text
    .replace(/(\d)\s*[x×*·]\s*10\s*\^\s*([+-]?\d{1,2})(?![\d.,])/gi, '$1e$2')
    .replace(
      /(\d)\s*[x×*·]\s*10(⁻?[⁰¹²³⁴-⁹]{1,2})/gi,
      (_, figure: string, power: string) => `${figure}e${plainFigures(power)}`,
    );

/** Spells out ½ and its like, and makes every minus and blank the plain one. */
export function plainText(text: string): string {
  return powerOfTen(text)
    .replace(/[¼½¾⅛⅜⅝⅞⅓⅔]/g, (sign) => ` ${vulgar[sign]}`)
    .replace(/\u2044/g, '/')
    .replace(/\u2212/g, '-')
    .replace(/\s+/g, ' ')
    .trim();
}

/** The longest number at the start of a text, and what follows it. */
export function splitNumber(text: string): { number: string; rest: string } | undefined {
  const fraction = /^([+-]?(?:\d+[ -])?\d+ ?\/ ?\d+)(?![\d.,])(.*)$/s.exec(text);
  if (fraction) return { number: fraction[1] ?? '', rest: fraction[2] ?? '' };
  const plain = /^([+-]? ?(?:\d[\d.,]*(?:[ '’]\d{3}(?!\d))*(?:[.,]\d+)?|[.,]\d+)(?:e[+-]?\d+)?)(.*)$/is.exec(text);
  return plain ? { number: plain[1] ?? '', rest: plain[2] ?? '' } : undefined;
}

/**
 * Value of a number as typed. `20,000` is refused, since it is 20 in one country and 20 000 in another; with two or more
 * groups, `1,600,000`, it can only be thousands. `wholeKind` refuses `20.000` as well, for kinds such as speed where three decimals are not usual.
 */
export function readNumber(typed: string, wholeKind: boolean): NumberRead {
  const text = typed.trim();
  const fraction = /^([+-])?(?:(\d+)[ -])?(\d+) ?\/ ?(\d+)$/.exec(text);
  if (fraction) {
    const below = Number(fraction[4]);
    if (below === 0) return bad(`"${text}" divides by zero.`);
    const size = Number(fraction[2] ?? 0) + Number(fraction[3]) / below;
    return inRange(fraction[1] === '-' ? -size : size, text);
  }
  const bare = text.replace(/(?<=\d)[ '’](?=\d{3})/g, '').replace(/^([+-]) /, '$1');
  const grouped = /^[+-]?[1-9]\d{0,2}([.,])\d{3}(?:\1\d{3})+(?!\d|\1)/.exec(bare);
  const unspaced = grouped ? bare.replaceAll(grouped[1] ?? '', '') : bare;
  const separator = /^[+-]?[1-9]\d{0,2}([.,])\d{3}(?=e|$)/i.exec(unspaced);
  const whole = unspaced.replace(/[.,]/g, '');
  if (separator && (separator[1] === ',' || wholeKind)) {
    const decimal = Number(unspaced.replace(',', '.'));
    return bad(`"${text}" can mean ${Number(whole)} or ${decimal}: type ${Number(whole)} or ${decimal}.`);
  }
  const marks = unspaced.match(/[.,]/g)?.length ?? 0;
  if (marks > 1)
    return bad(`"${text}" has more than one point or comma: type it with one, or none, such as 12000 or 14.5.`);
  if (!/^[+-]?(\d+[.,]?\d*|[.,]\d+)(e[+-]?\d+)?$/i.test(unspaced)) return bad(`"${text}" is not a number.`);
  const value = Number(unspaced.replace(',', '.'));
  if (value === 0 && /[1-9]/.test(unspaced.replace(/e.*$/i, ''))) return bad(`"${text}" is too small to compute with.`);
  return inRange(value, text);
}

function inRange(value: number, text: string): NumberRead {
  if (!Number.isFinite(value) || Math.abs(value) > largest) return bad(`"${text}" is too large to be meant.`);
  return { ok: true, value: value === 0 ? 0 : value };
}
