import { describe, expect, it } from 'vitest';
import { buhlmannStraub, hierarchicalCredibility } from '../../valuation/index.ts';
import { poolEvidence } from '../../valuation/market/pool-evidence.ts';
import dyestuff from './data/dyestuff.json' with { type: 'json' };
import hachemeister from './data/hachemeister.json' with { type: 'json' };
import { expectRelative } from './expect-relative.ts';

const states = hachemeister.states.map(({ ratio, weight }) => ({ values: ratio, weights: weight }));
const unweighted = states.map(({ values }) => ({ values, weights: values.map(() => 1) }));

describe('Bühlmann–Straub: Hachemeister (1975), by way of Goulet et al., package actuar, credibility vignette', () => {
  it('weighted (read and recomputed; relative 1e-8)', () => {
    const result = buhlmannStraub(states);
    expectRelative(result.within, 139120025.925, 1e-8);
    expectRelative(result.between, 89638.726, 1e-8);
    expectRelative(result.collective, 1683.713437, 1e-8);
    expectRelative(
      result.credibility,
      [0.984740402, 0.927635218, 0.898475355, 0.727909209, 0.958791149],
      1e-8,
    );
    expectRelative(result.estimates, [2055.16535, 1523.70628, 1793.4436, 1442.96655, 1603.2854], 1e-8);
  });

  it('weighted, as printed in the vignette to whole numbers (read)', () => {
    const { collective, between, within } = buhlmannStraub(states);
    expect([collective, between, within].map(Math.round)).toEqual([1684, 89639, 139120026]);
  });

  it('weighted and unweighted, to all digits of the recomputation', () => {
    for (const [groups, expected] of [
      [states, hachemeister.buhlmann_straub_unbiased],
      [unweighted, hachemeister.buhlmann_unweighted],
    ] as const) {
      const result = buhlmannStraub(groups);
      expectRelative(result.within, expected.s2, 1e-12);
      expectRelative(result.between, expected.a, 1e-12);
      expectRelative(result.collective, expected.collective, 1e-12);
      expectRelative(result.credibility, expected.z, 1e-12);
      expectRelative(result.estimates, expected.premium, 1e-12);
    }
    const { collective, between, within } = buhlmannStraub(unweighted);
    expect([collective, between, within].map(Math.round)).toEqual([1671, 72310, 46040]);
  });

  it('two levels, cohorts {1, 3} and {2, 4, 5}, iterative estimators (read and recomputed)', () => {
    const result = hierarchicalCredibility(
      states.map((state, i) => ({ ...state, parent: [1, 2, 1, 2, 2][i]! })),
    );
    expect(result.within).toBeCloseTo(139120025.925, 2);
    expect(result.collective).toBeCloseTo(1746.246, 3);
    expect(result.betweenParents).toBeCloseTo(88981.289, 3);
    expect(result.betweenChildren).toBeCloseTo(10951.907, 3);
    const estimates = (nodes: { estimate: number }[]) =>
      nodes.map(({ estimate }) => Number(estimate.toFixed(3)));
    expect(estimates(result.parents)).toEqual([1948.997, 1543.495]);
    expect(estimates(result.children)).toEqual([2048.324, 1523.8, 1874.625, 1496.563, 1585.169]);
  });
});

interface Group {
  values: number[];
  weights: number[];
}

/**
 * Groups through the pooling that every valuation rests on, given the published variances. Groups are its
 * variations; a collective that is not known beforehand is a series of boundless variance. Without parents
 * the castings add nothing.
 */
const pooledAs = (
  groups: Group[],
  parents: number[],
  { within, children, above }: { within: number; children: number; above: number },
) => {
  const sales = groups.flatMap(({ values, weights }, g) =>
    values.map((value, i) => ({ value, weight: weights[i]!, g })),
  );
  return poolEvidence(
    {
      values: Float64Array.from(sales, s => s.value),
      precision: Float64Array.from(sales, s => s.weight / within),
      variation: sales.map(s => s.g),
      variationCasting: parents,
      castingSeries: [...new Set(parents)].map(() => 0),
      seriesCount: 1,
    },
    { within, betweenVariations: children, betweenCastings: above, betweenSeries: 1e20 },
  );
};

describe('the pooling of the product itself, given the published variances', () => {
  it('Hachemeister, weighted: credibilities, premiums and collective (read and recomputed; relative 1e-8)', () => {
    const { s2, a, z, premium, collective } = hachemeister.buhlmann_straub_unbiased;
    const { variations, series } = pooledAs(
      states,
      states.map(() => 0),
      { within: s2, children: a, above: 0 },
    );
    expectRelative([...variations.credibility], z, 1e-8);
    expectRelative([...variations.mean], premium, 1e-8);
    expectRelative(series.mean[0]!, collective, 1e-8);
    const printed = [0.984740402, 0.927635218, 0.898475355, 0.727909209, 0.958791149];
    expectRelative([...variations.credibility], printed, 1e-8);
  });

  it('Hachemeister, unweighted (recomputed; relative 1e-8)', () => {
    const { s2, a, z, premium } = hachemeister.buhlmann_unweighted;
    const { variations } = pooledAs(
      unweighted,
      states.map(() => 0),
      { within: s2, children: a, above: 0 },
    );
    expectRelative([...variations.credibility], z, 1e-8);
    expectRelative([...variations.mean], premium, 1e-8);
  });

  it('Hachemeister on two levels, cohorts {1, 3} and {2, 4, 5} (read; variances to three digits, as printed)', () => {
    const { variations, castings, series } = pooledAs(states, [0, 1, 0, 1, 1], {
      within: 139120025.925,
      children: 10951.907,
      above: 88981.289,
    });
    const rounded = (means: Float64Array) => Array.from(means, mean => Number(mean.toFixed(3)));
    expect(rounded(series.mean)).toEqual([1746.246]);
    expect(rounded(castings.mean)).toEqual([1948.997, 1543.495]);
    expect(rounded(variations.mean)).toEqual([2048.324, 1523.8, 1874.625, 1496.563, 1585.169]);
  });

  it('Dyestuff: the REML predictions of lme4 (read and recomputed; 1e-8)', () => {
    const { data, results } = dyestuff.Dyestuff;
    const groups = Object.values(data).map(values => ({ values, weights: values.map(() => 1) }));
    const { variations, series } = pooledAs(
      groups,
      groups.map(() => 0),
      { within: 2451.25, children: 1764.05, above: 0 },
    );
    for (const z of variations.credibility) expect(z).toBeCloseTo(0.78252673, 8);
    expectRelative(series.mean[0]!, 1527.5, 1e-8);
    Object.values(results.REML.blup).forEach((effect, i) => {
      expect(variations.mean[i]! - series.mean[0]!).toBeCloseTo(effect, 8);
    });
  });
});

describe('one-way random effects by Bühlmann–Straub with unit weights', () => {
  it('Dyestuff: Davies & Goldsmith (1972) 6.4, package lme4 (read and recomputed)', () => {
    const { data, results } = dyestuff.Dyestuff;
    const result = buhlmannStraub(
      Object.values(data).map(values => ({ values, weights: values.map(() => 1) })),
    );
    expect(result.between).toBeCloseTo(1764.05, 8);
    expect(result.within).toBeCloseTo(2451.25, 8);
    expect(result.collective).toBeCloseTo(1527.5, 10);
    for (const z of result.credibility) expect(z).toBeCloseTo(0.78252673, 8);
    Object.values(results.REML.blup).forEach((effect, i) => {
      expect(result.estimates[i]! - result.collective).toBeCloseTo(effect, 9);
    });
  });

  it('Dyestuff2: Box & Tiao (1973) 5.1.2, package lme4 (data from memory; its mean and spread recomputed and as lme4 prints them)', () => {
    const batches = [
      [7.298, 3.846, 2.434, 9.566, 7.99],
      [5.22, 6.556, 0.608, 11.788, -0.892],
      [0.11, 10.386, 13.434, 5.51, 8.166],
      [2.212, 4.852, 7.092, 9.288, 4.98],
      [0.282, 9.014, 4.458, 9.446, 7.198],
      [1.722, 4.782, 8.106, 0.758, 3.758],
    ];
    const all = batches.flat();
    const mean = all.reduce((a, b) => a + b) / all.length;
    const spread = Math.sqrt(all.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (all.length - 1));
    expect(spread).toBeCloseTo(3.716, 3);
    const result = buhlmannStraub(batches.map(values => ({ values, weights: values.map(() => 1) })));
    expect(result.between).toBe(0);
    expect(result.credibility).toEqual([0, 0, 0, 0, 0, 0]);
    expect(result.collective).toBeCloseTo(5.666, 3);
    for (const estimate of result.estimates) expect(estimate).toBe(result.collective);
  });
});
