import { describe, expect, it } from 'vitest';
import {
  defaultAssumptions,
  fitMarket,
  fittedTrend,
  type Market,
  valueCar,
} from '../../../valuation/index.ts';
import { finishStates, grades } from '../../../valuation/words.ts';
import { demoMarket } from '../../helpers/markets/demo-market.ts';
import { on, saleOf, subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';
import { seededRandom } from '../../helpers/random.ts';

const assumptions = defaultAssumptions('USD');
const trending = { ...assumptions, index: 'trend' as const };

describe('fitMarket', () => {
  it('finds the truth of a dense market: factors, curve, trend and spread', () => {
    const { market, truth, on: date } = simulateMarket({ seed: 21, density: 8, drift: 0.04, noise: 0.25 });
    const fitted = fitMarket(market, trending, date);
    expect(fitted.stable).toBe(true);
    expect(Math.log(fitted.trend!.perYear)).toBeCloseTo(0.04, 2);
    expect(fitted.spread.within).toBeGreaterThan(0.23);
    expect(fitted.spread.within).toBeLessThan(0.28);
    const [one] = market.variations;
    for (const state of ['original', 'restored'] as const)
      for (const grade of [3, 5, 7, 9]) {
        const wanted = truth.logPrice(one!.id, state, grade) - truth.logPrice(one!.id, 'original', 6);
        const at = (s: typeof state, g: number) =>
          Math.log(fitted.gradeCurves[s][(g - 1) * 2]! * fitted.finishFactors[s]);
        expect(Math.abs(at(state, grade) - at('original', 6) - wanted)).toBeLessThan(0.1);
      }
  });

  it('fits curves that rise in every finish state, whatever the records say', () => {
    const random = seededRandom(3);
    const market: Market = {
      reportingCurrency: 'USD',
      castings: [{ id: 1, seriesId: 1 }],
      variations: [{ id: 1, castingId: 1, rarity: null }],
      // Prices that fall with the grade.
      sales: Array.from({ length: 200 }, (_, i) => {
        const grade = grades[i % 19]!;
        return saleOf({
          id: i + 1,
          grade,
          finishState: finishStates[i % 5]!,
          price: Math.round(20_000 * Math.exp(-0.3 * grade + random.normal(0, 0.1))),
        });
      }),
      rates: [],
    };
    const fitted = fitMarket(market, assumptions, on);
    for (const state of finishStates)
      fitted.gradeCurves[state].forEach((value, i, curve) => {
        if (i > 0) expect(value).toBeGreaterThanOrEqual(curve[i - 1]!);
      });
  });

  it('is the assumption set without records, and moves from it as records come', () => {
    const empty: Market = { reportingCurrency: 'USD', castings: [], variations: [], sales: [], rates: [] };
    const bare = fitMarket(empty, assumptions, on);
    expect(bare.recordsUsed).toBe(0);
    expect(bare.leftOut).toEqual({ coverage: null, typicalError: null });
    assumptions.gradeMultipliers.original.forEach((multiplier, i) => {
      expect(bare.gradeCurves.original[i * 2]).toBeCloseTo(multiplier, 9);
    });
    expect(bare.finishFactors.restored).toBeCloseTo(assumptions.finishFactors.restored, 9);
    expect(bare.rarityFactors.rare).toBeCloseTo(assumptions.rarityFactors.rare, 9);

    const truth = 0.2;
    const market = (count: number): Market => ({
      ...empty,
      castings: [{ id: 1, seriesId: 1 }],
      variations: [{ id: 1, castingId: 1, rarity: null }],
      sales: Array.from({ length: count }, (_, i) =>
        saleOf({
          id: i + 1,
          price: i % 2 === 0 ? 10_000 : 10_000 * truth,
          finishState: i % 2 === 0 ? 'original' : 'restored',
          grade: 10,
        }),
      ),
    });
    const factors = [4, 20, 200].map(
      count => fitMarket(market(count), assumptions, on).finishFactors.restored,
    );
    expect(factors[0]).toBeLessThan(assumptions.finishFactors.restored);
    expect(factors[1]).toBeLessThan(factors[0]!);
    expect(factors[2]).toBeLessThan(factors[1]!);
    expect(factors[2]).toBeCloseTo(truth, 2);
  });

  it('fits a trend only from forty records over three years, and only when asked', () => {
    const { market, on: date } = simulateMarket({ seed: 2, series: 2, castingsPerSeries: 4, drift: 0.05 });
    expect(market.sales.length).toBeGreaterThan(60);
    expect(fitMarket(market, assumptions, date).trend).toBeNull();
    const fitted = fitMarket(market, trending, date);
    expect(fitted.trend!.perYear).toBeGreaterThan(1);
    expect(fitted.trend!.perYear).toBeLessThan(Math.exp(0.1));
    const few = { ...market, sales: market.sales.slice(0, 39) };
    expect(fitMarket(few, trending, date).trend).toBeNull();
    const recent = market.sales.filter(({ soldOn }) => soldOn > '2023-01-01');
    const padded = [...recent, ...recent.map(sale => ({ ...sale, id: sale.id + 10_000 }))];
    expect(padded.length).toBeGreaterThanOrEqual(40);
    expect(fitMarket({ ...market, sales: padded }, trending, date).trend).toBeNull();
  });

  it('lets a mistyped 12,000 among 120s move an estimate by less than a tenth of its range, and names it', () => {
    for (const count of [3, 4, 8])
      for (const seed of [1, 2]) {
        const { market } = simulateMarket({ seed, series: 2, castingsPerSeries: 5 });
        const random = seededRandom(seed);
        market.castings.push({ id: 900, seriesId: 1 });
        market.variations.push({ id: 900, castingId: 900, rarity: 'common' });
        const sale = (id: number, price: number) =>
          saleOf({ id, price, castingId: 900, variationId: 900, grade: 7 });
        for (let i = 0; i < count; i++)
          market.sales.push(sale(8000 + i, Math.round(12_000 * Math.exp(random.normal(0, 0.1)))));
        const subject = subjectOf({ variationId: 900, grade: 7 });
        const before = valueCar(fitMarket(market, assumptions, on), subject).asFound!;
        const wild = { ...market, sales: [...market.sales, sale(9999, 1_200_000)] };
        const fitted = fitMarket(wild, assumptions, on);
        const { asFound, evidence } = valueCar(fitted, subject);
        expect(Math.abs(asFound!.mid - before.mid)).toBeLessThan((before.high - before.low) / 10);
        expect(fitted.doubtful.find(({ id }) => id === 9999)!.departure).toBeGreaterThan(3.5);
        expect(evidence.doubtful).toContain(9999);
      }
  });

  it('believes a price far from its casting once several sales agree on it', () => {
    const { market } = simulateMarket({ seed: 5, series: 2, castingsPerSeries: 5 });
    const { id, castingId } = market.variations[0]!;
    const subject = subjectOf({ variationId: id });
    const level = valueCar(fitMarket(market, assumptions, on), subject).asFound!.mid;
    const added = Array.from({ length: 6 }, (_, i) =>
      saleOf({ id: 7000 + i, price: level * 6 + i, castingId, variationId: id }),
    );
    const only = market.sales.filter(sale => sale.variationId !== id);
    const fitted = fitMarket({ ...market, sales: [...only, ...added] }, assumptions, on);
    expect(valueCar(fitted, subject).asFound!.mid).toBeGreaterThan(level * 4);
  });

  it('lets records override the assumed rarity, for a variation and for a whole rarity', () => {
    const { market, truth, on: date } = simulateMarket({ seed: 8, density: 3 });
    const fitted = fitMarket(market, trending, date);
    const errors = market.variations
      .filter(({ id, rarity }) => rarity === 'rare' && truth.salesOf(id) >= 3)
      .map(
        ({ id }) =>
          valueCar(fitted, subjectOf({ variationId: id })).asFound!.logMean -
          truth.logPrice(id, 'original', 6),
      );
    expect(errors.length).toBeGreaterThan(3);
    expect(Math.abs(errors.reduce((a, b) => a + b, 0) / errors.length)).toBeLessThan(0.2);
  });

  it('holds 75 to 85 % of the demo’s own sales in its ranges when each is predicted by the others', () => {
    const market = demoMarket();
    expect(market.sales.length).toBeGreaterThan(500);
    for (const set of [assumptions, trending]) {
      const { leftOut, setAside } = fitMarket(market, set, '2026-10-31');
      expect(leftOut.coverage).toBeGreaterThan(0.75);
      expect(leftOut.coverage).toBeLessThan(0.85);
      expect(setAside).toEqual([]);
    }
  });

  it('predicts a record from the others as refitting without it does', () => {
    const { market, on: date } = simulateMarket({ seed: 14, series: 2, castingsPerSeries: 5 });
    const fitted = fitMarket(market, assumptions, date);
    const { sales, departures } = fitted.inside;
    sales.forEach(({ record, price }, i) => {
      if (i % 8 > 0) return;
      const others = { ...market, sales: market.sales.filter(sale => sale !== record) };
      const worth = valueCar(
        fitMarket(others, assumptions, date),
        subjectOf({ variationId: record.variationId, grade: record.grade, finishState: record.finishState }),
      ).asFound!;
      // Nearness of grade and recency weigh a little differently in the two.
      expect(Math.abs((price - worth.logMean) / worth.logSd - departures[i]!)).toBeLessThan(0.5);
    });
  });

  it.each([
    ['a spread below zero', { prior: { ...assumptions.prior, within: -1 } }, /prior.within/],
    ['a half-life of nothing', { halfLifeYears: 0 }, /halfLifeYears/],
    ['a grade distance that is no number', { gradeDistanceHalf: Number.NaN }, /gradeDistanceHalf/],
    [
      'selling costs of more than all',
      { decision: { ...assumptions.decision, sellingFees: 1.2 } },
      /sellingFees/,
    ],
    ['a rarity factor of nothing', { rarityFactors: { ...assumptions.rarityFactors, rare: 0 } }, /rare/],
  ])('refuses %s', (_, change, message) => {
    const { market } = simulateMarket({ seed: 1, series: 1, castingsPerSeries: 1 });
    expect(() => fitMarket(market, { ...assumptions, ...change }, on)).toThrow(message);
    expect(() => fitMarket(market, { ...assumptions, ...change }, on)).toThrow(RangeError);
  });

  it('stands spreads of nothing: all pools wholly, and nothing becomes NaN', () => {
    const { market, on: date } = simulateMarket({ seed: 1, series: 2, castingsPerSeries: 3 });
    const prior = { ...assumptions.prior, betweenVariations: 0, betweenCastings: 0, betweenSeries: 0 };
    const fitted = fitMarket(market, { ...assumptions, prior: { ...prior, strength: 1e6 } }, date);
    const [a, b] = market.variations.map(
      ({ id }) => valueCar(fitted, subjectOf({ variationId: id })).asFound!,
    );
    expect(a!.logSd).toBeGreaterThan(0);
    expect(fitted.spread.betweenCastings).toBeLessThan(0.01);
    const rarities = market.variations.slice(0, 2).map(({ rarity }) => fitted.rarityFactors[rarity!]);
    expect(a!.logMean - b!.logMean).toBeCloseTo(Math.log(rarities[0]! / rarities[1]!), 1);
  });
});

describe('fittedTrend', () => {
  it('offers the trend of a moving market, and what it would improve', () => {
    const { market, on } = simulateMarket({ seed: 3, drift: 0.08 });
    const offer = fittedTrend(market, assumptions, on)!;
    expect(Math.abs(Math.log(offer.perYear) - 0.08)).toBeLessThan(0.02);
    expect(offer.records).toBe(market.sales.length);
    expect(offer.typicalError.with).toBeLessThan(offer.typicalError.without);
  });

  it('offers next to nothing in a still market, and nothing from few records', () => {
    const { market, on } = simulateMarket({ seed: 3, drift: 0 });
    const offer = fittedTrend(market, assumptions, on)!;
    expect(Math.abs(Math.log(offer.perYear))).toBeLessThan(0.02);
    expect(fittedTrend({ ...market, sales: market.sales.slice(0, 20) }, assumptions, on)).toBeNull();
  });
});

describe('noise and unknown rarities', () => {
  it('learns that rough cars are less sure than fine ones, and leaves the noise as it is where it is even', () => {
    const slopes = (noiseByGrade?: number) =>
      [1, 2, 3].map(seed => {
        const { market, on } = simulateMarket({ seed, drift: 0, ...(noiseByGrade && { noiseByGrade }) });
        const { noise } = fitMarket(market, assumptions, on).inside;
        return Math.log(noise[0]! / noise[18]!) / 2;
      });
    // The true factor of the deviation from C10 to C1 is 3, and none.
    for (const log of slopes(3)) expect(log).toBeGreaterThan(0.5);
    for (const log of slopes()) expect(Math.abs(log)).toBeLessThan(0.35);
  });

  it('takes a variation of unknown rarity for any of the rarities: dearer and less sure than a common one', () => {
    const { market, on } = simulateMarket({ seed: 2, drift: 0 });
    const unsold = market.variations.find(
      ({ id, rarity }) => rarity === 'common' && !market.sales.some(sale => sale.variationId === id),
    )!;
    const withRarity = (rarity: 'common' | null) => {
      const variations = market.variations.map(one => (one.id === unsold.id ? { ...one, rarity } : one));
      const fitted = fitMarket({ ...market, variations }, assumptions, on);
      return valueCar(fitted, subjectOf({ variationId: unsold.id })).asFound!;
    };
    const common = withRarity('common');
    const unknown = withRarity(null);
    expect(unknown.logMean).toBeGreaterThan(common.logMean + 0.1);
    expect(unknown.logSd ** 2).toBeGreaterThan(common.logSd ** 2 + 0.05);
  });

  it('takes an unknown rarity for rarer where its casting is often sold and it never was, and for commoner where it often was', () => {
    const { market, on } = simulateMarket({ seed: 2, drift: 0 });
    const salesOf = (id: number) => market.sales.filter(({ variationId }) => variationId === id).length;
    const often = market.variations.find(
      one =>
        salesOf(one.id) > 3 &&
        market.variations.some(({ id, castingId }) => castingId === one.castingId && salesOf(id) === 0),
    )!;
    const never = market.variations.find(
      ({ id, castingId }) => castingId === often.castingId && salesOf(id) === 0,
    )!;
    const open = market.variations.map(one =>
      one.id === often.id || one.id === never.id ? { ...one, rarity: null } : one,
    );
    const logOf = (id: number, sales: typeof market.sales) => {
      const { rarities, rarityLog } = fitMarket(
        { ...market, variations: open, sales },
        assumptions,
        on,
      ).inside;
      return rarityLog.get(rarities[market.variations.findIndex(one => one.id === id)]!)!;
    };
    const all = market.sales;
    const without = all.filter(({ castingId }) => castingId !== often.castingId);
    // Of a casting that was never sold nothing follows.
    expect(logOf(never.id, without)).toBe(logOf(often.id, without));
    expect(logOf(never.id, all)).toBeGreaterThan(logOf(never.id, without) + 0.1);
    expect(logOf(often.id, all)).toBeLessThan(logOf(often.id, without) - 0.1);
  });
});

describe('sources and missing grades', () => {
  it('learns by how much asking prices lie above sales, and values cars as if sold', () => {
    const asking = [{ source: 'listing', share: 0.4, bias: 0.25 }];
    for (const seed of [1, 2, 3]) {
      const { market, on } = simulateMarket({ seed, drift: 0, sources: asking });
      const { sourceLog } = fitMarket(market, assumptions, on).inside;
      expect(sourceLog('listing')).toBeGreaterThan(0.12);
      expect(sourceLog('listing')).toBeLessThan(0.36);
      expect(sourceLog('auction')).toBe(0);
      const even = simulateMarket({ seed, drift: 0, sources: [{ source: 'listing', share: 0.4, bias: 0 }] });
      expect(Math.abs(fitMarket(even.market, assumptions, on).inside.sourceLog('listing'))).toBeLessThan(
        0.09,
      );
    }
  });

  it('learns from ungraded sales what an ungraded car brings, and how far off its grade may be', () => {
    const { market, on } = simulateMarket({ seed: 3, drift: 0, ungradedShare: 0.25, ungradedWorse: 1.5 });
    const fitted = fitMarket(market, assumptions, on);
    const { ungraded } = fitted.inside;
    expect(ungraded.log).toBeLessThan(-0.2);
    expect(ungraded.steps).toBeGreaterThan(3);
    const [sold] = market.variations;
    const worth = (grade: number | null) =>
      valueCar(fitted, subjectOf({ variationId: sold!.id, grade })).asFound!;
    expect(worth(null).logMean).toBeCloseTo(worth(6).logMean + ungraded.log, 9);
    expect(worth(null).logSd).toBeGreaterThan(worth(6).logSd);
  });
});
