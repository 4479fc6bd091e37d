/** A mistake in a procedure or table file: where it is, what is wrong, how to mend it. */
import { safeText } from '../text/safe-text.js';

/** What kind of mistake it is. A code is never reused for another kind; a new kind gets a new one. */
export type Code =
  | 'alike-not-possible'
  | 'anew-not-possible'
  | 'answer-stands-alone'
  | 'branch-empty'
  | 'brief-not-possible'
  | 'branch-unknown'
  | 'calculator-unknown'
  | 'caution-says-nothing'
  | 'column-unknown'
  | 'condition-asked-later'
  | 'correct-no-reading'
  | 'decision-reopens-itself'
  | 'held-elsewhere'
  | 'decision-without-figures'
  | 'decision-without-question'
  | 'earlier-not-always-known'
  | 'earlier-place-other'
  | 'earlier-type-other'
  | 'divided-by-nought'
  | 'event-never'
  | 'event-without-effect'
  | 'event-word-needless'
  | 'expression-call'
  | 'expression-two-searches'
  | 'expression-type'
  | 'expression-unreadable'
  | 'figures-without-work'
  | 'figure-asked-later'
  | 'file-empty'
  | 'file-of-another-kind'
  | 'file-unreadable'
  | 'follow-up-not-possible'
  | 'fresh-elsewhere'
  | 'gate-never-counts'
  | 'gate-never-holds'
  | 'gate-never-opens'
  | 'gate-unknown'
  | 'gate-waits-for-later'
  | 'gather-not-inside'
  | 'gather-one'
  | 'hands-before-safe'
  | 'hazard-without-caution'
  | 'input-missing'
  | 'input-unknown'
  | 'kept-elsewhere'
  | 'kept-is-no-answer'
  | 'key-made-already'
  | 'key-reserved'
  | 'kind-of-value'
  | 'label-no-text'
  | 'limits-order'
  | 'limits-refuse'
  | 'limits-unit'
  | 'log-unknown'
  | 'log-without-questions'
  | 'missing'
  | 'name-not-drawn'
  | 'trap-unknown'
  | 'name-not-known'
  | 'name-reserved'
  | 'name-twice'
  | 'need-given-later'
  | 'need-not-given'
  | 'need-twice'
  | 'need-unused'
  | 'not-after-later'
  | 'number-needed'
  | 'otherwise-of-list'
  | 'otherwise-type'
  | 'out-of-bounds'
  | 'part-empty'
  | 'part-in-part'
  | 'part-line'
  | 'part-shipped'
  | 'part-twice'
  | 'part-unknown'
  | 'part-unused'
  | 'part-without-line'
  | 'part-without-list'
  | 'phase-empty'
  | 'phase-unknown'
  | 'place-never'
  | 'place-unknown'
  | 'plausible-outside'
  | 'plus-minus-wide'
  | 'procedure-unknown'
  | 'quantity-clash'
  | 'quantity-other'
  | 'question-never'
  | 'question-unknown'
  | 'raise-elsewhere'
  | 'reading-hidden'
  | 'reading-not-taken'
  | 'reading-shape'
  | 'remedy-missing'
  | 'remedy-without-figures'
  | 'replay'
  | 'result-no-list'
  | 'result-unknown'
  | 'rotor-unknown'
  | 'row-tag'
  | 'row-unknown'
  | 'row-untested'
  | 'row-width'
  | 'late-before-reading'
  | 'safe-without-stop'
  | 'source-incomplete'
  | 'step-elsewhere'
  | 'step-never'
  | 'step-unknown'
  | 'suggestion-missing'
  | 'suggestion-not-possible'
  | 'table-not-written'
  | 'table-unknown'
  | 'text-figure'
  | 'thing-not-laid-out'
  | 'thing-not-used'
  | 'too-large'
  | 'type-and-quantity'
  | 'unit-other'
  | 'unit-unknown'
  | 'unknown-never-passes'
  | 'value-circle'
  | 'value-not-allowed'
  | 'value-not-visible'
  | 'value-unknown'
  | 'wait-long'
  | 'wait-nought'
  | 'way-unknown'
  | 'word-impossible'
  | 'words'
  | 'yaml';

export interface Problem {
  readonly file: string;
  /** 1-based; 1 when the whole file is meant. */
  readonly line: number;
  readonly column: number;
  /** Stays the same when the sentence is reworded: for tools and tests. */
  readonly code: Code;
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
export type Complain = (code: Code, path: Path, message: string, cure: string, offset?: number, first?: Path) => void;

/** A word out of a file as it is quoted in a complaint: short, on one line. */
export const quoted = (word: unknown): string => safeText(word, { max: 60 });

/** "a, b, c", cut after twenty. */
export const listed = (words: readonly string[]): string =>
  words.length === 0
    ? 'none'
    : `${words.slice(0, 20).map(quoted).join(', ')}${words.length > 20 ? ` and ${words.length - 20} more` : ''}`;
