const isDigit = (code: number) => code >= 48 && code <= 57;
const zero = 48;

/** Numbers of more digits are left to the collator, which reads them in stretches. */
const mostDigits = 200;

/**
 * The order of two texts that are alike up to a number, by that number, "Q-9" before "Q-10"; undefined where something
 * else tells them apart. As every collator with `numeric` has them, and many times faster than it: inventory numbers are
 * told apart so.
 */
export const byTheirNumbers = (a: string, b: string): number | undefined => {
  let at = 0;
  while (at < a.length && a.charCodeAt(at) === b.charCodeAt(at)) at += 1;
  if (!isDigit(a.charCodeAt(at)) || !isDigit(b.charCodeAt(at))) return undefined;
  let start = at;
  while (start > 0 && isDigit(a.charCodeAt(start - 1))) start -= 1;
  const numberIn = (text: string) => {
    let from = start;
    let end = at;
    while (isDigit(text.charCodeAt(end))) end += 1;
    while (from < end && text.charCodeAt(from) === zero) from += 1;
    return { from, end };
  };
  const [first, second] = [numberIn(a), numberIn(b)];
  const [digits, others] = [first.end - first.from, second.end - second.from];
  if (Math.max(first.end, second.end) - start > mostDigits) return undefined;
  // The digits of another script would belong to the number.
  const isPlain = (code: number) => !(code >= 128);
  if (
    !(
      isPlain(a.charCodeAt(start - 1)) &&
      isPlain(a.charCodeAt(first.end)) &&
      isPlain(b.charCodeAt(second.end))
    )
  )
    return undefined;
  if (digits !== others) return digits - others;
  for (let k = 0; k < digits; k += 1) {
    const apart = a.charCodeAt(first.from + k) - b.charCodeAt(second.from + k);
    if (apart !== 0) return apart;
  }
  return undefined;
};

/** The texts in the order of a reader of this locale ("9" before "10"), each with its rank; sorts them in place. */
export const rankedTexts = (
  texts: string[],
  locale: string,
): { texts: string[]; rankOf: Map<string, number> } => {
  const collator = new Intl.Collator(locale, { numeric: true, sensitivity: 'base' });
  const compare = (a: string, b: string) => byTheirNumbers(a, b) ?? collator.compare(a, b);
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
