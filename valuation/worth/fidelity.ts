import type { AssumptionSet, Fidelity, RestorationPlan } from '../types.ts';
import { type DeviationKind, deviationKinds, deviationOfOpening, type PartName } from '../words.ts';

/** Reproductions of these parts are deviations of their own; of any other part they count as a part's loss. */
const reproductionOf: Partial<Record<PartName, DeviationKind>> = {
  wheels: 'reproduction wheels',
  glazing: 'reproduction glazing',
  interior: 'reproduction interior',
  accessory: 'reproduction accessory',
  labels: 'reproduction labels',
};

/**
 * How closely a plan follows the factory specification: factor = Π (1 − loss of the deviation), each deviation once, those
 * that follow from reproduction parts included, and the visible closure always, because the work opens the car. A
 * customised car is custom whatever its factor.
 */
export const planFidelity = (plan: RestorationPlan, losses: AssumptionSet['deviationLoss']): Fidelity => {
  const found = new Set<DeviationKind>([...plan.deviations, deviationOfOpening]);
  for (const { part, originality } of plan.partsAfter) {
    const deviation = originality === 'reproduction' ? reproductionOf[part] : undefined;
    if (deviation) found.add(deviation);
  }
  const deviations = deviationKinds.filter(kind => found.has(kind));
  const factor = deviations.reduce((left, kind) => left * Math.max(0, 1 - (losses[kind] ?? 0)), 1);
  return { grade: plan.kind === 'customise' ? 'custom' : 'with deviations', factor, deviations };
};

/** The parts of a finished plan whose loss is not already told by a deviation. */
export const partsBesidesDeviations = (plan: RestorationPlan): RestorationPlan['partsAfter'] =>
  plan.partsAfter.filter(({ part, originality }) => originality !== 'reproduction' || !reproductionOf[part]);
