import { describe, expect, it } from 'vitest';
import {
  betaPert,
  chooseSeason,
  chooseUnderLimits,
  exchangeGain,
  normalCdf,
  normalQuantile,
} from '../../valuation/index.ts';
import { crpsOfLognormal, crpsOfNormal } from '../helpers/markets/crps.ts';
import exchange from './data/exchange-option.json' with { type: 'json' };
import petersen from './data/knapsack-petersen.json' with { type: 'json' };
import { expectRelative } from './expect-relative.ts';

describe('PERT: Taylor, Introduction to Management Science (read)', () => {
  const activities: [number, number, number][] = [
    [5, 8, 17],
    [7, 10, 13],
    [3, 5, 7],
    [1, 3, 5],
    [4, 6, 8],
    [3, 3, 3],
    [3, 4, 5],
  ];
  const path = [activities[0]!, activities[2]!, activities[4]!, activities[6]!];

  it('means of the seven activities', () => {
    const means = activities.map(([low, likely, high]) => betaPert(low, likely, high).mean);
    expectRelative(means, [9, 10, 5, 3, 6, 3, 4], 1e-15);
  });

  it('path 1-3-5-7: mean 24, variance 5 by the rule of a sixth, P(≤ 28) = .9633 at z = 1.79', () => {
    const mean = path.reduce((sum, figures) => sum + betaPert(...figures).mean, 0);
    const variance = path.reduce((sum, [low, , high]) => sum + ((high - low) / 6) ** 2, 0);
    expect(mean).toBeCloseTo(24, 12);
    expect(variance).toBeCloseTo(5, 12);
    const z = Number(((28 - mean) / Math.sqrt(variance)).toFixed(2));
    expect(normalCdf(z).toFixed(4)).toBe('0.9633');
  });

  it('the exact variance of (2, 5, 14) is 32/7, where the rule of a sixth has 4 (recomputed)', () => {
    expect(betaPert(2, 5, 14).variance).toBeCloseTo(32 / 7, 14);
  });
});

describe('quantiles of the beta-PERT', () => {
  it('(2, 5, 14) at .1, .5 and .9 (recomputed with mpmath to 40 digits)', () => {
    const { quantile } = betaPert(2, 5, 14);
    expectRelative(
      [0.1, 0.5, 0.9].map(quantile),
      [3.346819502550303, 5.765722045468369, 9.006684495434348],
      1e-13,
    );
  });
});

describe('exchanging one asset for another', () => {
  it.each(exchange.cases)(
    'Margrabe (1978), as printed in the test suite of QuantLib to three decimals (read): $S1 against $S2, T $T, sigma2 $sigma2, rho $rho',
    row => {
      const { S1, S2, q1, q2, T, sigma1, sigma2, rho, published, computed } = row;
      // The option is worth what exchanging two lognormals with these means is worth.
      const log = (S: number, q: number, sigma: number) => Math.log(S) - q * T - (sigma * sigma * T) / 2;
      const { expectedGain } = exchangeGain({
        m1: log(S1, q1, sigma1),
        s1: sigma1 * Math.sqrt(T),
        m2: log(S2, q2, sigma2),
        s2: sigma2 * Math.sqrt(T),
        rho,
      });
      expect(Math.abs(expectedGain - published)).toBeLessThanOrEqual(1e-3);
      expectRelative(expectedGain, computed, 1e-7);
    },
  );

  it('correlated lognormals (recomputed by closed form and quadrature)', () => {
    const { probability, expectedGain } = exchangeGain({ m1: 5, s1: 0.4, m2: 4.8, s2: 0.3, rho: 0 });
    expect(probability).toBeCloseTo(0.6554217416, 10);
    expect(expectedGain).toBeCloseTo(48.25174806, 8);
  });
});

describe('the normal distribution', () => {
  it('distribution function (Abramowitz & Stegun, table 26.1; from memory, recomputed)', () => {
    expectRelative(
      [normalCdf(1), normalCdf(2), normalCdf(3)],
      [0.841344746068543, 0.977249868051821, 0.99865010196837],
      1e-14,
    );
  });

  it('far tail (recomputed with mpmath to 40 digits)', () => {
    expectRelative([normalCdf(-10), normalCdf(-37)], [7.61985302416053e-24, 5.72557122252458e-300], 1e-14);
  });

  it('quantile (Wichura 1988, algorithm AS 241, its three check values; from memory, recomputed)', () => {
    expectRelative(
      [normalQuantile(0.25), normalQuantile(0.001), normalQuantile(1e-20)],
      [-0.6744897501960817, -3.090232306167814, -9.262340089798409],
      1e-15,
    );
  });
});

describe('choosing under limits: OR-Library mknap1, Petersen (1967), Management Science 13(9) (read and recomputed)', () => {
  it.each(petersen.problems)('$name: $optimal', async ({ p, r, b, optimal }) => {
    const { chosen, gain, gapLeft } = await chooseUnderLimits({ gains: p, uses: r, limits: b });
    expect(gain).toBeCloseTo(optimal, 9);
    expect(gapLeft).toBeUndefined();
    r.forEach((row, i) => {
      expect(row.reduce((sum, use, j) => sum + (chosen[j] ? use : 0), 0)).toBeLessThanOrEqual(b[i]!);
    });
    expect(p.reduce((sum, value, j) => sum + (chosen[j] ? value : 0), 0)).toBeCloseTo(optimal, 9);
  });

  it.each(petersen.problems)('$name, by the season’s choice: $optimal', async ({ p, r, b, optimal }) => {
    const partsOf = (j: number) => Object.fromEntries(r.map((row, i) => [`part ${i}`, row[j]!]));
    const { gain } = await chooseSeason(
      {
        cars: p.map((value, j) => ({
          id: j + 1,
          castingId: null,
          options: [{ option: 'restore', gain: value, hours: 0, cash: 0, parts: partsOf(j) }],
        })),
        limits: { parts: Object.fromEntries(b.map((limit, i) => [`part ${i}`, limit])) },
      },
      { gap: 0 },
    );
    expect(gain).toBeCloseTo(optimal, 9);
  });

  it('the first has one best choice, of the second, third and sixth', async () => {
    const { p, r, b } = petersen.problems[0]!;
    const { chosen } = await chooseUnderLimits({ gains: p, uses: r, limits: b });
    expect(chosen).toEqual([false, true, true, false, false, true]);
  });
});

describe('CRPS in closed form', () => {
  it('is that of a lognormal forecast by its definition, an integral of squared probability', () => {
    // Baran & Lerch (2015), QJRMS 141, appendix (from memory); recomputed here from ∫ (F(x) − 1{x ≥ y})² dx.
    for (const [mean, sd, came] of [
      [0, 1, 0.5],
      [0, 1, 3],
      [1.5, 0.3, 4],
      [-0.5, 0.6, 2],
    ] as const) {
      const steps = 100_000;
      const cdf = (x: number) => normalCdf((Math.log(x) - mean) / sd);
      const integral = (from: number, to: number, of: (x: number) => number) => {
        let sum = 0;
        for (let i = 0; i < steps; i++) sum += of(from + ((i + 0.5) * (to - from)) / steps);
        return (sum * (to - from)) / steps;
      };
      const above = integral(came, Math.max(came, Math.exp(mean + 8 * sd)), x => (1 - cdf(x)) ** 2);
      const wanted = integral(0, came, x => cdf(x) ** 2) + above;
      expect(crpsOfLognormal(mean, sd, came)).toBeCloseTo(wanted, 4);
    }
  });

  it('is that of a standard normal forecast at 0: (√2 − 1)/√π', () => {
    // Gneiting & Raftery (2007), JASA 102 (from memory).
    expect(crpsOfNormal(0, 1, 0)).toBeCloseTo((Math.SQRT2 - 1) / Math.sqrt(Math.PI), 12);
    expect(crpsOfNormal(3, 0, 5)).toBe(2);
  });
});
