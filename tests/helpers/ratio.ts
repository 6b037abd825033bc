/** A figure of several independent worlds, with its standard error by leaving each of them out in turn. */
export const jackknife = <T>(
  worlds: readonly T[],
  of: (some: readonly T[]) => number,
): { value: number; error: number } => {
  const without = worlds.map((_, left) => of(worlds.filter((__, i) => i !== left)));
  const mean = without.reduce((sum, one) => sum + one, 0) / without.length;
  const squares = without.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { value: of(worlds), error: Math.sqrt(((without.length - 1) / without.length) * squares) };
};

/** A sum over worlds as a ratio to another. */
interface OfTo {
  of: number;
  to: number;
}

export const ratioOfSums = (worlds: readonly OfTo[]): number =>
  worlds.reduce((sum, one) => sum + one.of, 0) / worlds.reduce((sum, one) => sum + one.to, 0);

/** "1.12 ± 0.03" */
export const ratioText = (worlds: readonly OfTo[]): string => {
  const { value, error } = jackknife(worlds, ratioOfSums);
  return `${value.toFixed(2)} ± ${error.toFixed(2)}`;
};
