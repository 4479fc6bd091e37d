/** A mistake in a procedure or table file: where it is, what is wrong, how to mend it. */
import { safeText } from '../text/safe-text.js';

export interface Problem {
  readonly file: string;
  /** 1-based; 1 when the whole file is meant. */
  readonly line: number;
  readonly column: number;
  readonly message: string;
  readonly cure: string;
}

/** One line, harmless for a terminal whatever the file holds. */
export const showProblem = (p: Problem): string =>
  `${safeText(p.file, { max: 300 })}:${p.line}:${p.column}: ${safeText(`${p.message} ${p.cure}`.trim(), { max: 1000 })}`;

export type Path = readonly (string | number)[];
/** Reports a mistake at a path of the document, `offset` characters into that value; -1 means its name. */
export type Complain = (path: Path, message: string, cure: string, offset?: number) => void;

/** A word out of a file as it is quoted in a complaint: short, on one line. */
export const quoted = (word: unknown): string => safeText(word, { max: 60 });

/** "a, b, c", cut after twenty. */
export const listed = (words: readonly string[]): string =>
  words.length === 0
    ? 'none'
    : `${words.slice(0, 20).map(quoted).join(', ')}${words.length > 20 ? ` and ${words.length - 20} more` : ''}`;
