import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { forward, sharedEffects } from '../../../valuation/market/shared-effects.ts';
import { leastSquares } from '../../../valuation/statistics/least-squares.ts';
import { seededRandom } from '../../helpers/random.ts';

const random = seededRandom(5);
const variationCasting = [0, 0, 1, 1, 2, 3];
const castingSeries = [0, 0, 1, 1];
const count = 30;
const variation = Array.from({ length: count }, (_, i) => i % variationCasting.length);
const rows = Array.from({ length: count }, () => [1, random.normal(0, 1), random.uniform()]);
const y = rows.map(([, a, b], i) => 2 + 0.7 * a! - 1.1 * b! + 0.3 * variation[i]! + random.normal(0, 0.2));
const weight = rows.map(() => random.between(0.5, 2));
const within = 0.05;
const input = (prior: number[]) => ({
  rows: Float64Array.from(rows.flatMap((row, i) => [...row, y[i]!])),
  width: 4,
  precision: Float64Array.from(weight, w => w / within),
  variation,
  variationCasting,
  castingSeries,
  seriesCount: 2,
  prior: Float64Array.from(prior),
});

describe('sharedEffects', () => {
  it('is generalised least squares with the whole covariance matrix', () => {
    const variances = { within, betweenVariations: 0.09, betweenCastings: 0.2, betweenSeries: 0.3 };
    const prior = [1e-4, 4, 25];
    const same = (a: number, b: number) => {
      const [ca, cb] = [variationCasting[variation[a]!]!, variationCasting[variation[b]!]!];
      return (
        (a === b ? within / weight[a]! : 0) +
        (variation[a] === variation[b] ? variances.betweenVariations : 0) +
        (ca === cb ? variances.betweenCastings : 0) +
        (castingSeries[ca] === castingSeries[cb] ? variances.betweenSeries : 0)
      );
    };
    const all = Array.from({ length: count }, (_, i) => i);
    const inverted = inverse(new Matrix(all.map(a => all.map(b => same(a, b)))));
    const x = new Matrix(rows);
    const precision = Matrix.add(x.transpose().mmul(inverted).mmul(x), Matrix.diag(prior));
    const wanted = inverse(precision).mmul(x.transpose().mmul(inverted).mmul(Matrix.columnVector(y)));
    const found = sharedEffects(input(prior), variances);
    for (let a = 0; a < 3; a++) expect(found.estimate[a]).toBeCloseTo(wanted.get(a, 0), 9);
    const combination = Float64Array.of(1, -0.5, 2);
    const variance = forward(found.root, 3, combination).reduce((sum, value) => sum + value * value, 0);
    const c = Matrix.columnVector(Array.from(combination));
    expect(variance).toBeCloseTo(c.transpose().mmul(inverse(precision)).mmul(c).get(0, 0), 9);
  });

  it('is weighted least squares where nothing varies between, and counts its columns', () => {
    const none = { within, betweenVariations: 0, betweenCastings: 0, betweenSeries: 0 };
    const found = sharedEffects(input([0, 0, 0]), none);
    const plain = leastSquares(rows, y, weight);
    for (let a = 0; a < 3; a++) expect(found.estimate[a]).toBeCloseTo(plain.coefficients[a]!, 9);
    expect(found.freedom).toBeCloseTo(3, 9);
  });

  it('is least squares with a dummy per variation where variations differ without bound', () => {
    const free = { within, betweenVariations: 1e9, betweenCastings: 0, betweenSeries: 0 };
    const found = sharedEffects(input([1e-12, 0, 0]), free);
    const dummies = rows.map(([, a, b], i) => [
      a!,
      b!,
      ...variationCasting.map((_, v) => Number(variation[i] === v)),
    ]);
    const plain = leastSquares(dummies, y, weight);
    expect(found.estimate[1]).toBeCloseTo(plain.coefficients[0]!, 6);
    expect(found.estimate[2]).toBeCloseTo(plain.coefficients[1]!, 6);
  });

  it('stays at the prior without sales', () => {
    const empty = {
      ...input([1, 1, 1]),
      rows: new Float64Array(),
      precision: new Float64Array(),
      variation: [],
    };
    const found = sharedEffects(empty, {
      within,
      betweenVariations: 1,
      betweenCastings: 1,
      betweenSeries: 1,
    });
    expect([...found.estimate]).toEqual([0, 0, 0]);
    expect(found.freedom).toBeCloseTo(0, 9);
  });
});
