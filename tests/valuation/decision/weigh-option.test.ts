import { describe, expect, it } from 'vitest';
import { addCosts, type Cost } from '../../../valuation/decision/plan-cost.ts';
import {
  chanceOfGain,
  correlationOf,
  drawWorths,
  expectedGain,
  gainRange,
  normalPoints,
  type OptionInputs,
} from '../../../valuation/decision/weigh-option.ts';
import { exchangeGain } from '../../../valuation/statistics/exchange-gain.ts';
import { lowDiscrepancy } from '../../../valuation/statistics/low-discrepancy.ts';
import { normalQuantile } from '../../../valuation/statistics/normal.ts';
import { worthOfLogs } from '../../../valuation/worth/car-worths.ts';
import { seededRandom } from '../../helpers/random.ts';

const size = 512;
const points = normalPoints(lowDiscrepancy(size, 2));
const costOf = (low: number, likely: number, high: number): Cost =>
  addCosts([{ low, likely, high }], lowDiscrepancy(size, 3).slice(2));
const alternative = (known: Partial<OptionInputs>): OptionInputs => {
  const found = known.found ?? worthOfLogs({ logMean: Math.log(1000), logSd: 0.3, sharedSd: 0.1 });
  const after = known.after ?? worthOfLogs({ logMean: Math.log(2200), logSd: 0.4, sharedSd: 0.2 });
  const correlation = known.correlation ?? 0.3;
  return {
    found,
    after,
    cost: costOf(200, 500, 1200),
    fees: 0.12,
    spoilChance: 0.05,
    spoiledShare: 0.4,
    correlation,
    draws: drawWorths(found, after, correlation, points),
    ...known,
  };
};

/** The same by brute force. */
const simulated = (a: OptionInputs, count = 200_000) => {
  const random = seededRandom(17);
  const rho = correlationOf(a.found, a.after, a.correlation);
  const gains: number[] = [];
  for (let i = 0; i < count; i++) {
    const z = random.normal(0, 1);
    const found = Math.exp(a.found.logMean + a.found.logSd * z);
    const other = rho * z + Math.sqrt(1 - rho * rho) * random.normal(0, 1);
    const after = Math.exp(a.after.logMean + a.after.logSd * other);
    const worth = random.uniform() < a.spoilChance ? a.spoiledShare * found : after;
    const cost = a.cost.draws[Math.floor(random.uniform() * size)]!;
    gains.push((1 - a.fees) * (worth - found) - cost);
  }
  gains.sort((x, y) => x - y);
  return {
    mean: gains.reduce((x, y) => x + y, 0) / count,
    chance: gains.filter(gain => gain > 0).length / count,
    at: (p: number) => gains[Math.floor(p * count)]!,
  };
};

describe('weighing an option against leaving', () => {
  it('has the gain, the chance and the range that brute force has', () => {
    for (const known of [{}, { spoilChance: 0 }, { fees: 0, spoilChance: 0.3 }, { correlation: 0.9 }]) {
      const a = alternative(known);
      const wanted = simulated(a);
      expect(Math.abs(expectedGain(a) - wanted.mean)).toBeLessThan(12);
      // Within four standard deviations of a sample of this size, though the sample is far more
      // even than chance.
      const tolerance = 4 * Math.sqrt((wanted.chance * (1 - wanted.chance)) / size);
      expect(Math.abs(chanceOfGain(a) - wanted.chance)).toBeLessThan(tolerance / 3);
      const range = gainRange(a);
      for (const [key, p] of [
        ['low', 0.1],
        ['mid', 0.5],
        ['high', 0.9],
      ] as const)
        expect(Math.abs(range[key] - wanted.at(p))).toBeLessThan(60);
    }
  });

  it('is the closed form of the exchange where nothing is spent and nothing can be spoilt', () => {
    const a = alternative({ cost: addCosts([], lowDiscrepancy(size, 1)), spoilChance: 0 });
    const { probability } = exchangeGain({
      m1: a.after.logMean,
      s1: a.after.logSd,
      m2: a.found.logMean,
      s2: a.found.logSd,
      rho: correlationOf(a.found, a.after, a.correlation),
    });
    expect(chanceOfGain(a)).toBe(probability);
    const almost = chanceOfGain({ ...a, spoilChance: 1e-9 });
    expect(Math.abs(almost - probability)).toBeLessThan(0.01);
  });

  it('correlates two worths by what they share and by the owner’s correlation of the rest', () => {
    const worth = (sd: number, shared: number) => worthOfLogs({ logMean: 5, logSd: sd, sharedSd: shared });
    expect(correlationOf(worth(0.3, 0.3), worth(0.5, 0.5), 0)).toBeCloseTo(1, 12);
    expect(correlationOf(worth(0.3, 0), worth(0.5, 0), 0)).toBe(0);
    expect(correlationOf(worth(0.5, 0.3), worth(0.5, 0.3), 0.5)).toBeCloseTo((0.09 + 0.5 * 0.16) / 0.25, 12);
    expect(correlationOf(worth(0, 0), worth(0.5, 0.3), 0.5)).toBe(0);
  });

  it('never gains by fees of everything', () => {
    const a = alternative({ fees: 1 });
    expect(chanceOfGain(a)).toBe(0);
    expect(expectedGain(a)).toBeCloseTo(-a.cost.mean, 9);
  });

  it('rises with the worth afterwards and falls with the cost', () => {
    let last = -1;
    for (let mid = 800; mid < 6000; mid += 150) {
      const after = worthOfLogs({ logMean: Math.log(mid), logSd: 0.4, sharedSd: 0.2 });
      const chance = chanceOfGain(alternative({ after }));
      expect(chance).toBeGreaterThanOrEqual(last);
      last = chance;
    }
  });

  it('draws each worth with its own spread', () => {
    const { draws, after } = alternative({});
    const sorted = Array.from(draws.after).sort((a, b) => a - b);
    for (const p of [0.1, 0.5, 0.9])
      expect(
        Math.abs(Math.log(sorted[Math.floor(p * size)]!) - after.logSd * normalQuantile(p)),
      ).toBeLessThan(0.05);
  });
});
