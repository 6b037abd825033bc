/** The texts in the order of a reader of this locale ("9" before "10"), each with its rank; sorts them in place. */
export const rankedTexts = (
  texts: string[],
  locale: string,
): { texts: string[]; rankOf: Map<string, number> } => {
  const { compare } = new Intl.Collator(locale, { numeric: true, sensitivity: 'base' });
  texts.sort(compare);
  const rankOf = new Map<string, number>();
  let rank = 0;
  for (const [i, text] of texts.entries()) {
    if (i > 0 && compare(texts[i - 1]!, text) !== 0) rank += 1;
    rankOf.set(text, rank);
  }
  return { texts, rankOf };
};

/** How many of the numbers, which are sorted, are below this one. */
const countBelow = (sorted: Float64Array, value: number): number => {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
};

/**
 * The places of the keys in their order: equal ones as they stand, NaN last whichever way they are sorted. What is
 * sorted are numbers that hold rank and place in one, which needs no comparing function.
 */
export const placesInOrder = (keys: Float64Array, descending: boolean): number[] => {
  const count = keys.length;
  const sorted = keys.filter(key => !Number.isNaN(key)).sort();
  const codes = keys.map((key, place) => {
    if (Number.isNaN(key)) return count * count + place;
    const rank = countBelow(sorted, key);
    return (descending ? count - 1 - rank : rank) * count + place;
  });
  return Array.from(codes.sort(), code => code % count);
};
