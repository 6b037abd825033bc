import type { AssumptionSet, PlannedPart, PlanWishes, WorkStep } from '../types.ts';
import type { Grade, Originality } from '../words.ts';
import type { CarState } from './car-state.ts';
import { reasonFor } from './step-answers.ts';

/** A part that a plan fits, with its grade. */
export type FittedPart = PlannedPart & { grade: Grade };

/**
 * Grade of a part that is fitted, where the shelf does not say: a reproduction is new, the others are used.
 */
const gradeFitted: Record<Exclude<Originality, 'missing'>, Grade> = {
  original: 8,
  'period replacement': 8,
  reproduction: 9,
};
/** Where a part is taken from, the dearest to the specification first. */
const shelfOrder: readonly Originality[] = ['original', 'period replacement', 'reproduction'];

/**
 * A part to fit: as its owner wishes, else from the shelf, the nearest to the specification and then the
 * cheapest first, or one to buy: what the step says, else a reproduction. A wish for a part that is no longer on the shelf is as if there
 * were none.
 */
export const partToFit = (
  step: WorkStep,
  car: CarState,
  assumptions: AssumptionSet,
  wishes: PlanWishes,
): FittedPart => {
  const part = step.part!;
  const why = reasonFor(step, car);
  const wish = wishes.fit?.[part];
  if (wish?.from === 'buy')
    return {
      part,
      from: 'buy',
      name: '',
      originality: wish.originality,
      cost: wish.cost,
      why: { kind: 'owner' },
      grade: gradeFitted[wish.originality],
    };
  const fits = (car.subject.shelf ?? []).filter(one => one.part === part);
  const [nearest] = fits.toSorted(
    (a, b) =>
      shelfOrder.indexOf(a.originality) - shelfOrder.indexOf(b.originality) ||
      a.cost - b.cost ||
      (a.name < b.name ? -1 : 1),
  );
  const found = fits.find(({ name }) => name === wish?.name) ?? nearest;
  if (found)
    return {
      part,
      from: 'shelf',
      name: found.name,
      originality: found.originality,
      cost: { low: found.cost, likely: found.cost, high: found.cost },
      why,
      grade: found.grade ?? gradeFitted[found.originality],
    };
  const { originality, cost } = step.buys ?? {
    originality: 'reproduction' as const,
    cost: assumptions.standardPlan.replacedPart,
  };
  return { part, from: 'buy', name: '', originality, cost, why, grade: gradeFitted[originality] };
};
