import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { indexMarket } from '../../../valuation/market/market-index.ts';
import { prepareSales } from '../../../valuation/market/prepare-sales.ts';
import type { Market, SaleRecord } from '../../../valuation/types.ts';
import { on, saleOf } from '../../helpers/markets/market-arbitrary.ts';

const assumptions = defaultAssumptions('USD');
const market = (sales: SaleRecord[]): Market => ({
  reportingCurrency: 'USD',
  castings: [
    { id: 1, seriesId: 1 },
    { id: 2, seriesId: 1 },
  ],
  variations: [
    { id: 1, castingId: 1, rarity: null },
    { id: 2, castingId: 2, rarity: 'rare' },
  ],
  sales,
  rates: [{ currency: 'GBP', on: '2024-01-01', rate: 1.25 }],
});
const prepare = (...sales: Partial<SaleRecord>[]) => {
  const whole = market(sales.map((sale, i) => saleOf({ id: i + 1, ...sale })));
  return prepareSales(whole, indexMarket(whole), assumptions, on);
};

describe('prepareSales', () => {
  it('sets aside what cannot be used, with the reason', () => {
    const { sales, setAside } = prepare(
      {},
      { currency: 'GBP', soldOn: '2023-05-05' },
      { castingId: 9, variationId: null },
      { variationId: 9 },
      { variationId: 2 },
      { price: 0 },
      { soldOn: '2025-07-01' },
      { reliability: 0 },
    );
    expect(sales.map(({ record }) => record.id)).toEqual([1]);
    expect(setAside).toEqual([
      { id: 2, cause: { kind: 'no-rate', currency: 'GBP', on: '2023-05-05' } },
      { id: 3, cause: { kind: 'unknown-casting' } },
      { id: 4, cause: { kind: 'unknown-variation' } },
      { id: 5, cause: { kind: 'other-casting' } },
      { id: 6, cause: { kind: 'no-price' } },
      { id: 7, cause: { kind: 'after-effective-date', soldOn: '2025-07-01' } },
      { id: 8, cause: { kind: 'no-reliability' } },
    ]);
  });

  it('weighs by recency times reliability: half at the half-life, the record’s own reliability before its source’s', () => {
    const { sales } = prepare(
      { soldOn: on },
      { soldOn: '2015-06-30' },
      { soldOn: on, source: 'listing' },
      { soldOn: on, source: 'listing', reliability: 0.9 },
      { soldOn: on, source: 'a rumour' },
    );
    const weights = sales.map(({ weight }) => weight);
    expect(weights[0]).toBe(1);
    expect(weights[1]).toBeCloseTo(0.5, 3);
    expect(weights[2]).toBe(assumptions.sourceReliability.listing);
    expect(weights[3]).toBe(0.9);
    expect(weights[4]).toBe(assumptions.sourceReliability.other);
  });

  it('converts at the rate of the day and takes an unknown grade at its usual one', () => {
    const { sales } = prepare({ currency: 'GBP', soldOn: '2024-06-01', price: 800, grade: null });
    expect(Math.exp(sales[0]!.price)).toBeCloseTo(1000, 8);
    expect(sales[0]!.step).toBe((assumptions.unknownGrade - 1) * 2);
  });

  it.each([
    ['a price that is not whole', { price: 12.5 }, /price of sale record 1/],
    ['a price below zero', { price: -5 }, /price of sale record 1/],
    ['no number as price', { price: Number.NaN }, /price of sale record 1/],
    ['a date that is none', { soldOn: '2024-02-30' }, /2024-02-30/],
    ['a grade that is none', { grade: 7.3 }, /7.3 is not a grade/],
    ['a reliability above 1', { reliability: 2 }, /reliability of sale record 1/],
  ])('refuses %s', (_, sale, message) => {
    expect(() => prepare(sale)).toThrow(message);
  });

  it('refuses ids given twice and variations of no casting', () => {
    expect(() => prepare({ id: 4 }, { id: 4 })).toThrow(/there twice/);
    const stray = { ...market([]), variations: [{ id: 1, castingId: 7, rarity: null }] };
    expect(() => indexMarket(stray)).toThrow(/variation 1 is of casting 7/);
    const double = { ...market([]), castings: [...market([]).castings, { id: 1, seriesId: 2 }] };
    expect(() => indexMarket(double)).toThrow(/twice/);
  });
});
