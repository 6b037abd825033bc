import { determinant, inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { mixedModel } from '../helpers/markets/mixed-model.ts';

// Davies & Goldsmith, Statistical Methods in Research and Production (1972): yield of dyestuff by batch.
const batches: Record<string, number[]> = {
  A: [1545, 1440, 1440, 1520, 1580],
  B: [1540, 1555, 1490, 1560, 1495],
  C: [1595, 1550, 1605, 1510, 1560],
  D: [1445, 1440, 1595, 1465, 1545],
  E: [1595, 1630, 1515, 1635, 1625],
  F: [1520, 1455, 1450, 1480, 1445],
};

describe('the reference mixed model of the bench', () => {
  it('agrees with lme4 on Dyestuff: Bates et al. (2015), Journal of Statistical Software 67 (from memory)', () => {
    const rows = Object.entries(batches).flatMap(([batch, yields]) => yields.map(y => ({ batch, y })));
    const { variances, beta, criterion } = mixedModel(
      { y: rows.map(({ y }) => y), x: rows.map(() => [1]), levels: rows.map(({ batch }) => [batch]) },
      [1000, 1000],
      200,
    );
    expect(variances[0]).toBeCloseTo(1764.05, 1);
    expect(variances[1]).toBeCloseTo(2451.25, 1);
    expect(beta[0]).toBeCloseTo(1527.5, 6);
    expect(criterion).toBeCloseTo(319.6543, 4);
  });

  it('has the likelihood that the whole covariance matrix gives, of unequal nested groups', () => {
    const levels = ['a p 1', 'a p 1', 'a p 2', 'a q 3', 'b r 4', 'b r 4', 'b r 5', 'b s 6', 'b s 6', 'c t 7'];
    const paths = levels.map(path => path.split(' '));
    const y = [3.1, 2.7, 4.2, 5.5, 1.2, 0.3, 2.2, 6.1, 4.9, 3.3];
    const x = y.map((_, i) => [1, (i * i) % 7]);
    const { variances, criterion } = mixedModel({ y, x, levels: paths }, [1, 0.8, 0.6, 0.4], 20);
    const v = new Matrix(
      paths.map((a, i) =>
        paths.map((b, j) =>
          a.reduce(
            (sum, id, level) => sum + (id === b[level] ? variances[level]! : 0),
            i === j ? variances[3]! : 0,
          ),
        ),
      ),
    );
    const facts = new Matrix(x);
    const solved = inverse(v).mmul(facts);
    const xx = facts.transpose().mmul(solved);
    const values = Matrix.columnVector(y);
    const beta = inverse(xx).mmul(solved.transpose()).mmul(values);
    const left = Matrix.sub(values, facts.mmul(beta));
    const rest = left.transpose().mmul(inverse(v)).mmul(left).get(0, 0);
    const whole = Math.log(determinant(v)) + Math.log(determinant(xx)) + rest + 8 * Math.log(2 * Math.PI);
    expect(criterion).toBeCloseTo(whole, 8);
  });
});
