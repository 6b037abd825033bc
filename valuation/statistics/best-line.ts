import { checkFinite } from './check-input.ts';
import { normalCdf } from './normal.ts';

/** What one choice brings: `at` as things stand, and `slope` more with each standard deviation of what is learned. */
export interface Line {
  at: number;
  slope: number;
}

/** The unit normal loss integral at −c, c ≥ 0: E (Z − c)⁺. */
const loss = (c: number): number => Math.exp((-c * c) / 2) / Math.sqrt(2 * Math.PI) - c * normalCdf(-c);

/** The lines that are the highest somewhere, by rising slope. */
const envelope = (lines: readonly Line[]): Line[] => {
  const highest: Line[] = [];
  for (const line of [...lines].sort((a, b) => a.slope - b.slope || a.at - b.at)) {
    if (highest.at(-1)?.slope === line.slope) highest.pop();
    while (highest.length > 1) {
      const last = highest.at(-1)!;
      const before = highest.at(-2)!;
      // Where the new line crosses the one before the last, that is no lower than the last any more.
      const crosses = (before.at - line.at) / (line.slope - before.slope);
      if (crosses > (before.at - last.at) / (last.slope - before.slope)) break;
      highest.pop();
    }
    highest.push(line);
  }
  return highest;
};

/**
 * What it is worth to learn a standard normal Z before choosing among lines: E max (atᵢ + slopeᵢ Z) − max atᵢ,
 * in the unit of the lines. With the lines that are highest somewhere, sorted by slope, and cᵢ where
 * neighbours cross, it is Σ (slopeᵢ₊₁ − slopeᵢ) (φ(cᵢ) − |cᵢ| Φ(−|cᵢ|)). 0 with fewer than two lines.
 *
 * Throws RangeError on non-finite input.
 * Source: Frazier, Powell & Dayanik (2009), INFORMS Journal on Computing 21, 599–613, algorithm 1; for two
 * lines Raiffa & Schlaifer, Applied Statistical Decision Theory (1961), § 5.4.
 */
export const worthOfLearning = (lines: readonly Line[]): number => {
  for (const { at, slope } of lines) {
    checkFinite(at, 'a line');
    checkFinite(slope, 'slope of a line');
  }
  const highest = envelope(lines);
  let sum = 0;
  for (let i = 1; i < highest.length; i++) {
    const low = highest[i - 1]!;
    const high = highest[i]!;
    const slope = high.slope - low.slope;
    sum += slope * loss(Math.abs((low.at - high.at) / slope));
  }
  return sum;
};
