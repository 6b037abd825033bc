import { describe, expect, it } from 'vitest';
import { isotonic, leastSquares, quantile, weightedQuantile } from '../../valuation/index.ts';
import longley from './data/nist-longley.json' with { type: 'json' };
import norris from './data/nist-norris.json' with { type: 'json' };
import { expectRelative } from './expect-relative.ts';

const withOnes = (data: number[][]) => data.map(([, ...x]) => [1, ...x]);
const targets = (data: number[][]) => data.map(([y]) => y!);

describe('least squares: NIST Statistical Reference Datasets, linear regression', () => {
  it('Norris (read and recomputed; relative 1e-11)', () => {
    const { data, certified } = norris;
    const fit = leastSquares(withOnes(data), targets(data));
    expectRelative(fit.coefficients, [certified.B0, certified.B1], 1e-11);
    expectRelative(fit.standardErrors, [certified.se_B0, certified.se_B1], 1e-11);
    expectRelative(fit.residualStandardDeviation, certified.resid_sd, 1e-11);
    expectRelative(fit.rSquared, certified.r2, 1e-11);
  });

  it('Longley (read and recomputed; relative 1e-9)', () => {
    const { data, certified } = longley;
    const fit = leastSquares(withOnes(data), targets(data));
    expectRelative(fit.coefficients, certified.B, 1e-9);
    expectRelative(fit.standardErrors, certified.se, 1e-9);
    expectRelative(fit.residualStandardDeviation, certified.resid_sd, 1e-9);
    expectRelative(fit.rSquared, certified.r2, 1e-9);
  });

  it('NoInt1, a line through the origin (certified values from memory, recomputed in exact fractions)', () => {
    const x = Array.from({ length: 11 }, (_, i) => 60 + i);
    const fit = leastSquares(
      x.map(value => [value]),
      x.map(value => value + 70),
    );
    expectRelative(fit.coefficients, [2.07438016528926], 1e-13);
    expectRelative(fit.standardErrors, [0.0165289256198347], 1e-13);
    expectRelative(fit.residualStandardDeviation, 3.56753034006338, 1e-13);
    expectRelative(fit.rSquared, 0.999365492298663, 1e-13);
  });

  it('Wampler1, a polynomial of degree 5 with every coefficient 1 (data by its formula, from memory)', () => {
    const rows = Array.from({ length: 21 }, (_, x) => [1, x, x ** 2, x ** 3, x ** 4, x ** 5]);
    const fit = leastSquares(
      rows,
      rows.map(row => row.reduce((a, b) => a + b)),
    );
    expectRelative(fit.coefficients, [1, 1, 1, 1, 1, 1], 1e-8);
    expectRelative(fit.rSquared, 1, 1e-13);
  });
});

describe('isotonic regression', () => {
  it('8 4 8 2 2 0 8 (Busing 2022, Journal of Statistical Software 102, code snippet 1; read)', () => {
    expect(isotonic([8, 4, 8, 2, 2, 0, 8])).toEqual([4, 4, 4, 4, 4, 4, 8]);
  });

  it('1 0 4 3 3 5 4 2 0 (example of isoreg in R; recomputed)', () => {
    expect(isotonic([1, 0, 4, 3, 3, 5, 4, 2, 0])).toEqual([0.5, 0.5, 3, 3, 3, 3, 3, 3, 3]);
  });
});

describe('robust location', () => {
  it('median and weighted median (Cormen et al., Introduction to Algorithms, problem 9-2; read)', () => {
    const x = [0.1, 0.35, 0.05, 0.1, 0.15, 0.05, 0.2];
    expect(quantile(x, 0.5)).toBe(0.1);
    expect(weightedQuantile(x, x, 0.5)).toBe(0.2);
  });

  it('quantiles of type 7 (Hyndman & Fan 1996; recomputed in R)', () => {
    const at = [0.1, 0.25, 0.5, 0.75, 0.9].map(p => quantile([1, 3, 4, 5, 7, 10], p));
    expect(at).toEqual([2, 3.25, 4.5, 6.5, 8.5]);
  });
});
