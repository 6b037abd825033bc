import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import {
  deviationKinds,
  finishStates,
  grades,
  originalities,
  partNames,
  workKinds,
} from '../../../valuation/words.ts';
import { planFromCar, restorationPlanOf } from '../../../valuation/work/plan-from-car.ts';
import { planFidelity } from '../../../valuation/worth/fidelity.ts';
import { valueCar } from '../../../valuation/worth/value-car.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';
import { graded, spec } from '../../helpers/part-states.ts';

const assumptions = defaultAssumptions('USD');
const partStates = fc.uniqueArray(
  fc.record({
    part: fc.constantFrom(...partNames),
    grade: fc.option(fc.constantFrom(...grades), { nil: null }),
    originality: fc.constantFrom(...originalities),
  }),
  { selector: ({ part }) => part },
);

const cars = fc
  .record({
    grade: fc.option(fc.constantFrom(...grades), { nil: null }),
    finishState: fc.constantFrom(...finishStates),
    parts: partStates,
    spec: fc.option(
      fc.record({
        bodyFinish: fc.constantFrom('candy lacquer', 'enamel', 'bright plate', 'bare metal', '', 'odd words'),
        basePaint: fc.constantFrom('', 'none', 'full'),
        roof: fc.constantFrom('', 'body colour', 'black'),
        rearEnd: fc.constantFrom('', 'bar lamp'),
        accessory: fc.constantFrom('', 'roof rack'),
        captiveBearings: fc.boolean(),
      }),
      { nil: undefined },
    ),
  })
  .map(({ spec: given, ...rest }) => subjectOf({ ...rest, ...(given && { spec: spec(given) }) }));
const kinds = fc.constantFrom(...workKinds);

describe('plans made from cars', () => {
  it('are the same when made twice', () => {
    fc.assert(
      fc.property(cars, kinds, (car, kind) => {
        const again = structuredClone(car);
        expect(planFromCar(again, assumptions, kind)).toEqual(planFromCar(car, assumptions, kind));
      }),
    );
  });

  it('never have more steps for a better part', () => {
    fc.assert(
      fc.property(cars, kinds, fc.nat(), fc.constantFrom(...grades), (car, kind, place, better) => {
        const of = car.parts[place % Math.max(1, car.parts.length)];
        fc.pre(of?.grade != null && of.grade < better);
        const parts = car.parts.map(part => (part === of ? { ...part, grade: better } : part));
        const worse = planFromCar(car, assumptions, kind).lines.length;
        expect(planFromCar({ ...car, parts }, assumptions, kind).lines.length).toBeLessThanOrEqual(worse);
      }),
    );
  });

  it('never have more steps for a better part: every part, every grade, every kind', () => {
    for (const kind of workKinds)
      for (const part of partNames) {
        const stepsAt = (grade: number) =>
          planFromCar(subjectOf({ grade: 5, parts: [graded(part, grade)], spec: spec() }), assumptions, kind)
            .lines.length;
        const counts = grades.map(stepsAt);
        expect(counts, `${kind}: ${part}`).toEqual(counts.toSorted((a, b) => b - a));
      }
  });

  it('never gain fidelity by a departure, and always tell every one that they bring', () => {
    fc.assert(
      fc.property(cars, fc.subarray([...deviationKinds]), (car, departures) => {
        const plain = restorationPlanOf(planFromCar(car, assumptions));
        const wished = restorationPlanOf(planFromCar(car, assumptions, 'restore', { departures }));
        const factor = (plan: typeof plain) => planFidelity(plan, assumptions.deviationLoss).factor;
        expect(factor(wished)).toBeLessThanOrEqual(factor(plain));
        for (const plan of [plain, wished])
          expect(planFidelity(plan, assumptions.deviationLoss).deviations.toSorted()).toEqual(
            [...new Set(plan.deviations)].toSorted(),
          );
      }),
    );
  });

  it('end in grades that add up and never rise above the aim', () => {
    fc.assert(
      fc.property(cars, kinds, (car, kind) => {
        const { grades: ends, aim } = planFromCar(car, assumptions, kind);
        expect(ends.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
        for (const { grade } of ends) {
          expect(grade).toBeLessThanOrEqual(aim);
          expect(grades).toContain(grade);
        }
      }),
    );
  });
});

describe('a departure that is wanted besides', () => {
  const { market, on } = simulateMarket({ seed: 5 });
  const fitted = fitMarket(market, assumptions, on);
  it('never raises what the car is worth restored', () => {
    let compared = 0;
    for (const [i, variation] of market.variations.slice(0, 12).entries())
      for (const kind of deviationKinds) {
        const car = subjectOf({
          castingId: variation.castingId,
          variationId: variation.id,
          grade: 2 + (i % 6),
        });
        const worth = (departures: (typeof kind)[]) =>
          valueCar(fitted, {
            ...car,
            plan: restorationPlanOf(planFromCar(car, assumptions, 'restore', { departures })),
          }).restored;
        const [without, with_] = [worth([]), worth([kind])];
        if (!without || !with_) continue;
        expect(with_.logMean, kind).toBeLessThanOrEqual(without.logMean + 1e-12);
        compared += 1;
      }
    expect(compared).toBeGreaterThan(50);
  });
});
