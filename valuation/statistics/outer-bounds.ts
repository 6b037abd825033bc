/** From this many amounts on, the outermost hundredth at either end may lie beyond: one rarity must not flatten the rest. */
const crowd = 200;

/** Between what the amounts above zero lie, but for the outermost of many; null where there are none. */
export const outerBounds = (amounts: readonly number[]): { low: number; high: number } | null => {
  const known = Float64Array.from(amounts.filter(amount => amount > 0 && Number.isFinite(amount))).sort();
  if (known.length === 0) return null;
  const beyond = known.length < crowd ? 0 : Math.floor(known.length / 100);
  return { low: known[beyond]!, high: known[known.length - 1 - beyond]! };
};
