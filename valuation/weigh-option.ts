import { exchangeGain } from './exchange-gain.ts';
import { normalQuantile } from './normal.ts';
import type { Cost } from './plan-cost.ts';
import { weightedQuantile } from './quantile.ts';
import type { Range, Worth } from './types.ts';

/** One way to treat a car, against leaving it. Money in minor units of the reporting currency. */
export interface Alternative {
  found: Worth;
  after: Worth;
  cost: Cost;
  /** Share of proceeds lost in selling, whichever way. */
  fees: number;
  /** Chance that the car is spoiled, and the share of its worth as found that is then left. */
  spoilChance: number;
  spoiledShare: number;
  /** Correlation of the two worths beyond what they share through the pooled estimate. */
  correlation: number;
}

/** Mean of a lognormal worth, exp(m + s²/2). */
export const meanWorth = (worth: Worth): number => Math.exp(worth.logMean + worth.logSd ** 2 / 2);

/** Correlation of the logs of two worths of one car: what they share through the pooled estimate, and `correlation` of the rest. */
export const correlationOf = (a: Worth, b: Worth, correlation: number): number => {
  const product = a.logSd * b.logSd;
  if (product === 0) return 0;
  const rest = (w: Worth) => Math.sqrt(Math.max(0, w.logSd ** 2 - w.sharedSd ** 2));
  return Math.min(1, Math.max(-1, (a.sharedSd * b.sharedSd + correlation * rest(a) * rest(b)) / product));
};

/** Expected net gain over leaving: (1 − fees) × ((1 − p) E after + p × share × E found − E found) − E cost. A closed form. */
export const expectedGain = (alternative: Alternative, after = meanWorth(alternative.after)): number => {
  const { found, cost, fees, spoilChance: p, spoiledShare } = alternative;
  const left = meanWorth(found);
  return (1 - fees) * ((1 - p) * after + p * spoiledShare * left - left) - cost.mean;
};

/** Standard normal draws for the worth as found and, beyond its correlation with it, the worth after. */
export interface NormalPoints {
  found: Float64Array;
  after: Float64Array;
}

export const normalPoints = (points: readonly Float64Array[]): NormalPoints => ({
  found: points[0]!.map(normalQuantile),
  after: points[1]!.map(normalQuantile),
});

/** Draws of the two worths at the points of the sample. */
const drawWorths = ({ found, after, correlation }: Alternative, points: NormalPoints) => {
  const rho = correlationOf(found, after, correlation);
  const own = Math.sqrt(1 - rho * rho);
  const count = points.found.length;
  const foundDraws = new Float64Array(count);
  const afterDraws = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    foundDraws[i] = Math.exp(found.logMean + found.logSd * points.found[i]!);
    const z = rho * points.found[i]! + own * points.after[i]!;
    afterDraws[i] = Math.exp(after.logMean + after.logSd * z);
  }
  return { foundDraws, afterDraws };
};

/**
 * Probability that the option beats leaving, P(gain > 0). Where it costs nothing and spoils nothing that is P(after > found) of two
 * correlated lognormals, in closed form; otherwise the share of the sample's draws, the spoiled branch weighted by its chance.
 */
export const chanceOfGain = (alternative: Alternative, points: NormalPoints): number => {
  const { found, after, cost, fees, spoilChance, spoiledShare, correlation } = alternative;
  if (fees >= 1) return 0;
  if (cost.range.high === 0 && cost.mean === 0 && spoilChance === 0) {
    const rho = correlationOf(found, after, correlation);
    return exchangeGain({
      m1: after.logMean,
      s1: after.logSd,
      m2: found.logMean,
      s2: found.logSd,
      rho,
    }).probability;
  }
  const { foundDraws, afterDraws } = drawWorths(alternative, points);
  let wins = 0;
  let spoiledWins = 0;
  for (let i = 0; i < foundDraws.length; i++) {
    const spent = cost.draws[i]! / (1 - fees);
    if (afterDraws[i]! > foundDraws[i]! + spent) wins++;
    if (spoiledShare * foundDraws[i]! > foundDraws[i]! + spent) spoiledWins++;
  }
  return ((1 - spoilChance) * wins + spoilChance * spoiledWins) / foundDraws.length;
};

/** Low, mid and high of the gain over leaving: 10, 50 and 90 % quantiles of the draws. */
export const gainRange = (alternative: Alternative, points: NormalPoints): Range => {
  const { cost, fees, spoilChance, spoiledShare } = alternative;
  const { foundDraws, afterDraws } = drawWorths(alternative, points);
  const gains: number[] = [];
  const weights: number[] = [];
  for (let i = 0; i < foundDraws.length; i++) {
    gains.push((1 - fees) * (afterDraws[i]! - foundDraws[i]!) - cost.draws[i]!);
    weights.push(1 - spoilChance);
    if (spoilChance === 0) continue;
    gains.push((1 - fees) * (spoiledShare - 1) * foundDraws[i]! - cost.draws[i]!);
    weights.push(spoilChance);
  }
  const at = (p: number) => Math.round(weightedQuantile(gains, weights, p));
  return { low: at(0.1), mid: at(0.5), high: at(0.9) };
};
