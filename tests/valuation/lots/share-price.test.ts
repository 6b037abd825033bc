import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sharePrice } from '../../../valuation/index.ts';

const weights = fc
  .array(fc.oneof(fc.integer({ min: 0, max: 10_000_000 }), fc.double({ min: 0, max: 1e9, noNaN: true })), {
    minLength: 1,
    maxLength: 40,
  })
  .filter(list => list.some(weight => weight > 0));
const total = fc.oneof(fc.maxSafeInteger(), fc.integer({ min: -100_000, max: 100_000 }));

describe('sharePrice', () => {
  it('sums exactly to the total, up to 2^53', () => {
    fc.assert(
      fc.property(total, weights, (price, by) => {
        const sum = sharePrice(price, by).reduce((a, share) => a + BigInt(share), 0n);
        expect(sum).toBe(BigInt(price));
      }),
    );
  });

  it('gives each a share within one unit of its quota', () => {
    const whole = fc.array(fc.integer({ min: 0, max: 1_000_000 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: Number.MAX_SAFE_INTEGER }), whole, (price, by) => {
        fc.pre(by.some(weight => weight > 0));
        const sum = by.reduce((a, weight) => a + BigInt(weight), 0n);
        sharePrice(price, by).forEach((share, i) => {
          const missTimesSum = BigInt(share) * sum - BigInt(price) * BigInt(by[i]!);
          expect(missTimesSum < sum && missTimesSum > -sum).toBe(true);
        });
      }),
    );
  });

  it('gives equal weights shares that differ by one unit at most, the earlier the larger', () => {
    fc.assert(
      fc.property(
        fc.maxSafeInteger(),
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 1e-9, max: 1e9, noNaN: true }),
        (price, count, weight) => {
          const shares = sharePrice(Math.abs(price), new Array<number>(count).fill(weight));
          expect(shares[0]! - shares.at(-1)!).toBeLessThanOrEqual(1);
          expect(shares).toEqual([...shares].sort((a, b) => b - a));
        },
      ),
    );
  });

  it('does not mind the unit of the weights: tenths share as whole numbers do', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1_000_000 }),
        fc.array(fc.integer({ min: 1, max: 999 }), { minLength: 1, maxLength: 20 }),
        (price, by) => {
          expect(
            sharePrice(
              price,
              by.map(weight => weight / 10),
            ),
          ).toEqual(sharePrice(price, by));
        },
      ),
    );
  });

  it('reads decimal weights as they are written, so that a tie stays a tie', () => {
    expect(sharePrice(1, [0.3, 0.1, 0.2, 0.3])).toEqual([1, 0, 0, 0]);
    expect(sharePrice(3, [0.7, 0.1, 0.1, 0.1])).toEqual(sharePrice(3, [7, 1, 1, 1]));
    expect(sharePrice(1000, [1e-7, 3e-7])).toEqual([250, 750]);
    expect(sharePrice(1000, [1e22, 3e22])).toEqual([250, 750]);
  });

  it('gives nothing to a weight of zero, and shares a refund as the price, with the sign turned', () => {
    expect(sharePrice(7, [0, 1, 1, 0])).toEqual([0, 4, 3, 0]);
    expect(sharePrice(-7, [0, 1, 1, 0])).toEqual([0, -4, -3, 0]);
    expect(sharePrice(0, [1, 2])).toEqual([0, 0]);
  });

  it('is exact where floating quotas are not', () => {
    expect(sharePrice(Number.MAX_SAFE_INTEGER, [1, 1, 1])).toEqual([
      3002399751580331, 3002399751580330, 3002399751580330,
    ]);
    expect(sharePrice(Number.MAX_SAFE_INTEGER, [Number.MAX_SAFE_INTEGER - 1, 1])).toEqual([
      Number.MAX_SAFE_INTEGER - 1,
      1,
    ]);
  });

  it('can give less of a larger total: the rule is not monotone', () => {
    expect(sharePrice(11, [6, 6, 2])[2]).toBeLessThan(sharePrice(10, [6, 6, 2])[2]!);
  });

  it('refuses what cannot be shared, and says why', () => {
    expect(() => sharePrice(10, [])).toThrow(new RangeError('weights must not be empty'));
    expect(() => sharePrice(10, [0, 0])).toThrow(/^weights must not all be zero$/);
    expect(() => sharePrice(10, [1, -1])).toThrow(/^weights\[1\] must not be negative/);
    expect(() => sharePrice(10, [1, Number.NaN])).toThrow(/^weights\[1\] must be a finite number, not NaN/);
    expect(() => sharePrice(10, [Number.POSITIVE_INFINITY])).toThrow(RangeError);
    for (const price of [0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53])
      expect(() => sharePrice(price, [1])).toThrow(/^totalMinor must be a whole number/);
  });
});
