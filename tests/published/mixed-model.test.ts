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
});
