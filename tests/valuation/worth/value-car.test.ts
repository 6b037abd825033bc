import { describe, expect, it } from 'vitest';
import {
  type AssumptionSet,
  defaultAssumptions,
  fitMarket,
  type Market,
  valueCar,
} from '../../../valuation/index.ts';
import { foundCondition, plannedCondition, plannedGrades } from '../../../valuation/worth/car-worths.ts';
import { varianceApart } from '../../../valuation/worth/coupling.ts';
import { proposedPlan } from '../../../valuation/worth/standard-plan.ts';
import { on, saleOf, subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';

const assumptions = defaultAssumptions('USD');
const { market, on: date } = simulateMarket({ seed: 6, series: 2, castingsPerSeries: 6, density: 2 });
const fitted = fitMarket(market, assumptions, date);
const sold = market.variations.find(
  ({ id }) => market.sales.filter(({ variationId }) => variationId === id).length >= 5,
)!;
const spread = ({ low, high }: { low: number; high: number }) => Math.log(high / low);

describe('valueCar', () => {
  it('bounds 80 % of a lognormal by low and high, with the median between', () => {
    const { low, mid, high, logMean, logSd, sharedSd } = valueCar(fitted, subjectOf({ variationId: sold.id }))
      .asFound!;
    expect(mid).toBe(Math.round(Math.exp(logMean)));
    expect(low).toBe(Math.round(Math.exp(logMean - 1.2815515655446 * logSd)));
    expect(high).toBe(Math.round(Math.exp(logMean + 1.2815515655446 * logSd)));
    expect(sharedSd).toBeLessThan(logSd);
    expect(logSd ** 2 - sharedSd ** 2).toBeCloseTo(fitted.spread.within ** 2, 6);
  });

  it('says what the estimate rests on: shares that sum to 1, and the numbers of sales', () => {
    const { evidence } = valueCar(fitted, subjectOf({ variationId: sold.id }));
    const { shares } = evidence;
    expect(shares.variation + shares.casting + shares.series + shares.everything).toBeCloseTo(1, 12);
    expect(evidence.credibility).toBe(shares.variation);
    expect(evidence.sales).toBe(market.sales.filter(({ variationId }) => variationId === sold.id).length);
    expect(evidence.castingSales).toBe(
      market.sales.filter(({ castingId }) => castingId === sold.castingId).length,
    );
    const series = market.castings.find(({ id }) => id === sold.castingId)!.seriesId;
    const castings = new Set(market.castings.filter(c => c.seriesId === series).map(({ id }) => id));
    expect(evidence.seriesSales).toBe(market.sales.filter(({ castingId }) => castings.has(castingId)).length);
  });

  it('counts to the casting what is known of a car of which nothing else is known', () => {
    const known = valueCar(fitted, subjectOf({ variationId: sold.id })).evidence;
    const { evidence } = valueCar(fitted, subjectOf({ castingId: sold.castingId }));
    const { shares } = evidence;
    expect(evidence).toMatchObject({ sales: 0, credibility: 0, castingSales: known.castingSales });
    expect(shares.variation).toBe(0);
    expect(shares.casting).toBeGreaterThan(known.shares.casting);
    expect(shares.casting + shares.series + shares.everything).toBeCloseTo(1, 12);
  });

  it('trusts a variation’s own sales the more of them there are', () => {
    const credibilities = market.variations.map(({ id }) => {
      const { evidence } = valueCar(fitted, subjectOf({ variationId: id }));
      return { sales: evidence.sales, z: evidence.credibility };
    });
    expect(credibilities.every(({ sales, z }) => (sales === 0 ? z === 0 : z > 0 && z < 1))).toBe(true);
    const mean = (from: number, to: number) => {
      const some = credibilities.filter(({ sales }) => sales >= from && sales <= to);
      return some.reduce((sum, { z }) => sum + z, 0) / some.length;
    };
    expect(mean(1, 2)).toBeLessThan(mean(3, 5));
    expect(mean(3, 5)).toBeLessThan(mean(6, 100));
  });

  it('is wider for several candidates than for one, and lies between them', () => {
    const ids = market.variations.filter(v => v.castingId === sold.castingId).map(({ id }) => id);
    const single = ids.map(id => valueCar(fitted, subjectOf({ variationId: id })).asFound!);
    const { asFound, help } = valueCar(fitted, subjectOf({ candidates: ids }));
    expect(asFound!.mid).toBeGreaterThan(Math.min(...single.map(({ mid }) => mid)));
    expect(asFound!.mid).toBeLessThan(Math.max(...single.map(({ mid }) => mid)));
    expect(spread(asFound!)).toBeGreaterThan(Math.min(...single.map(spread)));
    expect(help.join()).toContain('variation');
    expect(valueCar(fitted, subjectOf({ candidates: [sold.id] }))).toEqual(
      valueCar(fitted, subjectOf({ variationId: sold.id })),
    );
  });

  it('values by the casting alone, wider, and without a grade, wider still', () => {
    const known = valueCar(fitted, subjectOf({ variationId: sold.id })).asFound!;
    const casting = valueCar(fitted, subjectOf({ castingId: sold.castingId })).asFound!;
    expect(spread(casting)).toBeGreaterThan(spread(known));
    const ungraded = valueCar(fitted, subjectOf({ castingId: sold.castingId, grade: null }));
    expect(spread(ungraded.asFound!)).toBeGreaterThan(spread(casting));
    expect(ungraded.help).toContain('grade');
  });

  it('values a variation and a casting that have never been sold, from what is above them', () => {
    const wider: Market = {
      ...market,
      castings: [...market.castings, { id: 800, seriesId: 1 }],
      variations: [...market.variations, { id: 800, castingId: sold.castingId, rarity: 'uncommon' }],
    };
    const more = fitMarket(wider, assumptions, date);
    const variation = valueCar(more, subjectOf({ variationId: 800 }));
    const casting = valueCar(more, subjectOf({ castingId: 800 }));
    expect(variation.evidence).toMatchObject({ sales: 0, credibility: 0 });
    expect(casting.evidence).toMatchObject({ castingSales: 0 });
    expect(spread(casting.asFound!)).toBeGreaterThan(spread(variation.asFound!));
    expect(spread(variation.asFound!)).toBeGreaterThan(
      spread(valueCar(more, subjectOf({ variationId: sold.id })).asFound!),
    );
  });

  it('has no number without evidence, and says what would help', () => {
    const bare: Market = {
      ...market,
      castings: [...market.castings, { id: 801, seriesId: 99 }],
    };
    const lonely = fitMarket(bare, assumptions, date);
    for (const known of [{}, { castingId: 801 }, { castingId: 12_345 }, { variationId: 12_345 }]) {
      const valuation = valueCar(lonely, subjectOf(known));
      expect(valuation).toMatchObject({ asFound: null, restored: null, originalFinish: null });
      expect(valuation.help.length).toBeGreaterThan(0);
    }
    expect(valueCar(lonely, subjectOf({})).help).toEqual(['identify', 'own-figure']);
    expect(valueCar(lonely, subjectOf({ castingId: 801 })).help).toEqual(['sale-records', 'own-figure']);
  });

  it('has enough where the estimate is narrow, not where records are many', () => {
    const sold = (castingId: number, variationId: number | null, soldOn: string, count = 2): Market => ({
      reportingCurrency: 'USD',
      castings: [1, 2, 3].map(id => ({ id, seriesId: id === 3 ? 2 : 1 })),
      variations: [
        { id: 1, castingId: 1, rarity: 'common' },
        { id: 2, castingId: 2, rarity: 'common' },
      ],
      sales: Array.from({ length: count }, (_, i) => saleOf({ id: i + 1, castingId, variationId, soldOn })),
      rates: [],
    });
    const width = (market: Market, changed: Partial<AssumptionSet> = {}) => {
      const car = subjectOf({ variationId: 1, grade: 6 });
      const worth = valueCar(fitMarket(market, { ...assumptions, ...changed }, on), car).asFound;
      return worth && worth.high / worth.low;
    };
    // Two of the very variation, six years old.
    expect(width(sold(1, 1, '2019-07-01'))).toBeLessThan(3.5);
    // Two of another casting, of this year: whatever can be said is too wide.
    expect(width(sold(2, 2, '2025-01-10'))).toBeNull();
    expect(width(sold(2, 2, '2025-01-10'), { widestEstimate: 20 })).toBeGreaterThan(8);
    // Of another series nothing is told, however many there are.
    expect(width(sold(3, null, '2025-01-10', 40))).toBeNull();
    expect(width(sold(1, 1, '2019-07-01'), { widestEstimate: 1.5 })).toBeNull();
  });

  it('never takes a value away for a further sale', () => {
    const prices = [4000, 40, 400_000, 4000, 9, 90_000];
    const valued = prices.map((_, count) => {
      const market: Market = {
        reportingCurrency: 'USD',
        castings: [1, 2].map(id => ({ id, seriesId: 1 })),
        variations: [],
        sales: prices
          .slice(0, count)
          .map((price, i) => saleOf({ id: i + 1, price, castingId: 2 - (i % 2), variationId: null })),
        rates: [],
      };
      return valueCar(fitMarket(market, assumptions, on), subjectOf({ castingId: 1 })).asFound !== null;
    });
    expect(valued).toEqual([...valued].sort((a, b) => Number(a) - Number(b)));
    expect(valued[0]).toBe(false);
    expect(valued.at(-1)).toBe(true);
  });

  it('lets the owner’s figure stand in only where there is no evidence, marked as such', () => {
    const own = { low: 1000, mid: 1500, high: 2500 };
    const unknown = valueCar(fitted, subjectOf({ ownWorth: own, grade: 4 }));
    expect(unknown.asFound).toMatchObject({ ...own, own: true });
    expect(unknown.help).toEqual(['identify']);
    const curve = (state: 'original' | 'restored', grade: number) =>
      fitted.gradeCurves[state][(grade - 1) * 2]! * fitted.finishFactors[state];
    // The opened car departs in its closure.
    const closure = 1 - assumptions.deviationLoss['visible post closure'];
    // What it is expected to bring, over the grades in which the work can end; the ends of the range
    // share the spread.
    const { logMean, logSd } = unknown.restored!;
    const spread = Math.log(2500 / 1000) / 2 / 1.2815515655446004;
    const subject = subjectOf({ grade: 4 });
    const plan = proposedPlan(subject, assumptions);
    // The factor from the one state to the other is itself only known so well.
    const doubt = (grade: number) =>
      varianceApart(fitted, foundCondition(subject, assumptions), plannedCondition(plan, assumptions, grade));
    const expected = plannedGrades(plan, assumptions).reduce(
      (sum, { grade, share }) =>
        sum +
        (share * 1500 * curve('restored', grade) * closure * Math.exp(doubt(grade) / 2)) /
          curve('original', 4),
      0,
    );
    expect(doubt(9)).toBeGreaterThan(0.001);
    expect(logSd).toBeGreaterThan(spread);
    expect(Math.exp(logMean + logSd ** 2 / 2)).toBeCloseTo(expected * Math.exp(spread ** 2 / 2), 4);
    expect(unknown.restored!.own).toBe(true);
    const known = valueCar(fitted, subjectOf({ ownWorth: own, variationId: sold.id }));
    expect(known.asFound!.own).toBe(false);
    expect(() => valueCar(fitted, subjectOf({ ownWorth: { low: 5, mid: 2, high: 9 } }))).toThrow(RangeError);
  });

  it('takes off what is missing now from the value as found, and what the plan leaves from the worth restored', () => {
    const parts = [{ part: 'wheels' as const, grade: null, originality: 'missing' as const }];
    const whole = valueCar(fitted, subjectOf({ variationId: sold.id, grade: 4 }));
    const lacking = valueCar(fitted, subjectOf({ variationId: sold.id, grade: 4, parts }));
    const ratio = (a: { logMean: number } | null, b: { logMean: number } | null) =>
      Math.exp(a!.logMean - b!.logMean);
    expect(ratio(lacking.asFound, whole.asFound)).toBeCloseTo(1 - assumptions.partLoss.wheels.missing, 9);
    // The standard plan buys reproduction wheels, which is a deviation.
    expect(ratio(lacking.restored, whole.restored)).toBeCloseTo(
      1 - assumptions.deviationLoss['reproduction wheels'],
      9,
    );
    expect(lacking.fidelity.deviations).toEqual(['reproduction wheels', 'visible post closure']);
  });

  it('marks the original finish of a car that has lost it as no longer attainable', () => {
    const state = (finishState: 'original' | 'stripped') =>
      valueCar(fitted, subjectOf({ variationId: sold.id, grade: 5, finishState })).originalFinish!;
    expect(state('original').attainable).toBe(true);
    expect(state('stripped').attainable).toBe(false);
    expect(state('stripped').mid).toBe(state('original').mid);
    const conserved = valueCar(fitted, subjectOf({ variationId: sold.id, grade: 5.5 })).asFound!;
    expect(state('original').mid).toBe(conserved.mid);
  });

  it('refuses a grade that is none', () => {
    expect(() => valueCar(fitted, subjectOf({ variationId: sold.id, grade: 6.2 }))).toThrow(RangeError);
  });
});

describe('the weights of records', () => {
  const trusting = (reliabilityOf: (i: number) => number) =>
    fitMarket(
      {
        ...market,
        sales: market.sales.map((sale, i) => ({ ...sale, soldOn: date, reliability: reliabilityOf(i) })),
      },
      { ...assumptions, widestEstimate: 1e6 },
      date,
    );

  it('tell together what the fit took them to tell: Kish’s effective number, where some weigh less', () => {
    const { inside } = trusting(i => (i % 2 === 0 ? 1 : 0.25));
    // Beside what a grade's own noise makes of it.
    const full = inside.sales.map(({ record, weight, step }, i) =>
      record.grade === null ? 0 : (inside.weights[i]! * inside.noise[step]!) / weight,
    );
    expect(Math.max(...full)).toBeCloseTo((1 + 0.25) / (1 + 0.25 ** 2), 2);
  });

  it('leave a value less sure where all of them weigh less', () => {
    const sdWith = (reliability: number) =>
      valueCar(
        trusting(() => reliability),
        subjectOf({ variationId: sold.id }),
      ).asFound!.logSd;
    expect(sdWith(0.2)).toBeGreaterThan(sdWith(0.8) * 1.01);
  });
});
