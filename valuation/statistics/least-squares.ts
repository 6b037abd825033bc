import { Matrix, QrDecomposition } from 'ml-matrix';
import { checkNumbers, checkWeights } from './check-input.ts';
import { weightedMean } from './credibility-groups.ts';

export interface LeastSquares {
  coefficients: number[];
  /** NaN, as the residual standard deviation, where there are no more rows than coefficients. */
  standardErrors: number[];
  residualStandardDeviation: number;
  /** About the mean where one column is constant, about zero otherwise; NaN where y does not vary. */
  rSquared: number;
}

/**
 * A column whose part outside the others is smaller than this, relative to its length, adds nothing
 * that can be told.
 */
const rankTolerance = 1e-11;

const checkRows = (rows: readonly (readonly number[])[], y: readonly number[]): number => {
  if (!(rows?.length > 0)) throw new RangeError('rows must not be empty');
  rows.forEach((row, i) => {
    checkNumbers(row, `rows[${i}]`);
    if (row.length !== rows[0]!.length)
      throw new RangeError(`rows[${i}] has ${row.length} entries where rows[0] has ${rows[0]!.length}`);
  });
  checkNumbers(y, 'y');
  if (y.length !== rows.length)
    throw new RangeError(`y has ${y.length} entries where rows has ${rows.length}`);
  return rows[0]!.length;
};

/**
 * Weighted least squares by Householder QR of columns scaled to unit length, with one step of iterative
 * refinement.
 * `rows` carry their own column of ones; `weights` are inverse variances up to a factor, and rows of weight
 * zero are left out.
 * Residual standard deviation √(Σ w r² / (n − p)); standard errors from R⁻¹ R⁻ᵀ.
 *
 * Throws RangeError on empty, mismatched or non-finite input, with fewer rows than columns, and when a column
 * depends on the others. No valuation calls it: only the published checks do, which hold the library's QR to
 * certified regressions. The market's shared effects are fitted by market/shared-effects.ts.
 * Source: Golub & Van Loan, Matrix Computations, 5.2–5.3; definitions as in NIST StRD and R's `lm`.
 */
export const leastSquares = (
  rows: readonly (readonly number[])[],
  y: readonly number[],
  weights?: readonly number[],
): LeastSquares => {
  const columns = checkRows(rows, y);
  if (weights) checkWeights(weights, rows.length, 'weights');
  const kept = rows.map((_, i) => i).filter(i => !weights || weights[i]! > 0);
  if (kept.length < columns)
    throw new RangeError(`rows has ${kept.length} usable entries, fewer than its ${columns} columns`);
  const roots = kept.map(i => (weights ? Math.sqrt(weights[i]!) : 1));
  const weighted = kept.map((i, k) => rows[i]!.map(x => x * roots[k]!));
  const target = kept.map((i, k) => y[i]! * roots[k]!);
  const lengths = columnLengths(weighted, columns);
  const design = new Matrix(weighted.map(row => row.map((x, j) => x / lengths[j]!)));
  const qr = new QrDecomposition(design);
  const r = qr.upperTriangularMatrix;
  for (let j = 0; j < columns; j++) {
    if (Math.abs(r.get(j, j)) < rankTolerance)
      throw new RangeError(`column ${j} of rows depends on the others: its coefficient cannot be told`);
  }
  const first = qr.solve(Matrix.columnVector(target));
  const correction = qr.solve(Matrix.sub(Matrix.columnVector(target), design.mmul(first)));
  const solution = Matrix.add(first, correction);
  const coefficients = lengths.map((length, j) => solution.get(j, 0) / length);
  const residuals = Matrix.sub(Matrix.columnVector(target), design.mmul(solution)).to1DArray();
  const residualSquares = residuals.reduce((sum, e) => sum + e * e, 0);
  const freedom = kept.length - columns;
  const residualStandardDeviation = freedom > 0 ? Math.sqrt(residualSquares / freedom) : Number.NaN;
  const inverse = invertUpper(r, columns);
  const standardErrors = lengths.map(
    (length, j) => (residualStandardDeviation * Math.hypot(...inverse[j]!)) / length,
  );
  const constant = lengths.some((_, j) => kept.every(i => rows[i]![j] === rows[kept[0]!]![j]));
  const used = kept.map(i => y[i]!);
  const centre = constant
    ? weightedMean(
        used,
        roots.map(root => root * root),
      )
    : 0;
  const totalSquares = used.reduce((sum, value, k) => sum + (roots[k]! * (value - centre)) ** 2, 0);
  const rSquared = totalSquares > 0 ? 1 - residualSquares / totalSquares : Number.NaN;
  return { coefficients, standardErrors, residualStandardDeviation, rSquared };
};

/**
 * Euclidean length of each column, by way of its largest entry so that no square overflows; 1 for a
 * column of zeros.
 */
const columnLengths = (rows: readonly (readonly number[])[], columns: number): number[] =>
  Array.from({ length: columns }, (_, j) => {
    const largest = rows.reduce((most, row) => Math.max(most, Math.abs(row[j]!)), 0);
    return largest === 0
      ? 1
      : largest * Math.sqrt(rows.reduce((sum, row) => sum + (row[j]! / largest) ** 2, 0));
  });

/** Rows of the inverse of an upper triangle, by back substitution. */
const invertUpper = (r: Matrix, size: number): number[][] => {
  const inverse = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let column = 0; column < size; column++) {
    for (let row = column; row >= 0; row--) {
      let sum = row === column ? 1 : 0;
      for (let k = row + 1; k <= column; k++) sum -= r.get(row, k) * inverse[k]![column]!;
      inverse[row]![column] = sum / r.get(row, row);
    }
  }
  return inverse;
};
