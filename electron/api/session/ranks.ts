/**
 * The rank of each text in the order of a reader of this locale ("9" before "10"), and all texts in that order: those that are
 * ranked and those that were known before, which being in order already leave little to sort. Each text is looked up once.
 */
export const rankedTexts = (
  values: readonly string[],
  known: readonly string[],
  locale: string,
): { ranks: Int32Array; texts: string[] } => {
  const { compare } = new Intl.Collator(locale, { numeric: true, sensitivity: 'base' });
  const texts: string[] = [];
  const found = new Map<string, number>();
  const placeOf = (text: string): number => {
    let place = found.get(text);
    if (place === undefined) {
      place = texts.length;
      texts.push(text);
      found.set(text, place);
    }
    return place;
  };
  for (const text of known) placeOf(text);
  const places = Int32Array.from({ length: values.length }, (_, i) => placeOf(values[i]!));
  const order = texts.map((_, place) => place).sort((a, b) => compare(texts[a]!, texts[b]!));
  const rankAt = new Int32Array(texts.length);
  let rank = 0;
  for (let i = 0; i < order.length; i += 1) {
    if (i > 0 && compare(texts[order[i - 1]!]!, texts[order[i]!]!) !== 0) rank += 1;
    rankAt[order[i]!] = rank;
  }
  return { ranks: places.map(place => rankAt[place]!), texts: order.map(place => texts[place]!) };
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
