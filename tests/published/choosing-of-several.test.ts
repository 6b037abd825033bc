import { describe, expect, it } from 'vitest';
import { chooseSeason } from '../../valuation/index.ts';
import groups from './data/knapsack-of-groups.json' with { type: 'json' };

type Problem = (typeof groups.problems)[number];

const kinds = ['conserve', 'restore', 'customise', 'donor'] as const;
const parts = (use: readonly number[]) => Object.fromEntries(use.map((one, i) => [`constraint ${i}`, one]));

/**
 * The best by trying all 100,000 choices, apart from the code; `exactly` one of each group, or one at most.
 */
const tried = ({ groups: list, limits }: Problem, exactly: boolean): number => {
  let best = Number.NEGATIVE_INFINITY;
  const go = (at: number, profit: number, left: readonly number[]) => {
    if (left.some(one => one < 0)) return;
    if (at === list.length) {
      best = Math.max(best, profit);
      return;
    }
    if (!exactly) go(at + 1, profit, left);
    for (const [value, ...use] of list[at]!)
      go(
        at + 1,
        profit + value!,
        left.map((one, i) => one - use[i]!),
      );
  };
  go(0, 0, limits);
  return best;
};

const chosen = ({ groups: list, limits }: Problem, exactly: boolean) =>
  chooseSeason(
    {
      cars: list.map((items, i) => ({
        id: i + 1,
        castingId: null,
        must: exactly,
        // More things than can be done with a car: the engine does not ask what they are.
        options: items.map(([gain, ...use], k) => ({
          option: kinds[k % kinds.length]!,
          gain: gain!,
          hours: use[0]!,
          cash: use[1]!,
          parts: parts(use.slice(2)),
        })),
      })),
      limits: { hours: limits[0]!, cash: limits[1]!, parts: parts(limits.slice(2)) },
    },
    { gap: 0 },
  );

/*
 * The instances are published (the source stands in the file); their optima are spread in a sheet that could
 * not be read here, so that the optimum is found by trying all choices. It is read into the test as well, so
 * that neither search can drift with the other.
 */
describe(`choosing one of several under limits: ${groups.source}`, () => {
  it.each([
    ['1.1', 401],
    ['1.3', 487],
  ])('problem %s, exactly one of each group: %i', async (name, optimum) => {
    const problem = groups.problems.find(one => one.name === name)!;
    expect(tried(problem, true)).toBe(optimum);
    const { taken, gain, used } = await chosen(problem, true);
    expect(gain).toBe(optimum);
    expect(taken).toHaveLength(problem.groups.length);
    expect(used.hours).toBeLessThanOrEqual(problem.limits[0]!);
    expect(used.cash).toBeLessThanOrEqual(problem.limits[1]!);
  });

  it.each(groups.problems)('problem $name, at most one of each group', async problem => {
    const { gain } = await chosen(problem, false);
    expect(gain).toBe(tried(problem, false));
  });
});
