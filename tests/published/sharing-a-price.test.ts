import { describe, expect, it } from 'vitest';
import { adjustedBasis, netGain, sharePrice } from '../../valuation/index.ts';

describe('sharing a price', () => {
  it('shares a lump sum by relative value (IRS Publication 527, separating land and building; read as quoted)', () => {
    expect(sharePrice(200_000, [136_000, 24_000])).toEqual([170_000, 30_000]);
  });

  it("shares 60 seats over the 1790 census (Hamilton's method, as computed in 1792; read)", () => {
    const people = [
      630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236, 179570, 141822, 85533, 70835, 68705,
      68446, 55540,
    ];
    expect(sharePrice(60, people)).toEqual([11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1]);
  });

  it('shares 5 cents by 3 to 7 (Fowler, Patterns of Enterprise Application Architecture, Money; read)', () => {
    expect(sharePrice(5, [3, 7])).toEqual([2, 3]);
  });

  it("gives the odd cents to the largest remainders (Evans' proration case; recomputed for this rule)", () => {
    expect(sharePrice(10, [17, 2, 1, 35, 35, 10])).toEqual([2, 0, 0, 4, 3, 1]);
  });

  it('is not monotone: the Alabama paradox (from memory, recomputed)', () => {
    expect(sharePrice(10, [6, 6, 2])).toEqual([4, 4, 2]);
    expect(sharePrice(11, [6, 6, 2])).toEqual([5, 5, 1]);
  });
});

describe('cost follows the object', () => {
  it('bought for 10,000, improved for 6,000, sold for 20,000 (26 CFR 1.1016-2, example; read)', () => {
    expect(adjustedBasis({ cost: 10_000, improvements: 6_000 })).toBe(16_000);
    expect(netGain({ proceeds: 20_000, fees: 0, cost: 10_000, improvements: 6_000 })).toBe(4_000);
  });
});
