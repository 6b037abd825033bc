import { exchangeGain } from '../statistics/exchange-gain.ts';
import { normalQuantile } from '../statistics/normal.ts';
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
  /** Correlation of the two worths beyond what they share through the pooled estimate. */
  correlation: number;
  /** Draws of the two worths, each as a multiple of its median, at the points at which the cost was drawn. */
  draws: { found: Float64Array; after: Float64Array };
}

/** Mean of a lognormal worth, exp(m + s²/2). */
export const meanWorth = (worth: Worth): number => Math.exp(worth.logMean + worth.logSd ** 2 / 2);

/**
 * Correlation of the logs of two worths of one car: what they share through the pooled estimate, and
 * `correlation` of the rest.
 */
export const correlationOf = (a: Worth, b: Worth, correlation: number): number => {
  const product = a.logSd * b.logSd;
  if (product === 0) return 0;
  const rest = (w: Worth) => Math.sqrt(Math.max(0, w.logSd ** 2 - w.sharedSd ** 2));
  return Math.min(1, Math.max(-1, (a.sharedSd * b.sharedSd + correlation * rest(a) * rest(b)) / product));
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
 * Standard normal points: for the worth as found, and for what the worth after has besides its
 * correlation with it.
 */
export interface NormalPoints {
  found: Float64Array;
  after: Float64Array;
}

/**
 * Points of the unit square (two rows of 0 … 1, exclusive) as standard normal quantiles: worth as found,
 * worth after the work.
 */
export const normalPoints = (points: readonly Float64Array[]): NormalPoints => ({
  found: points[0]!.map(normalQuantile),
  after: points[1]!.map(normalQuantile),
});

/**
 * The two worths at the points of the sample, each as a multiple of its median: they hold whatever
 * the medians are.
 */
export const drawWorths = (
  found: Worth,
  after: Worth,
  correlation: number,
  points: NormalPoints,
): OptionInputs['draws'] => {
  const rho = correlationOf(found, after, correlation);
  const own = Math.sqrt(1 - rho * rho);
  return {
    found: points.found.map(z => Math.exp(found.logSd * z)),
    after: points.after.map((z, i) => Math.exp(after.logSd * (rho * points.found[i]! + own * z))),
  };
};

/**
 * Probability that the option beats leaving, P(gain > 0). Where it costs nothing and spoils nothing that is
 * P(after > found) of two correlated lognormals, in closed form; otherwise the share of the sample's draws,
 * the spoiled branch weighted by its chance.
 */
export const chanceOfGain = (option: OptionInputs): number => {
  const { found, after, cost, fees, spoilChance, spoiledShare, correlation, draws } = option;
  if (fees >= 1) return 0;
  if (cost.mean === 0 && spoilChance === 0) {
    const rho = correlationOf(found, after, correlation);
    return exchangeGain({
      m1: after.logMean,
      s1: after.logSd,
      m2: found.logMean,
      s2: found.logSd,
      rho,
    }).probability;
  }
  const foundMedian = Math.exp(found.logMean);
  const afterMedian = Math.exp(after.logMean);
  let wins = 0;
  let spoiledWins = 0;
  for (let i = 0; i < draws.found.length; i++) {
    const needed = foundMedian * draws.found[i]! + cost.draws[i]! / (1 - fees);
    if (afterMedian * draws.after[i]! > needed) wins++;
    if (spoiledShare * foundMedian * draws.found[i]! > needed) spoiledWins++;
  }
  return ((1 - spoilChance) * wins + spoilChance * spoiledWins) / draws.found.length;
};

/**
 * Low, mid and high of the gain over leaving: 10, 50 and 90 % quantiles of the draws, the spoiled branch
 * weighted by its chance.
 */
export const gainRange = (option: OptionInputs): Range => {
  const { found, after, cost, fees, spoilChance, spoiledShare, draws } = option;
  const foundMedian = Math.exp(found.logMean);
  const afterMedian = Math.exp(after.logMean);
  const gain = (worth: number, i: number) =>
    (1 - fees) * (worth - foundMedian * draws.found[i]!) - cost.draws[i]!;
  const done = draws.after.map((x, i) => gain(afterMedian * x, i)).sort();
  const spoiled = draws.found.map((x, i) => gain(spoiledShare * foundMedian * x, i)).sort();
  const count = done.length;
  let i = 0;
  let j = 0;
  let reached = 0;
  const next = (p: number): number => {
    let value = Number.NaN;
    // Goes on in order of the gains through both branches until their weights reach p.
    while (Number.isNaN(value) || reached < p - 1e-9) {
      if (i < count && (j >= count || done[i]! <= spoiled[j]!)) {
        value = done[i++]!;
        reached += (1 - spoilChance) / count;
      } else {
        value = spoiled[j++]!;
        reached += spoilChance / count;
      }
    }
    return Math.round(value);
  };
  return { low: next(0.1), mid: next(0.5), high: next(0.9) };
};
