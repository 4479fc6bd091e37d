/**
 * A size as it is printed on the ring: the row, then letters and figures for seals, shields and clearance. What is known
 * of them is said; what is not is kept as it stands and changes nothing.
 */
import type { Option } from './kind.js';

export interface Printed {
  /** Id of the row. */
  readonly row: string;
  readonly known: readonly Option[];
  /** As printed, in order. */
  readonly unknown: readonly string[];
}

/**
 * @param rows ids that can be meant; the longest that the text begins with is taken
 * @returns undefined where no row is meant, or nothing stands beside it
 */
export function printedSize(text: string, rows: readonly string[], suffixes: readonly Option[]): Printed | undefined {
  const clean = text.normalize('NFKC').toUpperCase().trim();
  const [, before = '', rest = ''] = /^([A-Z]{0,4}[\s-]?)(\d.*)$/.exec(clean) ?? [];
  const row = rows
    .filter((id) => rest.startsWith(id.toUpperCase()) && !/^\d/.test(rest.slice(id.length)))
    .sort((a, b) => b.length - a.length)[0];
  if (row === undefined) return undefined;
  const words = rest.slice(row.length).split(/[\s\-/.,_]+/);
  const known: Option[] = [];
  const unknown: string[] = [before.replace(/[\s-]/g, '')];
  for (const word of words) {
    const hits = split(word, suffixes);
    if (hits) known.push(...hits);
    else unknown.push(word);
  }
  const left = unknown.filter(Boolean);
  return known.length + left.length > 0 ? { row, known, unknown: left } : undefined;
}

/** A word made of nothing but known suffixes, the longest first; undefined for any other. */
function split(word: string, suffixes: readonly Option[]): Option[] | undefined {
  if (word === '') return [];
  const byLength = suffixes
    .filter((s) => word.startsWith(s.value.toUpperCase()))
    .sort((a, b) => b.value.length - a.value.length);
  for (const hit of byLength) {
    const more = split(word.slice(hit.value.length), suffixes);
    if (more) return [hit, ...more];
  }
  return undefined;
}

/** `2RS: two rubber seals. C3: more clearance than normal. XY: not known here, kept as printed.` */
export const printedWords = ({ known, unknown }: Printed): string =>
  [
    ...known.map((s) => `${s.value.toUpperCase()}: ${s.label}.`),
    ...unknown.map((u) => `${u.slice(0, 20)}: not known here, kept as printed.`),
  ].join(' ');
