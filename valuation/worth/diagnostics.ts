import { checkFinite } from '../statistics/check-input.ts';
import { inverseIncompleteBeta } from '../statistics/incomplete-beta.ts';
import { normalQuantile } from '../statistics/normal.ts';
import { quantile } from '../statistics/quantile.ts';
import type { Range } from '../types.ts';

export interface Diagnostics {
  count: number;
  /**
   * Typical ratio of what was realised to the mid, less 1: 0.1 where cars brought 10 % more than valued.
   * Null without any.
   */
  bias: number | null;
  /** The same as a 95 % interval; null with fewer than two. */
  biasRange: { low: number; high: number } | null;
  /** Share of realised prices inside their range, 80 % wanted; with its 95 % interval. */
  coverage: number | null;
  coverageRange: { low: number; high: number } | null;
  /** Median of |realised / mid − 1| as a factor less 1. */
  typicalError: number | null;
  verdict: Verdict;
}

/** What the sales say of the estimates. `wrong` where chance does not explain them, with each fault. */
export type Verdict =
  | { kind: 'none-sold' }
  | { kind: 'too-few'; count: number }
  | { kind: 'nothing-against'; count: number; bias: number; coverage: number }
  | { kind: 'wrong'; count: number; faults: EstimateFault[] };

export type EstimateFault =
  | { kind: 'bias'; bias: number }
  | { kind: 'ranges-too-narrow' | 'ranges-too-wide'; coverage: number };

/** Fewer sales than these tell nothing. */
const fewest = 5;
const wanted = 0.8;

/** Wilson's 95 % interval of a share. Source: Wilson (1927), JASA 22. */
const shareInterval = (hits: number, count: number) => {
  const z = normalQuantile(0.975);
  const share = hits / count;
  const middle = (share + (z * z) / (2 * count)) / (1 + (z * z) / count);
  const half =
    (z * Math.sqrt((share * (1 - share)) / count + (z * z) / (4 * count * count))) / (1 + (z * z) / count);
  return { low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
};

/** Student's t at 0.975, from the beta law of t²/(ν + t²). */
const student = (freedom: number): number => {
  const x = inverseIncompleteBeta(0.95, 0.5, freedom / 2);
  return Math.sqrt((freedom * x) / (1 - x));
};

const verdictOf = ({
  count,
  bias,
  biasRange,
  coverage,
  coverageRange,
}: {
  count: number;
  bias: number;
  biasRange: { low: number; high: number };
  coverage: number;
  coverageRange: { low: number; high: number };
}): Verdict => {
  const faults: EstimateFault[] = [];
  if (biasRange.low > 0 || biasRange.high < 0) faults.push({ kind: 'bias', bias });
  if (coverageRange.high < wanted) faults.push({ kind: 'ranges-too-narrow', coverage });
  if (coverageRange.low > wanted) faults.push({ kind: 'ranges-too-wide', coverage });
  return faults.length > 0
    ? { kind: 'wrong', count, faults }
    : { kind: 'nothing-against', count, bias, coverage };
};

/**
 * Past valuations against what was later realised. Bias: exp(mean of ln(realised/mid)) − 1, its interval by
 * Student's t; coverage: the share inside low…high, with Wilson's interval. The verdict says plainly that
 * the estimates have been wrong when the interval of the bias leaves out none or that of the coverage
 * leaves out 80 %; with fewer than five sales it says that they tell nothing. Throws RangeError unless
 * every amount is above zero.
 */
export const diagnostics = (past: readonly (Range & { realised: number })[]): Diagnostics => {
  for (const [i, entry] of past.entries()) {
    for (const key of ['low', 'mid', 'high', 'realised'] as const)
      checkFinite(entry[key], `past[${i}].${key}`);
    if (!(entry.mid > 0 && entry.realised > 0))
      throw new RangeError(`past[${i}] must have mid and realised above zero`);
  }
  const count = past.length;
  if (count === 0)
    return {
      count,
      bias: null,
      biasRange: null,
      coverage: null,
      coverageRange: null,
      typicalError: null,
      verdict: { kind: 'none-sold' },
    };
  const logs = past.map(({ mid, realised }) => Math.log(realised / mid));
  const mean = logs.reduce((a, b) => a + b, 0) / count;
  const bias = Math.expm1(mean);
  const hits = past.filter(({ low, high, realised }) => realised >= low && realised <= high).length;
  const coverage = hits / count;
  const coverageRange = shareInterval(hits, count);
  const typicalError = Math.expm1(quantile(logs.map(Math.abs), 0.5));
  const variance = logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / (count - 1);
  const half = count > 1 ? student(count - 1) * Math.sqrt(variance / count) : 0;
  const biasRange = count > 1 ? { low: Math.expm1(mean - half), high: Math.expm1(mean + half) } : null;
  const verdict: Verdict =
    count < fewest || !biasRange
      ? { kind: 'too-few', count }
      : verdictOf({ count, bias, biasRange, coverage, coverageRange });
  return { count, bias, biasRange, coverage, coverageRange, typicalError, verdict };
};
