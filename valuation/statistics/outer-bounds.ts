/** From this many amounts on, the outermost hundredth at either end may lie beyond: one rarity must not flatten the rest. */
const crowd = 200;

/** Between what the amounts above zero lie, but for the outermost of many; null where there are none. */
export const outerBounds = (
  amounts: readonly number[] | Float64Array,
): { low: number; high: number } | null => {
  const all = amounts instanceof Float64Array ? amounts : Float64Array.from(amounts);
  const sorted = all.filter(amount => amount > 0 && Number.isFinite(amount)).sort();
  const beyond = sorted.length < crowd ? 0 : Math.floor(sorted.length / 100);
  const [low, high] = [sorted[beyond], sorted[sorted.length - 1 - beyond]];
  return low === undefined || high === undefined ? null : { low, high };
};
