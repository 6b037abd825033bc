/**
 * A ratio of two sums over independent worlds, with its standard error by leaving each of them out in turn.
 */
export const ratioOf = (worlds: readonly { of: number; to: number }[]): { ratio: number; error: number } => {
  const of = worlds.reduce((sum, one) => sum + one.of, 0);
  const to = worlds.reduce((sum, one) => sum + one.to, 0);
  const without = worlds.map(one => (of - one.of) / (to - one.to));
  const mean = without.reduce((sum, one) => sum + one, 0) / without.length;
  const squares = without.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { ratio: of / to, error: Math.sqrt(((without.length - 1) / without.length) * squares) };
};

/** "1.12 ± 0.03" */
export const ratioText = (worlds: readonly { of: number; to: number }[]): string => {
  const { ratio, error } = ratioOf(worlds);
  return `${ratio.toFixed(2)} ± ${error.toFixed(2)}`;
};
