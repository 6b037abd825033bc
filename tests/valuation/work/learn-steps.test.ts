import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  credibilityOf,
  type DoneStep,
  learnSteps,
  learnWorkmanship,
  meanShort,
  withLearned,
} from '../../../valuation/work/learn-steps.ts';
import { startingSteps } from '../../../valuation/work/steps/index.ts';

const steps = startingSteps('USD');
const strip = steps.find(({ id }) => id === 'strip')!;
const done = (known: Partial<DoneStep> = {}): DoneStep => ({
  id: 'strip',
  minutes: null,
  cost: null,
  spoiled: false,
  ...known,
});

describe('what own jobs say of steps', () => {
  it('weighs six jobs 70 % and the starting point 30 %', () => {
    expect(credibilityOf(0)).toBe(0);
    expect(Math.round(credibilityOf(6) * 100)).toBe(71);
    const [learned] = learnSteps(
      steps,
      Array.from({ length: 6 }, () => done({ minutes: 60 })),
    );
    // Likely 20 minutes, six jobs of 60: 20 · 3^(6 / 8.5) = 43.4.
    expect(learned).toMatchObject({
      id: 'strip',
      hands: { jobs: 6, before: strip.hands, after: { low: 22, likely: 43, high: 87 } },
    });
    expect(learned!.hands!.own).toBeCloseTo(60, 9);
    const after = withLearned(steps, [learned!]);
    expect(after.find(({ id }) => id === 'strip')?.hands.likely).toBe(43);
    expect(after.filter(step => !steps.includes(step))).toHaveLength(1);
  });

  it('moves materials by the same rule, and a chance of spoiling by little', () => {
    const jobs = [done({ cost: 280 }), done({ cost: 280, spoiled: true })];
    const [learned] = learnSteps(steps, jobs);
    // Likely 1.40, two jobs of 2.80: 140 · 2^(2 / 4.5) = 190.5.
    expect(learned?.cost?.after.likely).toBe(191);
    // Two jobs weigh 2 / 52, and one of them spoiled the car.
    expect(learned?.spoilChance?.after).toBeCloseTo((50 * 0.002 + 1) / 52, 4);
    const [step] = withLearned([strip], [learned!]);
    expect(step?.materials[0]?.cost.likely).toBe(191);
  });

  it('says nothing of steps that were not done, or of which nothing was counted', () => {
    expect(learnSteps(steps, [])).toEqual([]);
    expect(learnSteps(steps, [done({ id: 'no-such-step', minutes: 5 })])).toEqual([]);
    expect(learnSteps(steps, [done()])[0]?.hands).toBeUndefined();
  });

  it('stays between what stands and what the jobs say, the nearer to them the more there are', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 1, max: 40 }), (minutes, count) => {
        const likely = (jobs: number) =>
          learnSteps(
            steps,
            Array.from({ length: jobs }, () => done({ minutes })),
          )[0]!.hands!.after.likely;
        const now = likely(count);
        expect(now).toBeGreaterThanOrEqual(Math.min(20, minutes));
        expect(now).toBeLessThanOrEqual(Math.max(20, minutes));
        expect(Math.abs(likely(count + 1) - minutes)).toBeLessThanOrEqual(Math.abs(now - minutes));
        const { low, high } = learnSteps(steps, [done({ minutes })])[0]!.hands!.after;
        expect(low).toBeLessThanOrEqual(high);
      }),
    );
  });
});

describe('what own jobs say of the grade that work ends in', () => {
  const before = [
    { short: 0, share: 0.5 },
    { short: 1, share: 0.5 },
  ];
  it('moves the shares, which still add up to 1', () => {
    const learned = learnWorkmanship(
      before,
      Array.from({ length: 10 }, () => ({ aim: 9, reached: 7 })),
    )!;
    expect(learned.after).toEqual([
      { short: 0, share: 0.25 },
      { short: 1, share: 0.25 },
      { short: 2, share: 0.5 },
    ]);
    expect(meanShort(learned.after)).toBeCloseTo(1.25, 12);
    expect(learned.own).toBe(2);
  });
  it('takes work that came out better as falling short by nothing, and is silent without jobs', () => {
    expect(learnWorkmanship(before, [{ aim: 8, reached: 9 }])!.own).toBe(0);
    expect(learnWorkmanship(before, [])).toBeUndefined();
  });
});
