import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { place, worthScale, worthTicks } from '../../../renderer/components/worth-strip/scale.ts';
import { type StripWorths, stripWorths } from '../../../renderer/components/worth-strip/strip-worths.ts';

const range = (low: number, mid: number, high: number) => ({ low, mid, high });
const worths = (part: Partial<StripWorths>): StripWorths => ({
  asFound: null,
  restored: null,
  originalFinish: null,
  ...part,
});
const scaleOf = (...list: StripWorths[]) => {
  const scale = worthScale(list, 'USD');
  if (!scale) throw new Error('no scale');
  return scale;
};

describe('worthScale', () => {
  it('holds every bar of all strips, with air at both ends', () => {
    const scale = scaleOf(
      worths({ asFound: range(2400, 3600, 5400) }),
      worths({ originalFinish: { ...range(9000, 14000, 22000), attainable: true } }),
    );
    expect(scale.min).toBeLessThan(2400);
    expect(scale.max).toBeGreaterThan(22000);
    expect(place(scale, 2400).at).toBeGreaterThan(0);
    expect(place(scale, 22000).at).toBeLessThan(1);
  });

  it('is null where nothing can be placed', () => {
    expect(worthScale([], 'USD')).toBeNull();
    expect(worthScale([worths({})], 'USD')).toBeNull();
    expect(worthScale([worths({ asFound: range(0, 0, 0) })], 'USD')).toBeNull();
  });

  it('is not stretched by a cost that leaves next to nothing', () => {
    const found = worths({ asFound: range(1000, 2000, 4000) });
    const eaten = worths({
      asFound: range(1000, 2000, 4000),
      restored: { ...range(-800, 3, 1500), gross: 3900 },
    });
    expect(scaleOf(found, eaten)).toEqual(scaleOf(found));
    expect(place(scaleOf(found, eaten), 3).beyond).toBe('left');
  });

  it('stands on one amount alone, which is then in the middle', () => {
    const scale = scaleOf(worths({ asFound: range(5000, 5000, 5000) }));
    expect(place(scale, 5000).at).toBeCloseTo(0.5, 10);
  });

  it('lets one rarity leave the axis of a large collection', () => {
    const many = Array.from({ length: 300 }, (_, index) =>
      worths({ asFound: range(1000 + index, 2000 + index, 4000 + index) }),
    );
    const scale = scaleOf(...many, worths({ asFound: range(900_000, 1_000_000, 1_200_000) }));
    expect(scale.max).toBeLessThan(10_000);
    expect(place(scale, 1_000_000)).toEqual({ at: 1, beyond: 'right' });
  });
});

describe('place', () => {
  it('puts equal factors at equal distances', () => {
    const scale = { min: 100, max: 10_000, currency: 'USD' };
    expect(place(scale, 1000).at).toBeCloseTo(0.5, 12);
    expect(place(scale, 100).at).toBe(0);
    expect(place(scale, 10_000).at).toBe(1);
  });

  it('says that nothing, and less than nothing, lies off the left end', () => {
    const scale = { min: 100, max: 10_000, currency: 'USD' };
    expect(place(scale, 0)).toEqual({ at: 0, beyond: 'left' });
    expect(place(scale, -5000)).toEqual({ at: 0, beyond: 'left' });
  });

  it('never puts a dearer amount to the left of a cheaper one', () => {
    const amount = fc.integer({ min: -1_000_000, max: 100_000_000 });
    fc.assert(
      fc.property(amount, amount, (a, b) => {
        const scale = { min: 250, max: 4_000_000, currency: 'USD' };
        expect(place(scale, Math.min(a, b)).at).toBeLessThanOrEqual(place(scale, Math.max(a, b)).at);
      }),
    );
  });
});

describe('worthTicks', () => {
  it('are round amounts of the currency on the axis', () => {
    expect(worthTicks({ min: 900, max: 110_000, currency: 'USD' }).map(tick => tick.amount)).toEqual([
      1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000,
    ]);
    expect(worthTicks({ min: 900, max: 11_000, currency: 'JPY' }, 4).map(tick => tick.amount)).toEqual([
      1000, 2000, 5000, 10_000,
    ]);
    expect(worthTicks({ min: 900, max: 11_000, currency: 'BHD' }, 4).map(tick => tick.amount)).toEqual([
      1000, 2000, 5000, 10_000,
    ]);
  });

  it('turn coarser rather than crowd, and mark the powers of ten', () => {
    const ticks = worthTicks({ min: 90, max: 1_100_000, currency: 'USD' }, 6);
    expect(ticks.map(tick => tick.amount)).toEqual([100, 1000, 10_000, 100_000, 1_000_000]);
    expect(ticks.every(tick => tick.strong)).toBe(true);
  });

  it('turn finer on a short axis', () => {
    expect(worthTicks({ min: 2900, max: 7100, currency: 'USD' }).map(tick => tick.amount)).toEqual([
      3000, 4000, 5000, 7000,
    ]);
  });
});

describe('stripWorths', () => {
  it('takes the likely cost off the restored worth and keeps the gross end for the whisker', () => {
    const strip = stripWorths({
      asFound: range(1000, 2000, 4000),
      restored: range(3000, 6000, 9000),
      originalFinish: { ...range(8000, 12_000, 18_000), attainable: false },
      cost: range(1500, 2500, 4000),
    });
    expect(strip.restored).toEqual({ ...range(500, 3500, 6500), gross: 9000 });
    expect(strip.originalFinish?.attainable).toBe(false);
  });

  it('counts no plan as no cost, and an original finish as attainable unless it is said', () => {
    const strip = stripWorths({
      asFound: null,
      restored: range(3000, 6000, 9000),
      originalFinish: range(1, 2, 3),
      cost: null,
    });
    expect(strip.restored).toEqual({ ...range(3000, 6000, 9000), gross: 9000 });
    expect(strip.originalFinish?.attainable).toBe(true);
    expect(strip.asFound).toBeNull();
  });
});
