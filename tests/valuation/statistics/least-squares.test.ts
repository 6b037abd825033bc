import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../../valuation/index.ts';

describe('leastSquares', () => {
  it('finds a known line again, with nothing left over', () => {
    const rows = [0, 1, 2, 3, 10].map(x => [1, x]);
    const fit = leastSquares(
      rows,
      rows.map(([, x]) => 4 - 3 * x!),
    );
    expect(fit.coefficients[0]).toBeCloseTo(4, 12);
    expect(fit.coefficients[1]).toBeCloseTo(-3, 12);
    expect(fit.residualStandardDeviation).toBeCloseTo(0, 12);
    expect(fit.rSquared).toBeCloseTo(1, 14);
  });

  it('takes a weight of k as k rows do, in the coefficients', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.integer({ min: -50, max: 50 }),
            fc.integer({ min: -50, max: 50 }),
            fc.integer({ min: 0, max: 4 }),
          ),
          {
            minLength: 4,
            maxLength: 15,
          },
        ),
        points => {
          const kept = points.filter(([, , weight]) => weight > 0);
          fc.pre(new Set(kept.map(([x]) => x)).size > 1);
          const weighted = leastSquares(
            points.map(([x]) => [1, x]),
            points.map(([, y]) => y),
            points.map(([, , w]) => w),
          );
          const many = kept.flatMap(([x, y, w]) => new Array<[number, number]>(w).fill([x, y]));
          const repeated = leastSquares(
            many.map(([x]) => [1, x]),
            many.map(([, y]) => y),
          );
          weighted.coefficients.forEach((c, j) => {
            expect(c).toBeCloseTo(repeated.coefficients[j]!, 8);
          });
        },
      ),
    );
  });

  it('leaves residuals at right angles to every column', () => {
    const rows = Array.from({ length: 12 }, (_, i) => [1, i, Math.sin(i), (i * i) % 7]);
    const y = rows.map((_, i) => Math.cos(3 * i) * 10 + i);
    const { coefficients } = leastSquares(rows, y);
    const residuals = rows.map((row, i) => y[i]! - row.reduce((sum, x, j) => sum + x * coefficients[j]!, 0));
    for (let j = 0; j < 4; j++)
      expect(rows.reduce((sum, row, i) => sum + row[j]! * residuals[i]!, 0)).toBeCloseTo(0, 10);
  });

  it('does not mind columns of very different size', () => {
    const rows = [1, 2, 3, 4, 5].map(x => [1, x * 1e-9, x * x * 1e9]);
    const { coefficients } = leastSquares(
      rows,
      rows.map(row => 2 + 3 * row[1]! - 4 * row[2]!),
    );
    expect(coefficients[2]! / -4).toBeCloseTo(1, 10);
  });

  it('tells NaN, not a made-up error, where no degree of freedom is left', () => {
    const fit = leastSquares(
      [
        [1, 0],
        [1, 1],
      ],
      [3, 5],
    );
    expect(fit.coefficients[1]).toBeCloseTo(2, 13);
    expect(fit.residualStandardDeviation).toBeNaN();
    expect(fit.standardErrors.every(Number.isNaN)).toBe(true);
    expect(leastSquares([[1], [1], [1]], [2, 2, 2]).rSquared).toBeNaN();
  });

  it('refuses columns that depend on one another, and says which', () => {
    const rows = [
      [1, 2, 3],
      [1, 4, 5],
      [1, 6, 7],
      [1, 9, 10],
    ];
    expect(() => leastSquares(rows, [1, 2, 3, 4])).toThrow(/^column 2 of rows depends on the others/);
    expect(() =>
      leastSquares(
        rows.map(([a, b]) => [a!, b!, 0]),
        [1, 2, 3, 4],
      ),
    ).toThrow(/^column 2/);
    const thirds = Array.from({ length: 9 }, (_, i) => [1, i / 3, 0.1 + i / 7, i / 3 + 0.1 + i / 7]);
    expect(() =>
      leastSquares(
        thirds,
        thirds.map((_, i) => i * i),
      ),
    ).toThrow(/^column [23]/);
  });

  it('refuses empty, mismatched and wild input, naming it', () => {
    expect(() => leastSquares([], [])).toThrow('rows must not be empty');
    expect(() => leastSquares([[1, 2], [1]], [1, 2])).toThrow(/^rows\[1\] has 1 entries/);
    expect(() => leastSquares([[1], [1]], [1])).toThrow(/^y has 1 entries where rows has 2/);
    expect(() => leastSquares([[1], [Number.NaN]], [1, 2])).toThrow(/^rows\[1\]\[0\]/);
    expect(() => leastSquares([[1], [1]], [1, Number.POSITIVE_INFINITY])).toThrow(/^y\[1\]/);
    expect(() => leastSquares([[1], [1]], [1, 2], [1])).toThrow(/^weights has 1/);
    expect(() => leastSquares([[1], [1]], [1, 2], [1, -1])).toThrow(/^weights\[1\]/);
    expect(() => leastSquares([[1, 2]], [1])).toThrow(/fewer than its 2 columns/);
    expect(() =>
      leastSquares(
        [
          [1, 2],
          [1, 3],
        ],
        [1, 2],
        [1, 0],
      ),
    ).toThrow(/fewer than its 2 columns/);
  });
});
