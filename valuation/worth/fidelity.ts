import type { AssumptionSet, Fidelity, RestorationPlan } from '../types.ts';
import { type DeviationKind, deviationKinds, deviationOfOpening, deviationOfReproduction } from '../words.ts';

/**
 * How closely a plan follows the factory specification: factor = Π (1 − loss of the deviation), each
 * deviation once, those that follow from reproduction parts included, and the visible closure, because the
 * work opens the car, unless it is closed as it was made. A customised car is custom whatever its factor.
 */
export const planFidelity = (plan: RestorationPlan, losses: AssumptionSet['deviationLoss']): Fidelity => {
  const found = new Set<DeviationKind>(plan.deviations);
  if (plan.closure === 'as made') found.delete(deviationOfOpening);
  else found.add(deviationOfOpening);
  for (const { part, originality } of plan.partsAfter) {
    const deviation = originality === 'reproduction' ? deviationOfReproduction[part] : undefined;
    if (deviation) found.add(deviation);
  }
  const deviations = deviationKinds.filter(kind => found.has(kind));
  const factor = deviations.reduce((left, kind) => left * Math.max(0, 1 - (losses[kind] ?? 0)), 1);
  return {
    grade:
      plan.kind === 'customise' ? 'custom' : deviations.length > 0 ? 'with deviations' : 'to specification',
    factor,
    deviations,
  };
};

/** The parts of a finished plan whose loss is not already told by a deviation. */
export const partsBesidesDeviations = (plan: RestorationPlan): RestorationPlan['partsAfter'] =>
  plan.partsAfter.filter(
    ({ part, originality }) => originality !== 'reproduction' || !deviationOfReproduction[part],
  );
