/** From this many amounts on, the outermost hundredth at either end may lie beyond: one rarity must not flatten the rest. */
const crowd = 200;

/**
 * The amount that would stand at a place if they were sorted; moves them about. Source: C. A. R. Hoare, Algorithm 65
 * (Find), Communications of the ACM 4 (1961) 321–322.
 */
const amountAt = (amounts: Float64Array, place: number): number => {
  let [from, to] = [0, amounts.length - 1];
  while (from < to) {
    const pivot = amounts[(from + to) >>> 1]!;
    let [low, high] = [from, to];
    while (low <= high) {
      while (amounts[low]! < pivot) low += 1;
      while (amounts[high]! > pivot) high -= 1;
      if (low > high) break;
      const one = amounts[low]!;
      amounts[low] = amounts[high]!;
      amounts[high] = one;
      low += 1;
      high -= 1;
    }
    if (place <= high) to = high;
    else if (place >= low) from = low;
    else break;
  }
  return amounts[place]!;
};

/** Between what the amounts above zero lie, but for the outermost of many; null where there are none. */
export const outerBounds = (
  amounts: readonly number[] | Float64Array,
): { low: number; high: number } | null => {
  const all = amounts instanceof Float64Array ? amounts : Float64Array.from(amounts);
  const known = all.filter(amount => amount > 0 && Number.isFinite(amount));
  if (known.length === 0) return null;
  const beyond = known.length < crowd ? 0 : Math.floor(known.length / 100);
  return { low: amountAt(known, beyond), high: amountAt(known, known.length - 1 - beyond) };
};
