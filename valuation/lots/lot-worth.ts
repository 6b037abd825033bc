import { checkBetween } from '../statistics/check-input.ts';
import { normalCdf } from '../statistics/normal.ts';
import type { Range, Worth } from '../types.ts';

/**
 * Places, in standard deviations, at which the part that all worths share is taken, each weighted by
 * the normal density.
 */
const grid = (step: number) => {
  const half = Math.round(6 / step);
  return Array.from({ length: 2 * half + 1 }, (_, i) => {
    const z = (i - half) * step;
    return { z, weight: (step * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI) };
  });
};
const fine = grid(0.05);
const coarseStep = 0.25;
/**
 * For many cars, where it is as good: the error of the trapezoid on a normal density
 * falls as exp(−2π²/step²).
 */
const coarse = grid(coarseStep);
const manyCars = 1000;

/** Mean and variance of the sum where the shared part stands at one place. */
interface SumAt {
  mean: number;
  variance: number;
  weight: number;
}

/** Means and standard deviations of the logs of some worths, at the same places. */
export interface LogWorths {
  means: Float64Array;
  sds: Float64Array;
  /** What they are expected to bring together. */
  expected: number;
}

const sumsOf = (worths: readonly LogWorths[], rho: number): SumAt[] =>
  fine.map(({ z, weight }) => {
    let mean = 0;
    let variance = 0;
    for (const { means, sds } of worths)
      for (let k = 0; k < means.length; k++) {
        const own = sds[k]! * sds[k]! * (1 - rho);
        const expected = Math.exp(means[k]! + sds[k]! * Math.sqrt(rho) * z + own / 2);
        mean += expected;
        variance += expected * expected * Math.expm1(own);
      }
    return { mean, variance, weight };
  });

/**
 * The same over the coarse grid: from one place to the next a car's expected price grows by one factor, so
 * that it takes three exponentials instead of two for each place.
 */
const steppedSums = (worths: readonly LogWorths[], rho: number): SumAt[] => {
  const shared = Math.sqrt(rho);
  const first = coarse[0]!.z;
  const sums = new Float64Array(coarse.length);
  const variances = new Float64Array(coarse.length);
  for (const { means, sds } of worths)
    for (let k = 0; k < means.length; k++) {
      const own = sds[k]! * sds[k]! * (1 - rho);
      const spread = Math.expm1(own);
      const growth = Math.exp(sds[k]! * shared * coarseStep);
      let expected = Math.exp(means[k]! + sds[k]! * shared * first + own / 2);
      for (let i = 0; i < sums.length; i++) {
        sums[i]! += expected;
        variances[i]! += expected * expected * spread;
        expected *= growth;
      }
    }
  return coarse.map(({ weight }, i) => ({ mean: sums[i]!, variance: variances[i]!, weight }));
};

export interface LotWorth {
  mean: number;
  /** Probability that the sum is at most `amount`. */
  cdf: (amount: number) => number;
  quantile: (p: number) => number;
}

/**
 * Distribution of the sum of several cars' worths, in minor units. The logs are normal with correlation
 * `correlation` between any two cars (one shared factor); given the shared factor the cars are independent,
 * and their sum is taken as the lognormal of the same mean and variance. Exact for one car. Throws RangeError
 * on an empty list or a correlation outside 0…1.
 * Source: Fenton (1960), IRE Transactions on Communications Systems 8; Vasicek (1987) for the single factor.
 */
export const lotWorth = (worths: readonly Worth[], correlation: number): LotWorth =>
  worthOfParts([logWorths(worths)], correlation);

/** The logs of these worths, in their order. */
export const logWorths = (worths: readonly Pick<Worth, 'logMean' | 'logSd'>[]): LogWorths => ({
  means: Float64Array.from(worths, ({ logMean }) => logMean),
  sds: Float64Array.from(worths, ({ logSd }) => logSd),
  expected: worths.reduce((sum, { logMean, logSd }) => sum + Math.exp(logMean + logSd ** 2 / 2), 0),
});

/** `lotWorth` of the cars of several parts together. */
export const worthOfParts = (worths: readonly LogWorths[], correlation: number): LotWorth => {
  const cars = worths.reduce((sum, { means }) => sum + means.length, 0);
  if (cars === 0) throw new RangeError('worths must not be empty');
  checkBetween(correlation, 0, 1, 'correlation');
  // One car shares with none.
  const rho = cars > 1 ? correlation : 0;
  const sums = cars > manyCars ? steppedSums(worths, rho) : sumsOf(worths, rho);
  const parts = sums.map(({ mean, variance, weight }) => {
    const square = Math.log1p(variance / (mean * mean));
    return { log: Math.log(mean) - square / 2, sd: Math.sqrt(square), weight };
  });
  const cdf = (amount: number) => {
    if (!(amount > 0)) return 0;
    const log = Math.log(amount);
    let sum = 0;
    for (const { log: at, sd, weight } of parts)
      sum += weight * (sd > 0 ? normalCdf((log - at) / sd) : Number(log >= at));
    return Math.min(1, sum);
  };
  const quantile = (p: number) => {
    checkBetween(p, 1e-9, 1 - 1e-9, 'p');
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const { log, sd } of parts) {
      low = Math.min(low, log - 7 * sd);
      high = Math.max(high, log + 7 * sd);
    }
    for (let i = 0; i < 100 && high - low > 1e-13; i++) {
      const middle = (low + high) / 2;
      if (cdf(Math.exp(middle)) < p) low = middle;
      else high = middle;
    }
    return Math.exp(high);
  };
  const mean = worths.reduce((sum, { expected }) => sum + expected, 0);
  return { mean, cdf, quantile };
};

/**
 * The mean of a sum, as `mid`, and its 80 % range, in whole minor units. The mean of a very skewed sum may
 * lie above the range, which is then widened to it.
 */
export const rangeOfSum = ({ mean, quantile }: LotWorth): Range => {
  const mid = Math.round(mean);
  return {
    low: Math.min(mid, Math.round(quantile(0.1))),
    mid,
    high: Math.max(mid, Math.round(quantile(0.9))),
  };
};
