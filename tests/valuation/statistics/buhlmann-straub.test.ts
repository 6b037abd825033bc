import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buhlmannStraub } from '../../../valuation/index.ts';
import { exact, type Fraction, minus, over, rounded, sum, times } from '../../helpers/exact.ts';

const unit = (...values: number[]) => ({ values, weights: values.map(() => 1) });
const observation = fc.record({
  value: fc.double({ min: -1000, max: 1000, noNaN: true }),
  weight: fc.double({ min: 0.01, max: 100, noNaN: true }),
});
const group = fc
  .array(observation, { minLength: 2, maxLength: 8 })
  .map(list => ({ values: list.map(o => o.value), weights: list.map(o => o.weight) }));
const groups = fc.array(group, { minLength: 2, maxLength: 8 });

type Groups = readonly { values: readonly number[]; weights: readonly number[] }[];

const expectNear = (value: number, wanted: number, slack: number) =>
  expect(Math.abs(value - wanted), `${value} against ${wanted}`).toBeLessThanOrEqual(slack);

/** Both variances by their formulas, in fractions. */
const exactVariances = (groups: Groups) => {
  const summaries = groups.map(({ values, weights }) => {
    const w = weights.map(exact);
    const x = values.map(exact);
    const weight = sum(w);
    const mean = over(sum(w.map((wi, i) => times(wi, x[i]!))), weight);
    const squares = sum(w.map((wi, i) => times(wi, square(minus(x[i]!, mean)))));
    return { weight, mean, squares };
  });
  const freedom = groups.reduce((total, { values }) => total + values.length - 1, 0);
  const within = over(sum(summaries.map(s => s.squares)), exact(freedom));
  const total = sum(summaries.map(s => s.weight));
  const grand = over(sum(summaries.map(s => times(s.weight, s.mean))), total);
  const spread = sum(summaries.map(s => times(s.weight, square(minus(s.mean, grand)))));
  const products = minus(square(total), sum(summaries.map(s => square(s.weight))));
  const apart = minus(spread, times(exact(groups.length - 1), within));
  return {
    within: rounded(within),
    between: Math.max(0, rounded(over(times(total, apart), products))),
  };
};

const square = (x: Fraction): Fraction => times(x, x);

/**
 * What rounding may take from the variance between: it is the difference of a spread and (I − 1) s², each
 * right to some twelve digits, so its error is a share of the larger of the two and not of what is left.
 */
const betweenSlack = (groups: Groups, within: number): number => {
  const weights = groups.map(g => g.weights.reduce((a, b) => a + b));
  const means = groups.map(
    (g, i) =>
      g.values.reduce((total, x, k) => total + g.weights[k]! * (x - groups[0]!.values[0]!), 0) / weights[i]!,
  );
  const total = weights.reduce((a, b) => a + b);
  const grand = means.reduce((all, m, i) => all + weights[i]! * m, 0) / total;
  const spread = means.reduce((all, m, i) => all + weights[i]! * (m - grand) ** 2, 0);
  const products = weights.reduce((all, w) => all + w * (total - w), 0);
  return (1e-12 * total * (spread + (groups.length - 1) * within)) / products;
};

describe('buhlmannStraub', () => {
  it('works out by hand: two groups of two', () => {
    // Means 2 and 8, within (2 + 2)/2 = 2, between 4/(16 − 8) · (2·9·2 − 2) = 17, z = 34/36.
    const { within, between, collective, credibility, estimates } = buhlmannStraub([unit(1, 3), unit(7, 9)]);
    expect(within).toBeCloseTo(2, 14);
    expect(between).toBeCloseTo(17, 13);
    expect(collective).toBeCloseTo(5, 14);
    expect(credibility[0]).toBeCloseTo(34 / 36, 14);
    expect(estimates[1]).toBeCloseTo(5 + (3 * 34) / 36, 13);
  });

  it('keeps every estimate between the own mean and the collective, and credibility in 0…1', () => {
    fc.assert(
      fc.property(groups, given => {
        const { collective, credibility, estimates, between } = buhlmannStraub(given);
        const reach = Math.max(...given.flatMap(({ values }) => values.map(Math.abs)));
        given.forEach(({ values, weights }, i) => {
          const total = weights.reduce((a, b) => a + b);
          const mean = values.reduce((sum, x, k) => sum + x * weights[k]!, 0) / total;
          expect(credibility[i]).toBeGreaterThanOrEqual(0);
          expect(credibility[i]).toBeLessThanOrEqual(1);
          const slack = 1e-9 * (1 + Math.abs(mean));
          expect(estimates[i]).toBeGreaterThanOrEqual(Math.min(mean, collective) - slack);
          expect(estimates[i]).toBeLessThanOrEqual(Math.max(mean, collective) + slack);
          // Of values below this the variance is too small for a number, though the credibility is known.
          if (between === 0 && reach > 1e-130) expect(credibility[i]).toBe(0);
        });
      }),
    );
  });

  it('does not mind the order of groups, and moves and scales with the values', () => {
    // Steps of 2⁻²⁰, so that 10 + 2x is exact and whatever changes was lost by the estimator.
    const stepped = groups.map(list =>
      list.map(({ values, weights }) => ({
        values: values.map(x => Math.round(x * 2 ** 20) / 2 ** 20),
        weights,
      })),
    );
    fc.assert(
      fc.property(stepped, given => {
        const plain = buhlmannStraub(given);
        const turned = buhlmannStraub([...given].reverse());
        const moved = buhlmannStraub(
          given.map(({ values, weights }) => ({ values: values.map(x => 10 + 2 * x), weights })),
        );
        expectNear(turned.within, plain.within, 1e-12 * plain.within);
        expectNear(moved.within, 4 * plain.within, 1e-12 * plain.within);
        const slack = betweenSlack(given, plain.within);
        expectNear(turned.between, plain.between, slack);
        expectNear(moved.between, 4 * plain.between, 4 * slack);
        // What the variance between may be off moves the estimates no further than that share of the distance
        // between the groups.
        const share = plain.between > 0 ? Math.min(1, (4 * slack) / plain.between) : 1;
        fc.pre(share < 1e-3 || (turned.between === 0 && moved.between === 0));
        const far = plain.between > 0 ? 2000 * share + 1e-9 : 1e-9;
        expectNear(turned.collective, plain.collective, far);
        expectNear(moved.collective, 10 + 2 * plain.collective, 2 * far);
        plain.credibility.forEach((z, i) => {
          expectNear(moved.credibility[i]!, z, plain.between > 0 ? share : 0);
        });
      }),
    );
  });

  it('loses nothing to the height of the values: both variances as in exact arithmetic', () => {
    const height = fc.constantFrom(0, 1, -37.25, 1000, 1e6, -1e12);
    const size = fc.constantFrom(1e-9, 1e-3, 1, 1e3);
    const near = fc.array(
      fc.tuple(height, size, group).map(([at, by, { values, weights }]) => ({
        values: values.map(x => at + by * x),
        weights,
      })),
      { minLength: 2, maxLength: 5 },
    );
    fc.assert(
      fc.property(near, given => {
        const { within, between } = buhlmannStraub(given);
        const truth = exactVariances(given);
        // Squares are counted in those of the largest value; what is 10⁻³⁰⁰ of that, or near the smallest
        // number, has few digits or none.
        const largest = Math.max(1, ...given.flatMap(({ values }) => values.map(Math.abs)));
        const vanishing = 1e-300 * largest ** 2;
        expectNear(within, truth.within, 1e-12 * truth.within + vanishing);
        expectNear(between, truth.between, betweenSlack(given, truth.within) + vanishing);
      }),
    );
  });

  it('tells values of a billionth about a thousand apart beside a group at zero', () => {
    const given = [
      { values: [0, 0], weights: [0.01, 0.01] },
      {
        values: [999.999999996772, 999.9999999945497],
        weights: [0.01629180508802081, 0.4942858476855525],
      },
    ];
    expect(buhlmannStraub(given).within / exactVariances(given).within).toBeCloseTo(1, 13);
  });

  it('neither overflows nor vanishes with values whose squares would', () => {
    for (const unitOf of [1e-170, 1e170]) {
      const { credibility, estimates, collective } = buhlmannStraub([
        unit(unitOf, 3 * unitOf),
        unit(7 * unitOf, 9 * unitOf),
      ]);
      expect(credibility[0]).toBeCloseTo(34 / 36, 12);
      expect(collective / unitOf).toBeCloseTo(5, 12);
      expect(estimates[1]! / unitOf).toBeCloseTo(5 + (3 * 34) / 36, 12);
    }
  });

  it('pools wholly to the weighted grand mean where the variance between comes out below zero', () => {
    const result = buhlmannStraub([
      { values: [0, 10], weights: [1, 1] },
      { values: [1, 9, 8], weights: [1, 1, 2] },
    ]);
    expect(result.between).toBe(0);
    expect(result.credibility).toEqual([0, 0]);
    expect(result.collective).toBeCloseTo(36 / 6, 14);
    expect(result.estimates).toEqual([result.collective, result.collective]);
  });

  it('gives a group of one observation, of no weight, and a lone group what is due', () => {
    const { credibility, estimates, collective } = buhlmannStraub([
      unit(1, 3),
      unit(7, 9),
      unit(4),
      { values: [99, 99], weights: [0, 0] },
    ]);
    expect(credibility[2]).toBeGreaterThan(0);
    expect(credibility[2]).toBeLessThan(credibility[0]!);
    expect(credibility[3]).toBe(0);
    expect(estimates[3]).toBe(collective);
    expect(buhlmannStraub([unit(1, 3)])).toEqual({
      within: 2,
      between: 0,
      collective: 2,
      credibility: [0],
      estimates: [2],
    });
  });

  it('leaves out observations of no weight', () => {
    const padded = [
      { values: [1, 3, 500], weights: [1, 1, 0] },
      { values: [7, 9], weights: [1, 1] },
    ];
    expect(buhlmannStraub(padded)).toEqual(buhlmannStraub([unit(1, 3), unit(7, 9)]));
  });

  it('stays finite where groups do not vary', () => {
    expect(buhlmannStraub([unit(5, 5), unit(9, 9)]).credibility).toEqual([1, 1]);
    expect(buhlmannStraub([unit(5, 5), unit(5, 5)])).toMatchObject({
      between: 0,
      credibility: [0, 0],
      estimates: [5, 5],
    });
  });

  it('refuses empty, mismatched and wild input, naming it', () => {
    expect(() => buhlmannStraub([])).toThrow('groups must not be empty');
    expect(() => buhlmannStraub([unit(1, 2), unit()])).toThrow('groups[1].values must not be empty');
    expect(() => buhlmannStraub([{ values: [1, 2], weights: [1] }])).toThrow(
      /groups\[0\]\.weights has 1 entries where 2/,
    );
    expect(() => buhlmannStraub([{ values: [1, 2], weights: [1, -1] }])).toThrow(
      /groups\[0\]\.weights\[1\] must not be negative/,
    );
    expect(() => buhlmannStraub([unit(1, Number.NaN)])).toThrow(/groups\[0\]\.values\[1\]/);
    expect(() => buhlmannStraub([{ values: [1, 2], weights: [1, Number.POSITIVE_INFINITY] }])).toThrow(
      RangeError,
    );
    expect(() => buhlmannStraub([{ values: [1, 2], weights: [0, 0] }])).toThrow(/must not all be zero/);
    expect(() => buhlmannStraub([unit(1), unit(2)])).toThrow(/at least one with two observations/);
  });
});
