import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import type {
  Belief,
  Market,
  Purchase,
  PurchasedCar,
  SaleRecord,
  Subject,
} from '../../../valuation/types.ts';
import { explainWorth } from '../../../valuation/worth/explain-worth.ts';
import { valueCar } from '../../../valuation/worth/value-car.ts';
import { saleOf } from '../../helpers/markets/market-arbitrary.ts';
import { judgeYoung } from '../../helpers/markets/young-market.ts';

const assumptions = defaultAssumptions('USD');
const on = '2025-06-30';
const base: Market = {
  reportingCurrency: 'USD',
  castings: [
    { id: 1, seriesId: 1 },
    { id: 2, seriesId: 1 },
    { id: 3, seriesId: 2 },
  ],
  variations: [
    { id: 11, castingId: 1, rarity: 'common' },
    { id: 12, castingId: 1, rarity: 'scarce' },
    { id: 21, castingId: 2, rarity: 'common' },
    { id: 31, castingId: 3, rarity: 'common' },
  ],
  sales: [],
  rates: [],
};
const carOf = (car: Partial<PurchasedCar> & { id: number }): PurchasedCar => ({
  castingId: 1,
  variationId: 11,
  grade: 6,
  finishState: 'original',
  missingParts: [],
  reproductionParts: [],
  ...car,
});
const purchaseOf = (purchase: Partial<Purchase>): Purchase => ({
  lotId: 1,
  boughtOn: '2025-01-10',
  currency: 'USD',
  total: 10_000,
  price: null,
  cars: [carOf({ id: 1 })],
  ...purchase,
});
const beliefOf = (belief: Partial<Belief>): Belief => ({
  id: 1,
  level: 'casting',
  of: 1,
  grade: 8,
  finishState: 'original',
  low: 6000,
  high: 9000,
  currency: 'USD',
  believedOn: '2025-06-01',
  ...belief,
});
const subjectOf = (subject: Partial<Subject> = {}): Subject => ({
  id: 1,
  castingId: 1,
  variationId: 11,
  candidates: [],
  grade: 6,
  finishState: 'original',
  parts: [],
  plan: null,
  ownWorth: null,
  ...subject,
});
const sale = (id: number, more: Partial<SaleRecord> = {}) =>
  saleOf({
    id,
    castingId: 1,
    variationId: 11,
    soldOn: '2025-01-10',
    source: 'auction',
    reliability: null,
    ...more,
  });
const fitOf = (more: Partial<Market>, change = {}) =>
  fitMarket({ ...base, ...more }, { ...assumptions, ...change }, on);
const worthOf = (more: Partial<Market>, subject: Subject = subjectOf()) =>
  valueCar(fitOf(more), subject).asFound;

describe('a car bought singly', () => {
  it('tells exactly what a sale record of it would, with the weight of its source', () => {
    const purchases = [1, 2, 3].map(i =>
      purchaseOf({ lotId: i, total: 5000 + 1000 * i, cars: [carOf({ id: i })] }),
    );
    const sales = [1, 2, 3].map(i =>
      sale(i, { price: 5000 + 1000 * i, grade: 6, source: 'own purchase', finishState: 'original' }),
    );
    expect(worthOf({ purchases })).toEqual(worthOf({ sales }));
    expect(worthOf({ purchases })).not.toBeNull();
  });

  it('is left to the sale record that it was entered as, with or without its costs, within three days', () => {
    const sales = [sale(1, { price: 9000, soldOn: '2025-01-12' }), sale(2), sale(3)];
    const entered = fitOf({ sales, purchases: [purchaseOf({ total: 10_000, price: 9000 })] });
    expect(entered.ownAside).toEqual([
      { of: { lotId: 1, carIds: [1] }, cause: { kind: 'entered-as-sale', saleId: 1 } },
    ]);
    const same = fitOf({ sales });
    expect(valueCar(entered, subjectOf())).toEqual(valueCar(same, subjectOf()));
    for (const other of [
      { boughtOn: '2025-01-16' },
      { price: 9001, total: 9001 },
      { cars: [carOf({ id: 1, castingId: 2, variationId: 21 })] },
    ])
      expect(fitOf({ sales, purchases: [purchaseOf({ price: 9000, ...other })] }).ownAside).toEqual([]);
  });
});

describe('a lot bought whole', () => {
  const cars = [
    carOf({ id: 1 }),
    carOf({ id: 2, variationId: 12 }),
    carOf({ id: 3, castingId: 2, variationId: 21, grade: 3 }),
    carOf({ id: 4, castingId: 2, variationId: null }),
  ];

  it('counts as one sale, however many its cars, and its shares add up to its price', () => {
    const fitted = fitOf({ purchases: [purchaseOf({ total: 20_000, cars })] });
    expect(fitted.inside.evidence.seriesWeight[0]).toBeCloseTo(0.8 * 0.5 ** (171 / 365.25 / 10), 10);
    expect(fitted.stable).toBe(true);
    const shares = fitted.inside.sales.map(({ record }) => record.price);
    expect(shares).toHaveLength(4);
    // Shares are what single sales of the cars bring in the middle of the market: their expected sum
    // is a little more.
    expect(Math.abs(shares.reduce((a, b) => a + b, 0) / 20_000 - 1)).toBeLessThan(0.35);
    // The scarce one has the most of it, the worn one the least.
    expect(Math.max(...shares)).toBe(shares[1]);
    expect(Math.min(...shares)).toBe(shares[2]);
  });

  it('splits its price as the records say, once they do', () => {
    const sales = Array.from({ length: 30 }, (_, i) => [
      sale(2 * i + 1, { price: 10_000, grade: 6, finishState: 'original' }),
      sale(2 * i + 2, { price: 1000, grade: 6, finishState: 'original', castingId: 2, variationId: 21 }),
    ]).flat();
    const two = [carOf({ id: 1 }), carOf({ id: 2, castingId: 2, variationId: 21 })];
    const fitted = fitOf({ sales, purchases: [purchaseOf({ total: 11_000, cars: two })] });
    const [dear, cheap] = fitted.inside.sales.slice(-2).map(({ record }) => record.price) as [number, number];
    expect(dear / cheap).toBeGreaterThan(9);
    expect(dear / cheap).toBeLessThan(11);
  });

  it('tells nothing while a car of it is not identified, was worked on since, or has a finish to settle', () => {
    const unidentified = [...cars, carOf({ id: 5, castingId: null, variationId: null })];
    expect(fitOf({ purchases: [purchaseOf({ cars: unidentified })] }).ownAside[0]?.cause).toEqual({
      kind: 'unidentified-cars',
      cars: 1,
    });
    const changed = [...cars, carOf({ id: 5, changedSince: true })];
    const fitted = fitOf({ purchases: [purchaseOf({ cars: changed })] });
    expect(fitted.ownAside[0]?.cause).toEqual({ kind: 'changed-cars', cars: 1 });
    expect(fitted.inside.sales).toEqual([]);
    const open = [...cars, carOf({ id: 5, hasOpenFinish: true })];
    expect(fitOf({ purchases: [purchaseOf({ cars: open })] }).ownAside[0]?.cause).toEqual({
      kind: 'open-finish',
      cars: 1,
    });
  });

  it('shows as its share in the grid of a car, and the kinds of evidence add up to all of it', () => {
    const purchases = [
      purchaseOf({ total: 20_000, cars }),
      purchaseOf({ lotId: 2, cars: [carOf({ id: 9 })] }),
    ];
    const fitted = fitOf({ purchases, beliefs: [beliefOf({})], sales: [sale(1)] });
    const { kinds } = valueCar(fitted, subjectOf()).evidence;
    const { sale: ofSales, purchase, lot, belief } = kinds!.shares;
    expect(ofSales + purchase + lot + belief).toBeCloseTo(1, 12);
    expect(Math.min(ofSales, purchase, lot, belief)).toBeGreaterThan(0.02);
    expect(kinds).toMatchObject({ purchases: 1, lots: 1, beliefs: 1 });
    const records = explainWorth(fitted, subjectOf(), 'asFound');
    expect(records.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9);
    const weightOf = (kind: string) =>
      records.reduce((sum, { from, weight }) => sum + ((from?.kind ?? 'sale') === kind ? weight : 0), 0);
    for (const kind of ['sale', 'purchase', 'lot', 'belief'] as const)
      expect(weightOf(kind)).toBeCloseTo(kinds!.shares[kind], 9);
  });
});

describe('a belief', () => {
  it('gives its middle and more than its range where nothing else is known', () => {
    const worth = worthOf({ beliefs: [beliefOf({})] }, subjectOf({ grade: 8 }))!;
    expect(worth.mid).toBe(Math.round(Math.sqrt(6000 * 9000)));
    expect(worth.low).toBeLessThan(6000);
    expect(worth.high).toBeGreaterThan(9000);
  });

  it('about a series reaches its castings and no other series', () => {
    const beliefs = [beliefOf({ level: 'series', of: 1 })];
    expect(worthOf({ beliefs }, subjectOf({ castingId: 2, variationId: 21 }))).not.toBeNull();
    expect(worthOf({ beliefs }, subjectOf({ castingId: 3, variationId: 31 }))).toBeNull();
    // That of the very casting is surer than that of its series.
    const ofCasting = worthOf({ beliefs: [beliefOf({})] })!;
    expect(ofCasting.logSd).toBeLessThan(worthOf({ beliefs })!.logSd);
  });

  it('counts for less where its range is wider than what single sales vary, and as many sales as the owner says', () => {
    const sales = [sale(1, { price: 20_000, grade: 8, finishState: 'original' })];
    const mid = (belief: Partial<Belief>, change = {}) =>
      valueCar(
        fitOf({ sales, beliefs: [beliefOf({ level: 'variation', of: 11, ...belief })] }, change),
        subjectOf({ grade: 8 }),
      ).asFound!.mid;
    expect(mid({ low: 2000, high: 27_000 })).toBeGreaterThan(mid({}) * 1.2);
    expect(mid({}, { beliefSales: 5 })).toBeLessThan(mid({}) * 0.9);
  });

  it('that is off by 3 is overruled by ten records', () => {
    for (const level of ['series', 'casting', 'variation'] as const) {
      const of = { series: 1, casting: 1, variation: 11 }[level];
      const sales = Array.from({ length: 10 }, (_, i) =>
        sale(i + 1, {
          price: Math.round(7350 * 3 * (1 + 0.3 * Math.sin(i * 2))),
          grade: 8,
          finishState: 'original',
        }),
      );
      const subject = subjectOf({ grade: 8 });
      const wrong = worthOf({ sales, beliefs: [beliefOf({ level, of })] }, subject)!;
      const without = worthOf({ sales }, subject)!;
      expect(Math.abs(Math.log(wrong.mid / without.mid))).toBeLessThan(0.12);
      expect(wrong.low).toBeLessThan(7350 * 3);
      expect(wrong.high).toBeGreaterThan(7350 * 3);
    }
  });

  it('about what is not in the reference, of a day to come, or without an exchange rate is set aside with the reason', () => {
    const beliefs = [
      beliefOf({ id: 1, level: 'series', of: 99 }),
      beliefOf({ id: 2, of: 99 }),
      beliefOf({ id: 3, level: 'variation', of: 99 }),
      beliefOf({ id: 4, believedOn: '2025-07-01' }),
      beliefOf({ id: 5, currency: 'GBP' }),
    ];
    expect(fitOf({ beliefs }).ownAside.map(({ cause }) => cause.kind)).toEqual([
      'unknown-series',
      'unknown-casting',
      'unknown-variation',
      'after-effective-date',
      'no-rate',
    ]);
    expect(() => fitOf({ beliefs: [beliefOf({ low: 10, high: 5 })] })).toThrow(/belief 1 must have/);
  });
});

describe('against markets of known truth, with no sale record', () => {
  const seeds = Array.from({ length: 12 }, (_, i) => 301 + i);
  const share = (list: boolean[]) => list.filter(Boolean).length / list.length;
  const median = (values: number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!;

  it('lots and five beliefs hold 75 to 85 % of sales in their ranges', () => {
    const judged = seeds.map(seed => judgeYoung(seed, { lots: 14, beliefs: 5 }));
    const coverage = share(judged.flatMap(({ covered }) => covered));
    expect(coverage).toBeGreaterThan(0.75);
    expect(coverage).toBeLessThan(0.85);
  });

  it('lots alone come nearer than their price divided by the number of cars', () => {
    const cars = seeds.map(seed => judgeYoung(seed, { lots: 14 })).flatMap(({ inLots }) => inLots);
    expect(cars.length).toBeGreaterThan(300);
    expect(median(cars.map(({ ours }) => ours))).toBeLessThan(
      0.85 * median(cars.map(({ evenShare }) => evenShare)),
    );
  });
});
