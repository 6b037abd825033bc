import { describe, expect, it } from 'vitest';
import { cpiU, indexFactor } from '../../../valuation/index.ts';

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
