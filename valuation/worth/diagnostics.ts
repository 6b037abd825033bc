import { checkBetween, checkFinite } from '../statistics/check-input.ts';
import { binomialBounds, sequentialBounds } from '../statistics/group-sequential.ts';
import { inverseIncompleteBeta } from '../statistics/incomplete-beta.ts';
import { eightyPercent, normalCdf, normalQuantile } from '../statistics/normal.ts';
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
/**
 * An honest owner is ever told "wrong" with these chances, however many sales are looked at: of bias, and of
 * ranges.
 */
const falseAlarms = { bias: 0.075, ranges: 0.025 };
/** Departures count up to so many standard deviations: one absurd price moves nothing. */
const farthest = 2.2;
/** Standard deviation of a standard normal held within ± `farthest`. */
const heldSd = Math.sqrt(
  1 -
    2 * (1 - normalCdf(farthest)) * (1 - farthest ** 2) -
    (2 * farthest * Math.exp(-(farthest ** 2) / 2)) / Math.sqrt(2 * Math.PI),
);
/** What the errors of two estimates have in common where nothing better is known. */
const usualCorrelation = 0.01;

/** After every sale from the fifth on; later, when there is a twentieth more. */
const looksUpTo = (count: number): number[] => {
  const looks: number[] = [];
  for (let n = fewest; n <= count; n = n < 40 ? n + 1 : Math.ceil(n * 1.05)) looks.push(n);
  return looks;
};

/**
 * Share of the error that may be spent by a number of sales: three quarters by the twentieth, all of it in
 * the end.
 */
const spentBy = (n: number): number => (n < 20 ? 0.75 * (n / 20) ** 1.5 : 1 - 5 / n);

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

/** Bounds follow from the looks and the correlation alone; those of the latest few correlations are held. */
const heldBounds = new Map<number, number[]>();
const mostHeld = 20;

const boundsFor = (looks: readonly number[], correlation: number): number[] => {
  const known = heldBounds.get(correlation);
  if (known && known.length >= looks.length) return known.slice(0, looks.length);
  const bounds = sequentialBounds(
    looks.map(n => told(n, correlation)),
    looks.map(n => falseAlarms.bias * spentBy(n)),
  );
  if (heldBounds.size >= mostHeld) heldBounds.delete(heldBounds.keys().next().value!);
  heldBounds.set(correlation, bounds);
  return bounds;
};

/** What n estimates tell together where any two of their errors go together by so much. */
const told = (n: number, correlation: number): number => n / (1 + (n - 1) * correlation);

/** What the sales speak against, looked at one after another in the order in which they were made. */
const faultsOf = (
  past: readonly (Range & { realised: number })[],
  { bias, coverage, correlation }: { bias: number; coverage: number; correlation: number },
): EstimateFault[] => {
  const looks = looksUpTo(past.length);
  const bounds = boundsFor(looks, correlation);
  const counts = binomialBounds(
    looks,
    looks.map(n => falseAlarms.ranges * spentBy(n)),
    wanted,
  );
  let sum = 0;
  let hits = 0;
  let at = 0;
  const found = new Map<EstimateFault['kind'], EstimateFault>();
  past.forEach(({ low, mid, high, realised }, i) => {
    const sd = Math.max(1e-3, (Math.log(high) - Math.log(low)) / 2 / eightyPercent);
    const z = Math.log(realised / mid) / sd;
    sum += Math.max(-farthest, Math.min(farthest, z)) / heldSd;
    hits += Number(realised >= low && realised <= high);
    if (looks[at] !== i + 1) return;
    const n = i + 1;
    const statistic = (sum / n) * Math.sqrt(told(n, correlation));
    if (Math.abs(statistic) >= bounds[at]!) found.set('bias', { kind: 'bias', bias });
    const { low: few, high: many } = counts[at]!;
    if (hits <= few) found.set('ranges-too-narrow', { kind: 'ranges-too-narrow', coverage });
    if (hits >= many) found.set('ranges-too-wide', { kind: 'ranges-too-wide', coverage });
    at++;
  });
  return [...found.values()];
};

/**
 * Past valuations against what was later realised, in the order of the sales. Bias: exp(mean of
 * ln(realised/mid)) − 1, its interval by Student's t; coverage: the share inside low…high, with Wilson's
 * interval. The verdict says plainly that the estimates have been wrong by tests that may be looked at after
 * every sale: the sum of the standardised log errors, none counting beyond 2.2, against bounds that spend 7.5
 * % of error in all, and the count inside the ranges against exact bounds that spend 2.5 %. `correlation` is
 * what the errors of two estimates have in common. With fewer than five sales it says that they tell nothing.
 * Throws RangeError unless every amount is above zero.
 * Source: Lan & DeMets (1983), Biometrika 70, the spending of error.
 */
export const diagnostics = (
  past: readonly (Range & { realised: number })[],
  correlation = usualCorrelation,
): Diagnostics => {
  checkBetween(correlation, 0, 1, 'correlation');
  for (const [i, entry] of past.entries()) {
    for (const key of ['low', 'mid', 'high', 'realised'] as const)
      checkFinite(entry[key], `past[${i}].${key}`);
    if (!(entry.low > 0 && entry.mid > 0 && entry.high > 0 && entry.realised > 0))
      throw new RangeError(`past[${i}] must have low, mid, high and realised above zero`);
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
  const faults = count < fewest ? [] : faultsOf(past, { bias, coverage, correlation });
  let verdict: Verdict = { kind: 'nothing-against', count, bias, coverage };
  if (count < fewest) verdict = { kind: 'too-few', count };
  else if (faults.length > 0) verdict = { kind: 'wrong', count, faults };
  return { count, bias, biasRange, coverage, coverageRange, typicalError, verdict };
};
