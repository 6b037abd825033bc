import { describe, expect, it } from 'vitest';
import { cpiU } from '../../../valuation/market/cpi-u.ts';
import { dateAdjustment, indexFactor } from '../../../valuation/market/date-adjustment.ts';

describe('dateAdjustment', () => {
  it('changes nothing without an index, nor where the trend is fitted', () => {
    for (const index of ['none', 'trend'] as const)
      expect(dateAdjustment(index, '2025-01-01').log('1990-05-05')).toBe(0);
  });

  it('brings 1970 to 2024 by the consumer price index: 313.689 / 38.8', () => {
    const { log, span } = dateAdjustment('cpi-u', '2024-07-01');
    expect(Math.exp(log('1970-03-03'))).toBeCloseTo(8.084768, 6);
    expect(span('1970-03-03')).toEqual({ series: 'cpi-u', from: 1970, to: 2024 });
  });

  it('holds the first and the last figure beyond the series', () => {
    const last = Math.max(...Object.keys(cpiU).map(Number));
    const { log, span } = dateAdjustment('cpi-u', `${last + 3}-01-01`);
    expect(log(`${last + 2}-01-01`)).toBe(0);
    expect(span(`${last}-01-01`)).toMatchObject({ to: last });
  });

  it("reads the owner's series", () => {
    const { log } = dateAdjustment({ series: { 2020: 100, 2024: 150 } }, '2024-05-01');
    expect(Math.exp(log('2020-01-01'))).toBeCloseTo(1.5, 12);
    expect(Math.exp(log('2021-01-01'))).toBeCloseTo(1.5, 12);
    expect(log('2023-01-01')).toBe(0);
  });

  it('refuses an empty series and levels that are none', () => {
    expect(() => dateAdjustment({ series: {} }, '2024-05-01')).toThrow(RangeError);
    expect(() => dateAdjustment({ series: { 2020: 0, 2024: 1 } }, '2024-05-01').log('2020-01-01')).toThrow(
      RangeError,
    );
  });
});

describe('indexFactor', () => {
  it('is the ratio of two levels, and its own inverse backwards', () => {
    expect(indexFactor({ 1990: 50, 2000: 75 }, 1990, 2000)).toBe(1.5);
    expect(indexFactor({ 1990: 50 }, 1990, 1990)).toBe(1);
    expect(indexFactor(cpiU, 1970, 2024) * indexFactor(cpiU, 2024, 1970)).toBeCloseTo(1, 15);
  });

  it('refuses years that the series does not hold, and says which it holds', () => {
    expect(() => indexFactor(cpiU, 1900, 2024)).toThrow(
      new RangeError('fromYear 1900 is not in the series, which holds 1955 to 2025'),
    );
    expect(() => indexFactor({ 1990: 50, 1992: 51 }, 1990, 1991)).toThrow(/^toYear 1991/);
    expect(() => indexFactor({ 1990: 50 }, 1990.5, 1990)).toThrow(/^fromYear must be a whole year/);
    expect(() => indexFactor({ 1990: 50 }, Number.NaN, 1990)).toThrow(RangeError);
  });

  it('refuses an empty series and levels that are none', () => {
    expect(() => indexFactor({}, 1990, 1991)).toThrow('series must not be empty');
    for (const level of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => indexFactor({ 1990: level, 1991: 1 }, 1990, 1991), String(level)).toThrow(
        /^series\[1990\]/,
      );
  });
});
