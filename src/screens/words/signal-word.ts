/** The signal word at the beginning of a caution: how bad what may happen is (DANGER, WARNING, CAUTION as in ISO 3864-2, NOTICE as in ANSI Z535 where things are harmed and nobody is). */
import { isOneOf } from '../../guards/guards.js';

const words = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'] as const;
export type SignalWord = (typeof words)[number];
const leading = new RegExp(`^\\s*(${words.join('|')})\\b[\\s:.!-]*(.*)$`, 's');

export interface Signalled {
  readonly word: SignalWord;
  readonly text: string;
}

/** CAUTION where the text begins with none. */
export function signalled(caution: string): Signalled {
  const m = leading.exec(caution);
  return m?.[2] && isOneOf(words, m[1]) ? { word: m[1], text: m[2] } : { word: 'CAUTION', text: caution };
}

/** The worst first. */
export const bySeverity = (a: Signalled, b: Signalled): number => words.indexOf(a.word) - words.indexOf(b.word);

/** The safety alert symbol, which stands for harm to people: there is none before NOTICE (ANSI Z535.6). */
export const alertSign = (word: SignalWord, sign: string): string => (word === 'NOTICE' ? '' : `${sign} `);
