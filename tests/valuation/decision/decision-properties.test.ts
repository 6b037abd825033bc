import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { worthWithMid } from '../../../valuation/decision/break-even.ts';
import {
  decideCar,
  defaultAssumptions,
  fitMarket,
  recommendCar,
  valueCar,
} from '../../../valuation/index.ts';
import type { RestorationPlan } from '../../../valuation/types.ts';
import { deviationKinds, finishStates, grades, options } from '../../../valuation/words.ts';
import { planFidelity } from '../../../valuation/worth/fidelity.ts';
import { proposedPlan } from '../../../valuation/worth/standard-plan.ts';
import { on, subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';

const { market } = simulateMarket({ seed: 11, series: 3, castingsPerSeries: 6 });
const assumptions = defaultAssumptions('USD');
const fitted = fitMarket(market, assumptions, on);
const overruled = [
  { guard: 'keep-grade' as const, reason: 'wanted red' },
  { guard: 'rarity' as const, reason: 'wanted red' },
];

const plans: fc.Arbitrary<RestorationPlan> = fc
  .record({
    targetGrade: fc.constantFrom(7, 8, 8.5, 9, 9.5),
    kind: fc.constantFrom('restore' as const, 'customise' as const),
    deviations: fc.subarray([...deviationKinds], { maxLength: 3 }),
    cost: fc.integer({ min: 0, max: 4000 }),
    spread: fc.constantFrom(0, 0.3),
    spoilChance: fc.constantFrom(0, 0.02, 0.1),
  })
  .map(({ cost, spread, ...plan }) => ({
    ...plan,
    lines: [
      {
        name: 'all of it',
        kind: 'material' as const,
        cost: { low: Math.round(cost * (1 - spread)), likely: cost, high: Math.round(cost * (1 + spread)) },
      },
    ],
    hours: { low: 0, likely: 0, high: 0 },
    spoiledShare: 0.4,
    partsAfter: [],
  }));

const cars = fc.record({
  variationId: fc.constantFrom(...market.variations.map(({ id }) => id)),
  grade: fc.constantFrom(...grades),
  finishState: fc.constantFrom(...finishStates),
  plan: fc.option(plans, { nil: null, freq: 6 }),
});

describe('a decision', () => {
  it('flips exactly at the stated break-even worth', () => {
    let flips = 0;
    fc.assert(
      fc.property(cars, car => {
        const subject = subjectOf({ ...car, overruled });
        const valuation = valueCar(fitted, subject);
        const { breakEven } = decideCar(fitted, subject, valuation);
        fc.pre(breakEven !== null);
        const planned = subject.plan?.kind ?? 'restore';
        const at = (mid: number) =>
          decideCar(fitted, subject, { ...valuation, restored: worthWithMid(valuation.restored!, mid) })
            .recommendation;
        expect(at(breakEven!.restoredWorth)).toBe(planned);
        if (breakEven!.restoredWorth > 1) {
          expect(at(breakEven!.restoredWorth - 1)).not.toBe(planned);
          flips++;
        }
      }),
      { numRuns: 200 },
    );
    expect(flips).toBeGreaterThan(50);
  });

  it('flips exactly at the stated break-even cost', () => {
    let flips = 0;
    fc.assert(
      fc.property(cars, plans, (car, plan) => {
        const certain = (cost: number): RestorationPlan => ({
          ...plan,
          lines: [{ name: 'all of it', kind: 'material', cost: { low: cost, likely: cost, high: cost } }],
        });
        const decide = (cost: number) =>
          decideCar(fitted, subjectOf({ ...car, plan: certain(cost), overruled }));
        const { breakEven } = decide(plan.lines[0]!.cost.likely);
        fc.pre(breakEven !== null);
        expect(decide(breakEven!.cost).recommendation).not.toBe(plan.kind);
        if (breakEven!.cost > 0) {
          expect(decide(breakEven!.cost - 1).recommendation).toBe(plan.kind);
          flips++;
        }
      }),
      { numRuns: 200 },
    );
    expect(flips).toBeGreaterThan(15);
  });

  it('is the same decision in a list and on the car’s page, and the same every time', () => {
    fc.assert(
      fc.property(cars, car => {
        const subject = subjectOf(car);
        const decision = decideCar(fitted, subject);
        const { plan, options: inShort, guards, ...inList } = recommendCar(fitted, subject);
        expect(decision).toMatchObject(inList);
        for (const { guarded, passes, ...short } of inShort) {
          const full = decision.options.find(({ option }) => option === short.option)!;
          expect(full).toMatchObject(short);
          const { leastGain, leastProbability } = assumptions.decision;
          expect(passes).toBe(
            short.expectedGain > 0 &&
              short.expectedGain >= leastGain &&
              short.probability >= leastProbability,
          );
          expect(guarded).toBe(full.guards.some(guard => !guard.overruled) || full.note !== undefined);
        }
        const ofPlan = decision.options.find(({ option }) => option === (car.plan?.kind ?? 'restore'))!;
        expect(ofPlan).toMatchObject({
          expectedGain: plan!.expectedGain,
          probability: plan!.probability,
          cost: plan!.cost,
        });
        expect(guards).toEqual(ofPlan.guards);
        expect(JSON.stringify(decideCar(fitMarket(market, assumptions, on), subject))).toBe(
          JSON.stringify(decision),
        );
      }),
      { numRuns: 25 },
    );
  });

  it('recommends the highest expected gain among what passes, and never what a guard stands against', () => {
    fc.assert(
      fc.property(cars, car => {
        const { recommendation, options: results, best } = decideCar(fitted, subjectOf(car));
        expect(results.map(({ option }) => option)).toEqual([...options]);
        const free = results.filter(r => !r.note && r.guards.every(guard => guard.overruled));
        const gainOf = (option: string) => results.find(r => r.option === option)!.expectedGain;
        expect(free.map(({ option }) => option)).toContain(recommendation);
        const { leastGain, leastProbability } = assumptions.decision;
        for (const { option, expectedGain, probability } of free) {
          expect(expectedGain).toBeLessThanOrEqual(gainOf(best));
          if (option !== 'leave' && expectedGain > leastGain && probability >= leastProbability)
            expect(expectedGain).toBeLessThanOrEqual(gainOf(recommendation));
        }
        if (recommendation !== 'leave') expect(gainOf(recommendation)).toBeGreaterThanOrEqual(leastGain);
      }),
      { numRuns: 200 },
    );
  });

  it('agrees with its own range: gain quantiles are in order and the chance is on their side', () => {
    fc.assert(
      fc.property(cars, car => {
        for (const { option, gain, probability } of decideCar(fitted, subjectOf(car)).options) {
          expect(gain.low).toBeLessThanOrEqual(gain.mid);
          expect(gain.mid).toBeLessThanOrEqual(gain.high);
          if (option === 'leave') continue;
          if (gain.low > 0) expect(probability).toBeGreaterThan(0.88);
          if (gain.high < 0) expect(probability).toBeLessThan(0.12);
          if (gain.mid > 0) expect(probability).toBeGreaterThan(0.48);
          if (gain.mid < 0) expect(probability).toBeLessThan(0.52);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('fidelity', () => {
  it('never rises with a deviation, nor does the worth that rests on it', () => {
    fc.assert(
      fc.property(cars, plans, fc.constantFrom(...deviationKinds), (car, plan, deviation) => {
        const further = { ...plan, deviations: [...plan.deviations, deviation] };
        const before = planFidelity(plan, assumptions.deviationLoss);
        const after = planFidelity(further, assumptions.deviationLoss);
        expect(after.factor).toBeLessThanOrEqual(before.factor);
        expect(after.deviations).toContain(deviation);
        const worth = (p: RestorationPlan) => valueCar(fitted, subjectOf({ ...car, plan: p })).restored!;
        for (const end of ['low', 'mid', 'high'] as const)
          expect(worth(further)[end]).toBeLessThanOrEqual(worth(plan)[end]);
      }),
      { numRuns: 200 },
    );
  });
});

describe('the proposed plan', () => {
  it('stands in for a missing one to the last figure', () => {
    fc.assert(
      fc.property(cars, car => {
        const bare = subjectOf({ ...car, plan: null });
        const planned = { ...bare, plan: proposedPlan(bare, assumptions) };
        expect(valueCar(fitted, planned)).toEqual(valueCar(fitted, bare));
        const { reasons, ...decision } = decideCar(fitted, bare);
        expect(decideCar(fitted, planned)).toMatchObject(decision);
        expect(reasons).toContainEqual({ kind: 'plan-from-car' });
      }),
      { numRuns: 50 },
    );
  });
});
