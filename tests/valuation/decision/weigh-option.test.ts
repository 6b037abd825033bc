import { describe, expect, it } from 'vitest';
import { addCosts, type Cost } from '../../../valuation/decision/plan-cost.ts';
import {
  chanceOfGain,
  correlationOf,
  expectedGain,
  gainRange,
  type OptionInputs,
} from '../../../valuation/decision/weigh-option.ts';
import { betaPert } from '../../../valuation/statistics/beta-pert.ts';
import { exchangeGain } from '../../../valuation/statistics/exchange-gain.ts';
import { worthOfLogs } from '../../../valuation/worth/car-worths.ts';
import { seededRandom } from '../../helpers/random.ts';

const costOf = (low: number, likely: number, high: number): Cost => addCosts([{ low, likely, high }]);
const alternative = (known: Partial<OptionInputs>): OptionInputs => {
  const found = known.found ?? worthOfLogs({ logMean: Math.log(1000), logSd: 0.3, sharedSd: 0.1 });
  const after = known.after ?? worthOfLogs({ logMean: Math.log(2200), logSd: 0.4, sharedSd: 0.2 });
  return {
    found,
    after,
    cost: costOf(200, 500, 1200),
    fees: 0.12,
    spoilChance: 0.05,
    spoiledShare: 0.4,
    correlation: 0.4,
    ...known,
  };
};

/** The same by brute force, its cost drawn from the beta-PERT itself. */
const simulated = (a: OptionInputs, [low, likely, high] = [200, 500, 1200], count = 200_000) => {
  const random = seededRandom(17);
  const rho = a.correlation;
  const { quantile } = betaPert(low!, likely!, high!);
  const costs = Array.from({ length: 2000 }, (_, i) => quantile((i + 0.5) / 2000));
  const gains: number[] = [];
  for (let i = 0; i < count; i++) {
    const z = random.normal(0, 1);
    const found = Math.exp(a.found.logMean + a.found.logSd * z);
    const other = rho * z + Math.sqrt(1 - rho * rho) * random.normal(0, 1);
    const after = Math.exp(a.after.logMean + a.after.logSd * other);
    const worth = random.uniform() < a.spoilChance ? a.spoiledShare * found : after;
    const cost = costs[Math.floor(random.uniform() * costs.length)]!;
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
      // The draws alone are off by 0.004 in one case of a thousand.
      expect(Math.abs(chanceOfGain(a) - wanted.chance)).toBeLessThan(0.008);
      const range = gainRange(a);
      for (const [key, p] of [
        ['low', 0.1],
        ['mid', 0.5],
        ['high', 0.9],
      ] as const)
        expect(Math.abs(range[key] - wanted.at(p))).toBeLessThan(25);
    }
  });

  it('has the chance of brute force where a worth is as good as certain, and where cost outweighs all', () => {
    const certain = worthOfLogs({ logMean: Math.log(1000), logSd: 0.02, sharedSd: 0.02 });
    const better = worthOfLogs({ logMean: Math.log(1700), logSd: 0.02, sharedSd: 0.02 });
    const hard: [Partial<OptionInputs>, [number, number, number]][] = [
      [{ found: certain, after: better, spoilChance: 0, correlation: 1 }, [200, 500, 1200]],
      [{ found: certain, correlation: 0.99 }, [200, 500, 1200]],
      [{ correlation: 0.999, spoilChance: 0 }, [200, 500, 1200]],
      [{ cost: costOf(0, 2000, 9000) }, [0, 2000, 9000]],
    ];
    for (const [known, cost] of hard) {
      const a = alternative(known);
      expect(Math.abs(chanceOfGain(a) - simulated(a, cost).chance)).toBeLessThan(0.03);
    }
  });

  it('is the closed form of the exchange where nothing is spent and nothing can be spoilt', () => {
    const a = alternative({ cost: addCosts([]), spoilChance: 0 });
    const { probability } = exchangeGain({
      m1: a.after.logMean,
      s1: a.after.logSd,
      m2: a.found.logMean,
      s2: a.found.logSd,
      rho: a.correlation,
    });
    expect(chanceOfGain(a)).toBe(probability);
    const almost = chanceOfGain({ ...a, spoilChance: 1e-9 });
    expect(Math.abs(almost - probability)).toBeLessThan(0.01);
  });

  it('correlates two worths by the covariance of their estimates and the owner’s correlation of the rest', () => {
    const worth = (sd: number, shared: number) => worthOfLogs({ logMean: 5, logSd: sd, sharedSd: shared });
    expect(correlationOf(worth(0.3, 0.3), worth(0.5, 0.5), 0.15, 0)).toBeCloseTo(1, 12);
    expect(correlationOf(worth(0.3, 0), worth(0.5, 0), 0, 0)).toBe(0);
    expect(correlationOf(worth(0.5, 0.3), worth(0.5, 0.3), 0.06, 0.5)).toBeCloseTo(
      (0.06 + 0.5 * 0.16) / 0.25,
      12,
    );
    expect(correlationOf(worth(0, 0), worth(0.5, 0.3), 0, 0.5)).toBe(0);
    // What the work makes of a car is its own: only what one sale varies goes with the sale as found.
    const worked = { ...worth(0.7, 0.3), saleSd: 0.4 };
    expect(correlationOf(worth(0.5, 0.3), worked, 0.06, 0.5)).toBeCloseTo(
      (0.06 + 0.5 * 0.4 * 0.4) / (0.5 * 0.7),
      12,
    );
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
});
