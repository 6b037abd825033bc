import { checkNumbers } from './check-input.ts';
import { normalCdf } from './normal.ts';

/** Points at which the density of what has not crossed yet is held; odd, for Simpson's rule. */
const points = 201;

interface Held {
  at: Float64Array;
  /** Density times the weight of the point. */
  mass: Float64Array;
}

const checkLooks = (information: readonly number[], other: readonly number[], name: string): void => {
  checkNumbers(information, 'information');
  checkNumbers(other, name);
  if (other.length !== information.length)
    throw new RangeError(`${name} must have one entry for each of the ${information.length} looks`);
  information.forEach((info, k) => {
    if (!(info > (information[k - 1] ?? 0)))
      throw new RangeError(`information must rise from above zero, and does not at look ${k + 1}`);
  });
};

/** Chance that the score, after an increment of deviation `sd` and mean `move`, lies beyond ± `edge`. */
const beyond = ({ at, mass }: Held, edge: number, sd: number, move = 0): number => {
  let sum = 0;
  for (let i = 0; i < at.length; i++) {
    const from = at[i]! + move;
    sum += mass[i]! * (normalCdf((from - edge) / sd) + normalCdf((-edge - from) / sd));
  }
  return sum;
};

/** What has not crossed ± `edge` after the increment. */
const within = ({ at, mass }: Held, edge: number, sd: number, move = 0): Held => {
  const next: Held = { at: new Float64Array(points), mass: new Float64Array(points) };
  const step = (2 * edge) / (points - 1);
  const height = 1 / (sd * Math.sqrt(2 * Math.PI));
  for (let j = 0; j < points; j++) {
    const y = -edge + j * step;
    let density = 0;
    for (let i = 0; i < at.length; i++) {
      const z = (y - at[i]! - move) / sd;
      if (z * z < 80) density += mass[i]! * Math.exp((-z * z) / 2);
    }
    const simpson = j === 0 || j === points - 1 ? 1 : j % 2 === 1 ? 4 : 2;
    next.at[j] = y;
    next.mass[j] = (density * height * simpson * step) / 3;
  }
  return next;
};

const start = (): Held => ({ at: new Float64Array([0]), mass: new Float64Array([1]) });

/**
 * Probability that a standard normal statistic with independent increments crosses its bounds (|Z| ≥ bound)
 * at one of its looks, the information being that at each look; with `drift`, where the score moves by so much
 * for each unit of information: the power. By numerical integration of what has not crossed yet.
 * Throws RangeError on mismatched or non-finite input and where the information does not rise.
 * Source: Armitage, McPherson & Rowe (1969), Journal of the Royal Statistical Society A 132.
 */
export const crossingProbability = (
  information: readonly number[],
  bounds: readonly number[],
  drift = 0,
): number => {
  checkLooks(information, bounds, 'bounds');
  let held = start();
  let crossed = 0;
  information.forEach((info, k) => {
    const more = info - (information[k - 1] ?? 0);
    const edge = bounds[k]! * Math.sqrt(info);
    crossed += beyond(held, edge, Math.sqrt(more), drift * more);
    held = within(held, edge, Math.sqrt(more), drift * more);
  });
  return crossed;
};

/** No bound is looked for beyond this many standard deviations. */
const farthest = 12;

/**
 * Bounds of |Z| at each look that spend just so much error in all: `spent[k]` is the probability of having
 * crossed by look k where nothing is wrong. Infinity where a look has nothing to spend.
 * Throws RangeError as `crossingProbability` does.
 * Source: Lan & DeMets (1983), Biometrika 70.
 */
export const sequentialBounds = (information: readonly number[], spent: readonly number[]): number[] => {
  checkLooks(information, spent, 'spent');
  let held = start();
  return information.map((info, k) => {
    const sd = Math.sqrt(info - (information[k - 1] ?? 0));
    const root = Math.sqrt(info);
    const wanted = spent[k]! - (spent[k - 1] ?? 0);
    let low = 0;
    let high = farthest;
    while (wanted > 1e-14 && high - low > 1e-9) {
      const middle = (low + high) / 2;
      if (beyond(held, middle * root, sd) > wanted) low = middle;
      else high = middle;
    }
    held = within(held, high * root, sd);
    return wanted > 1e-14 ? high : Number.POSITIVE_INFINITY;
  });
};

/**
 * Counts of hits among the first n trials that are too few or too many, at each look, where each trial hits
 * with probability `chance`: exact, each side spending half of what `spent` lets it by that look. `low` is
 * the most that is too few (−1 where none is), `high` the least that is too many. The looks are counts of
 * trials that rise.
 */
export const binomialBounds = (
  looks: readonly number[],
  spent: readonly number[],
  chance: number,
): { low: number; high: number }[] => {
  checkLooks(looks, spent, 'spent');
  let alive = new Float64Array([1]);
  let trials = 0;
  let spentLow = 0;
  let spentHigh = 0;
  return looks.map((look, k) => {
    while (trials < look) {
      const next = new Float64Array(alive.length + 1);
      alive.forEach((mass, hits) => {
        next[hits]! += mass * (1 - chance);
        next[hits + 1]! += mass * chance;
      });
      alive = next;
      trials++;
    }
    const most = spent[k]! / 2;
    let low = -1;
    while (low + 1 < alive.length && spentLow + alive[low + 1]! <= most) {
      spentLow += alive[low + 1]!;
      alive[low + 1] = 0;
      low++;
    }
    let high = alive.length;
    while (high - 1 > low && spentHigh + alive[high - 1]! <= most) {
      spentHigh += alive[high - 1]!;
      alive[high - 1] = 0;
      high--;
    }
    return { low, high };
  });
};
