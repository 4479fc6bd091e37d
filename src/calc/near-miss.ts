/** Finds the word that was probably meant. */
import { distance } from 'fastest-levenshtein';

/** Letters that are wrong, too many or lacking; two neighbours that changed places count once. */
function slips(from: string, to: string): number {
  const swapped = [...from].slice(1).map((_, i) => from.slice(0, i) + from[i + 1] + from[i] + from.slice(i + 2));
  return Math.min(distance(from, to), ...swapped.map((s) => distance(s, to) + 1));
}

/** The nearest of `words` by slips, when near enough to be meant: a third of the letters may be wrong. */
export function nearest(typed: string, words: readonly string[]): string | undefined {
  const from = typed.toLowerCase().slice(0, 60);
  let best: string | undefined;
  let least = Math.max(1, Math.floor(from.length / 3)) + 1;
  for (const word of words) {
    const to = word.toLowerCase();
    const far = to.startsWith(from) && from.length >= 3 ? 1 : slips(from, to);
    if (far < least) {
      least = far;
      best = word;
    }
  }
  return best;
}
