import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { costsAtBid } from '../../../valuation/lots/costs-at-bid.ts';
import { highestBid } from '../../../valuation/lots/highest-bid.ts';
import { lotResult } from '../../../valuation/lots/lot-result.ts';
import { lotWorth, rangeOfSum } from '../../../valuation/lots/lot-worth.ts';
import { shareLot } from '../../../valuation/lots/share-lot.ts';
import { sumWorths } from '../../../valuation/lots/sum-worths.ts';
import { normalCdf } from '../../../valuation/statistics/normal.ts';
import type { Worth } from '../../../valuation/types.ts';
import { worthOfLogs } from '../../../valuation/worth/car-worths.ts';
import { seededRandom } from '../../helpers/random.ts';

const worth = (mid: number, sd: number) =>
  worthOfLogs({ logMean: Math.log(mid), logSd: sd, sharedSd: sd / 2 });
const lot = [worth(1200, 0.3), worth(800, 0.5), worth(4000, 0.4), worth(300, 0.6), worth(2500, 0.35)];
const wish = { worths: lot, premiumRate: 0.2, taxRate: 0.08, carriage: 1500, margin: 0.25, probability: 0.8 };

describe('lotWorth', () => {
  it('is the lognormal itself for one car', () => {
    for (const correlation of [0, 0.2, 1]) {
      const { cdf, quantile } = lotWorth([worth(1000, 0.4)], correlation);
      for (const amount of [500, 1000, 1700])
        expect(Math.abs(cdf(amount) - normalCdf(Math.log(amount / 1000) / 0.4))).toBeLessThan(1e-6);
      expect(Math.abs(quantile(0.5) / 1000 - 1)).toBeLessThan(1e-6);
    }
  });

  it('has the distribution of the sum that brute force has', () => {
    const random = seededRandom(3);
    for (const correlation of [0, 0.3]) {
      const sums = Array.from({ length: 60_000 }, () => {
        const shared = random.normal(0, 1);
        return lot.reduce((sum, { logMean, logSd }) => {
          const z = Math.sqrt(correlation) * shared + Math.sqrt(1 - correlation) * random.normal(0, 1);
          return sum + Math.exp(logMean + logSd * z);
        }, 0);
      }).sort((a, b) => a - b);
      const { quantile, mean } = lotWorth(lot, correlation);
      for (const p of [0.05, 0.2, 0.5, 0.8, 0.95])
        expect(Math.abs(quantile(p) / sums[Math.floor(p * sums.length)]! - 1)).toBeLessThan(0.025);
      expect(Math.abs(mean / (sums.reduce((a, b) => a + b, 0) / sums.length) - 1)).toBeLessThan(0.01);
    }
  });

  it('has the same distribution for many cars, where one place leads to the next, as place by place', () => {
    const random = seededRandom(8);
    const many = Array.from({ length: 1500 }, () =>
      worth(300 + 9000 * random.uniform(), 0.2 + random.uniform()),
    );
    for (const correlation of [0, 0.04, 0.6]) {
      const places = Array.from({ length: 49 }, (_, i) => (i - 24) / 4).map(z => {
        const [mean, variance] = many.reduce(
          ([m, v], { logMean, logSd }) => {
            const own = logSd ** 2 * (1 - correlation);
            const expected = Math.exp(logMean + logSd * Math.sqrt(correlation) * z + own / 2);
            return [m + expected, v + expected ** 2 * Math.expm1(own)] as const;
          },
          [0, 0] as readonly [number, number],
        );
        const square = Math.log1p(variance / mean ** 2);
        const weight = (Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI)) * 0.25;
        return { log: Math.log(mean) - square / 2, sd: Math.sqrt(square), weight };
      });
      const { cdf, quantile } = lotWorth(many, correlation);
      for (const p of [0.1, 0.5, 0.9]) {
        const log = Math.log(quantile(p));
        const direct = places.reduce((sum, at) => sum + at.weight * normalCdf((log - at.log) / at.sd), 0);
        expect(Math.abs(direct - p)).toBeLessThan(1e-9);
        expect(Math.abs(cdf(Math.exp(log)) - p)).toBeLessThan(1e-8);
      }
    }
  });

  it('is wider with correlated cars, and refuses an empty lot', () => {
    const spread = (correlation: number) => {
      const { quantile } = lotWorth(lot, correlation);
      return quantile(0.9) - quantile(0.1);
    };
    expect(spread(0.5)).toBeGreaterThan(spread(0));
    expect(() => lotWorth([], 0)).toThrow(RangeError);
    expect(() => lotWorth(lot, 1.2)).toThrow(RangeError);
  });
});

describe('sumWorths', () => {
  it('adds the mids, adds what cars share and squares what is their own', () => {
    // Every car shares half of its spread, so a width is √(¼ (Σ w)² + ¾ Σ w²).
    const total = sumWorths(lot);
    const side = (width: (w: Worth) => number) => {
      const widths = lot.map(width);
      const [sum, squares] = [widths.reduce((a, b) => a + b, 0), widths.reduce((a, b) => a + b * b, 0)];
      return Math.round(Math.sqrt(sum ** 2 / 4 + (squares * 3) / 4));
    };
    expect(total.mid).toBe(8800);
    expect(total.low).toBe(8800 - side(w => w.mid - w.low));
    expect(total.high).toBe(8800 + side(w => w.high - w.mid));
    expect(total).toEqual({ low: 6408, mid: 8800, high: 12773 });
  });
  it('is the car’s own range for one, and nothing for none', () => {
    const { low, mid, high } = lot[0]!;
    expect(sumWorths([lot[0]!])).toEqual({ low, mid, high });
    expect(sumWorths([])).toEqual({ low: 0, mid: 0, high: 0 });
  });
  it('is the range that a bid shows', () => {
    expect(highestBid(wish).expectedWorth).toEqual(rangeOfSum(lotWorth(lot, 0.2)));
  });
});

describe('highestBid', () => {
  it('meets the margin with the probability at the bid, and no longer at one unit more', () => {
    const { bid, total, probability } = highestBid(wish);
    const met = (outlay: number) => 1 - lotWorth(lot, 0.2).cdf(outlay / 0.75);
    expect(probability).toBeCloseTo(met(total), 12);
    expect(probability).toBeGreaterThanOrEqual(0.8);
    const withPremium = bid + 1 + Math.ceil((bid + 1) * 0.2);
    expect(met(withPremium + Math.ceil(withPremium * 0.08) + 1500)).toBeLessThan(0.8);
  });

  it('adds premium, then tax on both, then carriage', () => {
    const { bid, total } = highestBid({ ...wish, fees: 0.1 });
    const withPremium = bid + Math.ceil(bid * 0.2 - 1e-9);
    expect(total).toBe(withPremium + Math.ceil(withPremium * 0.08 - 1e-9) + 1500);
  });

  it('comes with premium and tax each rounded up, and with nothing that floating point adds', () => {
    expect(costsAtBid(1001, { premiumRate: 0.2, taxRate: 0.08 })).toEqual({ premium: 201, tax: 97 });
    // 0.07 × 100 is 7.000000000000001.
    expect(costsAtBid(100, { premiumRate: 0.07, taxRate: 0 })).toEqual({ premium: 7, tax: 0 });
  });

  it('falls with every demand', () => {
    const { bid } = highestBid(wish);
    for (const harder of [
      { margin: 0.4 },
      { probability: 0.95 },
      { premiumRate: 0.3 },
      { taxRate: 0.2 },
      { carriage: 3000 },
      { fees: 0.15 },
    ])
      expect(highestBid({ ...wish, ...harder }).bid).toBeLessThan(bid);
  });

  it('is nothing where carriage alone is too much, and then says how likely the margin is', () => {
    const dear = highestBid({ ...wish, carriage: 100_000 });
    expect(dear).toMatchObject({ bid: 0, total: 100_000 });
    expect(dear.probability).toBeLessThan(0.01);
  });

  it.each([
    ['no cars', { worths: [] }],
    ['a margin of everything', { margin: 1 }],
    ['a probability of one', { probability: 1 }],
    ['a premium below zero', { premiumRate: -0.1 }],
    ['carriage below zero', { carriage: -1 }],
    ['no number', { taxRate: Number.NaN }],
  ])('refuses %s', (_, change) => {
    expect(() => highestBid({ ...wish, ...change })).toThrow(RangeError);
  });
});

describe('shareLot', () => {
  const cars = fc.array(
    fc.record({
      weight: fc.option(fc.integer({ min: 0, max: 5000 }), { nil: null }),
      fixed: fc.option(fc.integer({ min: 0, max: 400 }), { nil: null, freq: 2 }),
    }),
    { minLength: 1, maxLength: 20 },
  );

  it('sums to the total exactly and leaves fixed shares as they are', () => {
    fc.assert(
      fc.property(cars, fc.integer({ min: 8000, max: 500_000 }), (list, totalMinor) => {
        const wishes = [...list, { weight: 10, fixed: null }].map((car, id) => ({ id, ...car }));
        const { shares } = shareLot({ totalMinor, cars: wishes });
        expect(shares.reduce((sum, { minor }) => sum + minor, 0)).toBe(totalMinor);
        shares.forEach(({ id, minor, fixed }) => {
          expect(fixed).toBe(wishes[id]!.fixed !== null);
          if (fixed) expect(minor).toBe(wishes[id]!.fixed);
        });
      }),
    );
  });

  it('shares the rest by weight, an unknown car as the others on average, all alike where nothing is known', () => {
    const share = (weights: (number | null)[], fixed: (number | null)[], totalMinor: number) =>
      shareLot({
        totalMinor,
        cars: weights.map((weight, id) => ({ id, weight, fixed: fixed[id] ?? null })),
      }).shares.map(({ minor }) => minor);
    expect(share([136_000, 24_000], [], 200_000)).toEqual([170_000, 30_000]);
    expect(share([100, 300, null], [], 600)).toEqual([100, 300, 200]);
    expect(share([100, 300, 7], [null, null, 200], 600)).toEqual([100, 300, 200]);
    expect(share([null, null, null], [], 100)).toEqual([34, 33, 33]);
    expect(share([0, 0], [], 3)).toEqual([2, 1]);
    expect(share([5, 5], [10, 20], 30)).toEqual([10, 20]);
  });

  it('refuses fixed shares beyond the total, or all fixed and not at the total, and bad figures', () => {
    const refuse = (
      totalMinor: number,
      fixed: (number | null)[],
      message: RegExp,
      weight: number | null = 1,
    ) =>
      expect(() =>
        shareLot({ totalMinor, cars: fixed.map((share, id) => ({ id, weight, fixed: share })) }),
      ).toThrow(message);
    refuse(100, [60, 50, null], /come to 110, more than the lot cost \(100\)/);
    refuse(100, [60, 30], /every share is fixed/);
    refuse(100, [-1, null], /fixed share of car 0/);
    refuse(100, [], /empty/);
    refuse(-5, [null], /totalMinor/);
    refuse(10.5, [null], /totalMinor/);
    refuse(100, [null], /weight of car 0/, Number.NaN);
    refuse(100, [null], /weight of car 0/, -1);
  });
});

describe('lotResult', () => {
  it('follows the objects: bought for 10,000, improved for 6,000, sold for 20,000 gains 4,000', () => {
    const sold = { cost: 10_000, improvements: 6_000, sold: { proceeds: 20_000, fees: 0 }, worth: null };
    expect(lotResult([sold])).toMatchObject({ gainRealised: 4_000, remainingWorth: 0, unvalued: 0 });
  });

  it('adds up what is sold and what remains', () => {
    const result = lotResult([
      { cost: 500, improvements: 100, sold: { proceeds: 1500, fees: 150 }, worth: 900 },
      { cost: 300, improvements: 50, sold: null, worth: 700 },
      { cost: 200, improvements: 0, sold: null, worth: null },
    ]);
    expect(result).toEqual({
      cost: 1000,
      improvements: 150,
      proceeds: 1500,
      fees: 150,
      gainRealised: 750,
      remainingCost: 550,
      remainingWorth: 700,
      unvalued: 1,
      gainInAll: 900,
    });
    expect(() => lotResult([{ cost: 0.5, improvements: 0, sold: null, worth: null }])).toThrow(RangeError);
  });
});
