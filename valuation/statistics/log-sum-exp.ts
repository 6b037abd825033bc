/** ln Σ exp(x), without overflow; −∞ for an empty list. */
export const logSumExp = (logs: readonly number[]): number => {
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  if (most === Number.NEGATIVE_INFINITY) return most;
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
};
