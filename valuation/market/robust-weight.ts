/** Departures up to this many standard deviations count in full; 2 or 3 in 100 honest sales lie beyond. */
const full = 2.5;
/** From here on a record is named as doubtful; 1 in 2,000 honest sales lies beyond. */
export const doubtfulFrom = 3.5;

/**
 * Weight of a sale that departs by `t` standard deviations from what all the other sales predict: 1 up to
 * 2.5, then (2.5/|t|)³. Its pull, weight × |t|, falls beyond 2.5 and vanishes for wild records (a
 * redescending M-estimator in the manner of Huber and Hampel; Hampel et al., Robust Statistics (1986), ch.
 * 2). The departure must be from the estimate without the sale itself, or one wild record hides.
 */
export const robustWeight = (t: number): number => {
  const far = Math.abs(t);
  return far <= full ? 1 : (full / far) ** 3;
};

/**
 * How far a sale lies from what the others predict, in logs (`apart`) and in standard deviations
 * (`departure`), from its residual r against the fit that includes it, the variance of one sale, its variance
 * as weighted, and the posterior variance of the fit: with leverage h = fit/weighted, apart = r/(1 − h) and
 * departure = apart / √(sale + weighted · h/(1 − h)).
 */
export const leftOutDeparture = (
  residual: number,
  sale: number,
  weighted: number,
  fitVariance: number,
): { apart: number; departure: number } => {
  const leverage = Math.min(0.999, fitVariance / weighted);
  const apart = residual / (1 - leverage);
  return { apart, departure: apart / Math.sqrt(sale + (weighted * leverage) / (1 - leverage)) };
};
