import { exchangeGain } from '../statistics/exchange-gain.ts';
import { normalCdf, normalQuantile } from '../statistics/normal.ts';
import type { Range, Worth } from '../types.ts';
import type { Cost } from './plan-cost.ts';

/** One way to treat a car, against leaving it. Money in minor units of the reporting currency. */
export interface OptionInputs {
  found: Worth;
  after: Worth;
  cost: Cost;
  /** Share of proceeds lost in selling, whichever way. */
  fees: number;
  /** Chance that the car is spoiled, and the share of its worth as found that is then left. */
  spoilChance: number;
  spoiledShare: number;
  /** Correlation of the logs of the two worths. */
  correlation: number;
}

/** Mean of a lognormal worth, exp(m + s²/2). */
export const meanWorth = (worth: Worth): number => Math.exp(worth.logMean + worth.logSd ** 2 / 2);

/**
 * Correlation of the logs of two worths of one car, from the covariance of their estimates and, of what one
 * sale varies, the correlation that the owner assumes.
 */
export const correlationOf = (a: Worth, b: Worth, covariance: number, ofSales: number): number => {
  const product = a.logSd * b.logSd;
  if (product === 0) return 0;
  const sale = (w: Worth) => w.saleSd ?? Math.sqrt(Math.max(0, w.logSd ** 2 - w.sharedSd ** 2));
  return Math.min(1, Math.max(-1, (covariance + ofSales * sale(a) * sale(b)) / product));
};

/**
 * Expected net gain over leaving: (1 − fees) × ((1 − p) E after + p × share × E found − E found) − E
 * cost. A closed form.
 */
export const expectedGain = (option: OptionInputs, after = meanWorth(option.after)): number => {
  const { found, cost, fees, spoilChance: p, spoiledShare } = option;
  const left = meanWorth(found);
  return (1 - fees) * ((1 - p) * after + p * spoiledShare * left - left) - cost.mean;
};

/**
 * Standard normal quantiles in the middle of so many equally likely parts, scaled to variance 1: a mean over
 * them stands for the integral.
 */
const middles = (count: number): readonly number[] => {
  const raw = Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
  const spread = Math.sqrt(raw.reduce((sum, z) => sum + z * z, 0) / count);
  return raw.map(z => z / spread);
};
const few = middles(10);
const some = middles(24);
const many = middles(64);

/**
 * Probability that the net gain is above `least`: over the worth as found and the cost, in equally likely
 * parts, the probability that the worth afterwards is as much as is needed, in closed form given the worth as
 * found; the spoiled branch by its chance.
 */
const chanceAbove = (option: OptionInputs, least: number, grid: readonly number[]): number => {
  const { found, after, cost, fees, spoilChance, spoiledShare, correlation: rho } = option;
  const own = after.logSd * Math.sqrt(1 - rho * rho);
  const slope = after.logSd * rho;
  const points = grid === many ? cost.finePoints : cost.points;
  const before = points.map(point => (point + least) / (1 - fees));
  let wins = 0;
  let spoiledWins = 0;
  for (let i = 0; i < grid.length; i++) {
    const z = grid[i]!;
    const left = Math.exp(found.logMean + found.logSd * z);
    const middle = after.logMean + slope * z;
    for (let k = 0; k < before.length; k++) {
      const needed = left + before[k]!;
      if (needed <= 0) wins++;
      else if (own > 0) wins += normalCdf((middle - Math.log(needed)) / own);
      else if (middle > Math.log(needed)) wins++;
      if (spoilChance > 0 && spoiledShare * left > needed) spoiledWins++;
    }
  }
  return ((1 - spoilChance) * wins + spoilChance * spoiledWins) / (grid.length * before.length);
};

/** A worth that follows the other closely makes the chance a step, which few parts would miss. */
const gridFor = ({ after, correlation }: OptionInputs): readonly number[] =>
  after.logSd * Math.sqrt(1 - correlation * correlation) < 0.12 ? many : few;

/**
 * Probability that the option beats leaving, P(gain > 0). Where it costs nothing and spoils nothing that is
 * P(after > found) of two correlated lognormals, in closed form.
 */
export const chanceOfGain = (option: OptionInputs): number => {
  const { found, after, cost, fees, spoilChance, correlation } = option;
  if (fees >= 1) return 0;
  if (cost.mean === 0 && spoilChance === 0)
    return exchangeGain({
      m1: after.logMean,
      s1: after.logSd,
      m2: found.logMean,
      s2: found.logSd,
      rho: correlation,
    }).probability;
  return chanceAbove(option, 0, gridFor(option));
};

/** Low, mid and high of the gain over leaving: its 10, 50 and 90 % quantiles, found by halving. */
export const gainRange = (option: OptionInputs): Range => {
  const { found, after, cost, fees } = option;
  const most = (worth: Worth) => Math.exp(worth.logMean + 6 * worth.logSd);
  const grid = gridFor(option) === many ? many : some;
  const start = { low: -(1 - fees) * most(found) - 4 * cost.mean - 1, high: (1 - fees) * most(after) + 1 };
  const at = (p: number): number => {
    let { low, high } = start;
    while (high - low > 0.25) {
      const middle = (low + high) / 2;
      if (chanceAbove(option, middle, grid) > 1 - p) low = middle;
      else high = middle;
    }
    return Math.round((low + high) / 2) + 0;
  };
  if (fees >= 1) {
    const { low, mid, high } = cost.range;
    return { low: 0 - high, mid: 0 - mid, high: 0 - low };
  }
  return { low: at(0.1), mid: at(0.5), high: at(0.9) };
};
