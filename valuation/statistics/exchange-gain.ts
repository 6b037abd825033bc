import { checkBetween, checkFinite } from './check-input.ts';
import { normalCdf } from './normal.ts';

/** Means and standard deviations of the logs of X (1) and Y (2), and the correlation of the logs. */
export interface Exchange {
  m1: number;
  s1: number;
  m2: number;
  s2: number;
  rho: number;
}

/**
 * What there is to gain by having X instead of Y, two correlated lognormals: P(X > Y) and E(X − Y)⁺, the
 * latter in their unit.
 *
 * With s² = s₁² + s₂² − 2ρs₁s₂ and Fᵢ = exp(mᵢ + sᵢ²/2): P = Φ((m₁ − m₂)/s), E = F₁ Φ(d₁) − F₂ Φ(d₁ − s),
 * d₁ = (ln(F₁/F₂) + s²/2)/s. Where s is 0 the ratio of the two is certain: the gain is then F₁ − F₂ if m₁ >
 * m₂, else 0.
 *
 * Throws RangeError on non-finite input, negative deviations, ρ outside −1…1, and means too
 * large for a number.
 * Source: Margrabe (1978), Journal of Finance 33, 177–186.
 */
export const exchangeGain = ({
  m1,
  s1,
  m2,
  s2,
  rho,
}: Exchange): { probability: number; expectedGain: number } => {
  checkFinite(m1, 'm1');
  checkFinite(m2, 'm2');
  checkBetween(s1, 0, Number.MAX_VALUE, 's1');
  checkBetween(s2, 0, Number.MAX_VALUE, 's2');
  checkBetween(rho, -1, 1, 'rho');
  const mean1 = Math.exp(m1 + (s1 * s1) / 2);
  const mean2 = Math.exp(m2 + (s2 * s2) / 2);
  checkFinite(mean1, 'mean of X, exp(m1 + s1²/2),');
  checkFinite(mean2, 'mean of Y, exp(m2 + s2²/2),');
  // Written so that nearly equal deviations with a correlation near 1 do not cancel.
  const s = Math.sqrt((s1 - s2) ** 2 + 2 * (1 - rho) * s1 * s2);
  if (s === 0)
    return m1 > m2 ? { probability: 1, expectedGain: mean1 - mean2 } : { probability: 0, expectedGain: 0 };
  const probability = normalCdf((m1 - m2) / s);
  const d1 = (m1 - m2 + s1 * (s1 - s2 + (1 - rho) * s2)) / s;
  const d2 = (m1 - m2 - s2 * (s2 - s1 + (1 - rho) * s1)) / s;
  return { probability, expectedGain: Math.max(0, mean1 * normalCdf(d1) - mean2 * normalCdf(d2)) };
};
