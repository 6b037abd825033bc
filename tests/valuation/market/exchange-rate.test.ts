import { describe, expect, it } from 'vitest';
import { rateFinder } from '../../../valuation/market/exchange-rate.ts';

const rates = [
  { currency: 'EUR', on: '2020-06-01', rate: 1.1 },
  { currency: 'EUR', on: '2019-01-01', rate: 1.2 },
  { currency: 'JPY', on: '2019-01-01', rate: 0.009 },
  { currency: 'BHD', on: '2019-01-01', rate: 2.65 },
];

describe('rateFinder', () => {
  const find = rateFinder('USD', rates);
  const factor = (currency: string, on: string) => Math.exp(find(currency, on)!);

  it('holds each rate from its day until the next', () => {
    expect(factor('EUR', '2019-01-01')).toBeCloseTo(1.2, 12);
    expect(factor('EUR', '2020-05-31')).toBeCloseTo(1.2, 12);
    expect(factor('EUR', '2020-06-01')).toBeCloseTo(1.1, 12);
    expect(factor('EUR', '2031-01-01')).toBeCloseTo(1.1, 12);
  });

  it('finds none before the first, nor for a currency without rates', () => {
    expect(find('EUR', '2018-12-31')).toBeNull();
    expect(find('SEK', '2025-01-01')).toBeNull();
    expect(find('USD', '1900-01-01')).toBe(0);
  });

  it('works in minor units: a yen is 0.9 cents, a fils 0.265', () => {
    expect(factor('JPY', '2020-01-01')).toBeCloseTo(0.9, 12);
    expect(factor('BHD', '2020-01-01')).toBeCloseTo(0.265, 12);
  });

  it('refuses rates that are none, unknown currencies and bad dates', () => {
    const refuse = (currency: string, on: string, rate: number) =>
      expect(() => rateFinder('USD', [{ currency, on, rate }])).toThrow(RangeError);
    refuse('EUR', '2020-01-01', 0);
    refuse('EUR', '2020-01-01', Number.NaN);
    refuse('EURO', '2020-01-01', 1);
    refuse('EUR', '2020-02-30', 1);
  });
});
