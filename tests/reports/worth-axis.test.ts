import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { worthAxis } from '../../reports/model/worth-axis.ts';

describe('the axis of the worth strips', () => {
  it('runs from a round number below to one above, at 1, 2 and 5', () => {
    const axis = worthAxis([620, 9100], 'USD')!;
    expect(axis.ticks.map(tick => tick.label)).toEqual(['5', '10', '20', '50', '100']);
    expect(axis.place(500)).toBe(0);
    expect(axis.place(10000)).toBe(1);
  });

  it('is logarithmic: equal ratios are equal steps', () => {
    const axis = worthAxis([1000, 100000], 'USD')!;
    expect(axis.place(4000) - axis.place(2000)).toBeCloseTo(axis.place(80000) - axis.place(40000), 12);
  });

  it('counts in the decimals of its currency', () => {
    expect(worthAxis([1000, 1900], 'JPY')!.ticks.map(tick => tick.label)).toEqual(['1,000', '2,000']);
    expect(worthAxis([1000, 1900], 'BHD')!.ticks.map(tick => tick.label)).toEqual(['1', '2']);
  });

  it('labels powers of ten alone where more would run together', () => {
    const axis = worthAxis([600, 90000], 'USD')!;
    expect(axis.ticks.length).toBeGreaterThan(6);
    expect(axis.ticks.map(tick => tick.label).filter(Boolean)).toEqual(['10', '100', '1,000']);
  });

  it('has nothing to show without an amount above nothing', () => {
    expect(worthAxis([], 'USD')).toBeNull();
    expect(worthAxis([0, -5], 'USD')).toBeNull();
  });

  it('keeps every amount on the axis, in order', () => {
    const amount = fc.integer({ min: 1, max: 9_000_000_000_000_000 });
    fc.assert(
      fc.property(fc.array(amount, { minLength: 1, maxLength: 20 }), amounts => {
        const axis = worthAxis(amounts, 'USD')!;
        const places = amounts.toSorted((a, b) => a - b).map(axis.place);
        expect(places.every(place => place >= 0 && place <= 1)).toBe(true);
        expect(places).toEqual(places.toSorted((a, b) => a - b));
        expect(amounts.some(axis.isBefore)).toBe(false);
        expect(axis.ticks.length).toBeLessThan(30);
      }),
    );
  });
});
