/** Finds the word that was probably meant. */
// @ts-nocheck


/** The nearest of `words` by edits, when near enough to be a slip of the fingers. */
export function nearest(typed: string, words: readonly string[]): string | undefined {
  const from = typed.toLowerCase().slice(0, 60);
  let best: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const word of words) {
    const to = word.toLowerCase();
    const distance = to.startsWith(from) && from.length >= 3 ? 1 : edits(from, to);
    if (distance < least) {
      least = distance;
      best = word;
    }
  }
  return least <= Math.max(1, Math.floor(from.length / 3)) ? best : undefined;
}

/** Edit distance in which two swapped neighbours count once. */
function edits(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let d = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) d = Math.min(d, rows[i - 2]![j - 2]! + 1);
      row.push(d);
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}
