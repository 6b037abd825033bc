import { describe, expect, it } from 'vitest';
import { lowDiscrepancy, mostDimensions } from '../../../valuation/statistics/low-discrepancy.ts';

const mean = (values: Float64Array) => values.reduce((a, b) => a + b, 0) / values.length;
const correlation = (a: Float64Array, b: Float64Array) => {
  const [ma, mb] = [mean(a), mean(b)];
  const cross = (x: Float64Array, mx: number, y: Float64Array, my: number) =>
    x.reduce((sum, value, i) => sum + (value - mx) * (y[i]! - my), 0);
  return cross(a, ma, b, mb) / Math.sqrt(cross(a, ma, a, ma) * cross(b, mb, b, mb));
};

const all = (seed?: number) => lowDiscrepancy(512, mostDimensions, seed);

describe('lowDiscrepancy', () => {
  it('holds the middle of each cell once in every dimension', () => {
    const middles = Array.from({ length: 512 }, (_, i) => (i + 0.5) / 512);
    for (const seed of [1, 2, 77])
      for (const points of all(seed)) expect([...points].sort((a, b) => a - b)).toEqual(middles);
  });

  it('holds as many points in every sixteenth of the plane of any two dimensions', () => {
    const dimensions = all();
    dimensions.forEach((a, i) => {
      for (const b of dimensions.slice(i + 1)) {
        const counts = new Array<number>(16).fill(0);
        a.forEach((x, k) => {
          counts[Math.floor(x * 4) * 4 + Math.floor(b[k]! * 4)]!++;
        });
        expect(counts).toEqual(new Array(16).fill(32));
      }
    });
  });

  it('keeps its dimensions apart', () => {
    const dimensions = all();
    dimensions.forEach((a, i) => {
      for (const b of dimensions.slice(i + 1)) expect(Math.abs(correlation(a, b))).toBeLessThan(0.02);
    });
  });

  it('finds the integral of a smooth function far better than chance would', () => {
    const [x, y, z] = all();
    const value = mean(x!.map((a, i) => Math.exp(a) * Math.cos(y![i]!) * z![i]! ** 2));
    expect(Math.abs(value - ((Math.E - 1) * Math.sin(1)) / 3)).toBeLessThan(0.002);
  });

  it('gives the same points for the same seed, others for another, whatever the number of dimensions', () => {
    expect(all(5)).toEqual(all(5));
    expect(all(5)).not.toEqual(all(6));
    expect(lowDiscrepancy(64, 3, 5)).toEqual(lowDiscrepancy(64, 7, 5).slice(0, 3));
  });

  it('refuses counts that are no power of two, too many dimensions and seeds that are none', () => {
    for (const count of [0, 3, 500, -4, Number.NaN])
      expect(() => lowDiscrepancy(count, 1)).toThrow(RangeError);
    for (const dimensions of [0, mostDimensions + 1, 1.5])
      expect(() => lowDiscrepancy(4, dimensions)).toThrow(RangeError);
    expect(() => lowDiscrepancy(4, 1, Number.NaN)).toThrow(RangeError);
  });
});
