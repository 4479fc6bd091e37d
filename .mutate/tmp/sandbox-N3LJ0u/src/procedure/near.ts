/** Suggestions for words that were nearly right. */
// @ts-nocheck

import { closest, distance } from 'fastest-levenshtein';
import { quoted } from './problem.js';

const LONGEST = 60;

/** `Did you mean “X”?` when one of the names is near, otherwise ''. */
export function near(word: string, names: readonly string[]): string {
  const usable = names.filter((n) => n.length <= LONGEST);
  if (!usable.length || word.length > LONGEST) return '';
  const plain = (s: string): string => s.toLowerCase().replaceAll('_', '-');
  const same = usable.find((n) => plain(n) === plain(word));
  const best = same ?? closest(word, usable);
  const far = distance(word, best);
  // A third of a word may be wrong; in a short one two letters that changed places, after the first.
  const most = word.length < 6 && word[0] === best[0] ? 2 : Math.floor(word.length / 3);
  return same !== undefined || (far <= Math.max(1, most) && far < best.length) ? `Did you mean “${quoted(best)}”?` : '';
}
