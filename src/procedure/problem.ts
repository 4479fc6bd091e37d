/** A mistake in a procedure or table file: where it is, what is wrong, how to mend it. */
import { safeText } from '../text/safe-text.js';

export interface Problem {
  readonly file: string;
  /** 1-based; 1 when the whole file is meant. */
  readonly line: number;
  readonly column: number;
  readonly message: string;
  readonly cure: string;
  /** Of a mistake in a part: where procedures name that part, as file:line. */
  readonly usedBy?: readonly string[];
}

/** One line, harmless for a terminal whatever the file holds. */
export const showProblem = (p: Problem): string =>
  `${safeText(p.file, { max: 300 })}:${p.line}:${p.column}: ${safeText(`${p.message} ${p.cure}${usedBy(p)}`.trim(), { max: 1000 })}`;
const usedBy = (p: Problem): string => (p.usedBy?.length ? ` (used by ${p.usedBy.join(' and ')})` : '');

/** The same mistake of a part, found through several procedures, said once. */
export function said(problems: readonly Problem[]): Problem[] {
  const out = new Map<string, Problem>();
  for (const p of problems) {
    const id = `${p.file}:${p.line}:${p.column}:${p.message}`;
    const before = out.get(id);
    const users = [...new Set([...(before?.usedBy ?? []), ...(p.usedBy ?? [])])];
    out.set(id, { ...(before ?? p), ...(users.length ? { usedBy: users } : {}) });
  }
  return [...out.values()];
}

export type Path = readonly (string | number)[];
/**
 * Reports a mistake at a path of the document, `offset` characters into that value; -1 means its name. `first` is where
 * the same thing stands already: named when that is another file.
 */
export type Complain = (path: Path, message: string, cure: string, offset?: number, first?: Path) => void;

/** A word out of a file as it is quoted in a complaint: short, on one line. */
export const quoted = (word: unknown): string => safeText(word, { max: 60 });

/** "a, b, c", cut after twenty. */
export const listed = (words: readonly string[]): string =>
  words.length === 0
    ? 'none'
    : `${words.slice(0, 20).map(quoted).join(', ')}${words.length > 20 ? ` and ${words.length - 20} more` : ''}`;
