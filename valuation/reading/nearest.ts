/**
 * Number of single-letter changes between two words, swaps of neighbours counted once
 * (optimal string alignment).
 */
export const distance = (a: string, b: string): number => {
  const rows = Array.from({ length: a.length + 1 }, (_, i) => [i, ...Array<number>(b.length).fill(0)]);
  for (let j = 1; j <= b.length; j++) rows[0]![j] = j;
  for (let i = 1; i <= a.length; i++)
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(rows[i - 1]![j]! + 1, rows[i]![j - 1]! + 1, rows[i - 1]![j - 1]! + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, rows[i - 2]![j - 2]! + 1);
      rows[i]![j] = best;
    }
  return rows[a.length]![b.length]!;
};

/** The known word that a mistyped one most likely meant, or null where none is close. Case does not count. */
export const nearest = (word: string, known: string[]): string | null => {
  const typed = word.toLowerCase();
  const [best] = known
    .map(name => ({ name, away: distance(typed, name.toLowerCase()) }))
    .sort((a, b) => a.away - b.away || (a.name < b.name ? -1 : 1));
  return best && best.away <= Math.max(1, Math.floor(typed.length / 3)) ? best.name : null;
};
