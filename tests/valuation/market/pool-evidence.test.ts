import fc from 'fast-check';
import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { poolEvidence } from '../../../valuation/market/pool-evidence.ts';
import { hierarchicalCredibility } from '../../../valuation/statistics/hierarchical-credibility.ts';

const variances = { within: 0.1, betweenVariations: 0.06, betweenCastings: 0.2, betweenSeries: 0.15 };

const trees = fc
  .record({
    castingSeries: fc.array(fc.nat(1), { minLength: 1, maxLength: 4 }),
    places: fc.array(fc.nat(100), { minLength: 1, maxLength: 6 }),
    sales: fc.array(
      fc.record({
        place: fc.nat(100),
        value: fc.double({ min: -2, max: 2, noNaN: true }),
        weight: fc.double({ min: 0.1, max: 2, noNaN: true }),
      }),
      { minLength: 1, maxLength: 12 },
    ),
  })
  .map(({ castingSeries, places, sales }) => {
    const variationCasting = places.map(place => place % castingSeries.length);
    return {
      values: Float64Array.from(sales, s => s.value),
      precision: Float64Array.from(sales, s => s.weight / variances.within),
      variation: sales.map(s => s.place % variationCasting.length),
      variationCasting,
      castingSeries,
      seriesCount: 2,
    };
  });

describe('poolEvidence', () => {
  it('is the posterior of the nested normal model, by its whole covariance matrix', () => {
    fc.assert(
      fc.property(trees, tree => {
        const { variation, variationCasting, castingSeries, precision, values } = tree;
        const covariance = (a: number, b: number) => {
          const [ca, cb] = [variationCasting[a]!, variationCasting[b]!];
          return (
            (a === b ? variances.betweenVariations : 0) +
            (ca === cb ? variances.betweenCastings : 0) +
            (castingSeries[ca] === castingSeries[cb] ? variances.betweenSeries : 0)
          );
        };
        const sales = variation.map((v, i) => ({ v, i }));
        const inverted = inverse(
          new Matrix(
            sales.map(a => sales.map(b => covariance(a.v, b.v) + (a.i === b.i ? 1 / precision[a.i]! : 0))),
          ),
        );
        const pooled = poolEvidence(tree, variances);
        variationCasting.forEach((_, v) => {
          const across = Matrix.rowVector(sales.map(s => covariance(v, s.v)));
          const gain = across.mmul(inverted);
          const mean = gain.mmul(Matrix.columnVector(Array.from(values))).get(0, 0);
          const variance = covariance(v, v) - gain.mmul(across.transpose()).get(0, 0);
          expect(pooled.variations.mean[v]).toBeCloseTo(mean, 9);
          expect(pooled.variations.variance[v]).toBeCloseTo(variance, 9);
        });
      }),
    );
  });

  it('gives the credibilities and estimates of hierarchical credibility when its variances are the same', () => {
    const groups = [
      { parent: 'a', values: [5, 5.4, 6.1], weights: [1, 2, 1] },
      { parent: 'a', values: [6.5, 7.2], weights: [1, 1] },
      { parent: 'a', values: [4.1, 4.4, 4], weights: [1, 1, 3] },
      { parent: 'b', values: [9, 8.1], weights: [2, 1] },
      { parent: 'b', values: [8.4, 10.6, 10.1], weights: [1, 1, 1] },
      { parent: 'c', values: [6, 6.8], weights: [1, 1] },
      { parent: 'c', values: [7.1, 8], weights: [1, 1] },
    ];
    const wanted = hierarchicalCredibility(groups);
    expect(wanted.betweenChildren).toBeGreaterThan(0);
    expect(wanted.betweenParents).toBeGreaterThan(0);
    const parents = ['a', 'b', 'c'];
    const sales = groups.flatMap(({ values, weights }, g) =>
      values.map((value, i) => ({ value: value - wanted.collective, weight: weights[i]!, g })),
    );
    const pooled = poolEvidence(
      {
        values: Float64Array.from(sales, s => s.value),
        precision: Float64Array.from(sales, s => s.weight / wanted.within),
        variation: sales.map(s => s.g),
        variationCasting: groups.map(({ parent }) => parents.indexOf(parent)),
        castingSeries: [0, 0, 0],
        seriesCount: 1,
      },
      {
        within: wanted.within,
        betweenVariations: wanted.betweenChildren,
        betweenCastings: wanted.betweenParents,
        // All of one series that is known to be the collective.
        betweenSeries: 0,
      },
    );
    wanted.children.forEach(({ estimate, credibility }, g) => {
      expect(pooled.variations.credibility[g]).toBeCloseTo(credibility, 9);
      expect(wanted.collective + pooled.variations.mean[g]!).toBeCloseTo(estimate, 9);
    });
    wanted.parents.forEach(({ estimate, credibility }, p) => {
      expect(pooled.castings.credibility[p]).toBeCloseTo(credibility, 9);
      expect(wanted.collective + pooled.castings.mean[p]!).toBeCloseTo(estimate, 9);
    });
  });

  it('leaves a node without evidence at its parent, with the whole variance between', () => {
    const pooled = poolEvidence(
      {
        values: Float64Array.of(1),
        precision: Float64Array.of(10),
        variation: [0],
        variationCasting: [0, 0],
        castingSeries: [0],
        seriesCount: 1,
      },
      variances,
    );
    expect(pooled.variations.credibility[1]).toBe(0);
    expect(pooled.variations.mean[1]).toBe(pooled.castings.mean[0]);
    expect(pooled.variations.variance[1]).toBeCloseTo(
      variances.betweenVariations + pooled.castings.variance[0]!,
      12,
    );
  });
});
