import { partsLog } from '../market/part-loss.ts';
import type { AssumptionSet, Fidelity, RestorationPlan, Subject } from '../types.ts';
import {
  type DeviationKind,
  deviationKinds,
  deviationOfOpening,
  deviationOfOtherPart,
  deviationOfReproduction,
} from '../words.ts';

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
const partsBesidesDeviations = (plan: RestorationPlan): RestorationPlan['partsAfter'] =>
  plan.partsAfter.filter(
    ({ part, originality }) => originality !== 'reproduction' || !deviationOfReproduction[part],
  );

/** Share left by a fidelity of nothing, so that its log stays finite. */
const leastFidelity = 0.01;

/** Log of the share of the price that a plan's fidelity leaves; a customised car's deviations are what makes it custom. */
export const fidelityLog = (plan: RestorationPlan, losses: AssumptionSet['deviationLoss']): number =>
  plan.kind === 'customise' ? 0 : Math.log(Math.max(leastFidelity, planFidelity(plan, losses).factor));

/**
 * Log of the share of the price that is left by what departs of a car as it stands, by the work that is recorded
 * of it. What its parts tell counts with its parts, "other part" too; a customised car's departures are what
 * makes it custom.
 */
export const standingLog = (
  { finishState, departures = [], parts }: Pick<Subject, 'finishState' | 'departures' | 'parts'>,
  losses: AssumptionSet['deviationLoss'],
): number => {
  if (departures.length === 0 || finishState === 'customised') return 0;
  const told = new Set<DeviationKind>();
  for (const { part, originality } of parts) {
    if (originality === 'reproduction' || originality === 'period replacement')
      told.add(deviationOfOtherPart);
    const deviation = originality === 'reproduction' ? deviationOfReproduction[part] : undefined;
    if (deviation) told.add(deviation);
  }
  const factor = deviationKinds
    .filter(kind => departures.includes(kind) && !told.has(kind))
    .reduce((left, kind) => left * Math.max(0, 1 - (losses[kind] ?? 0)), 1);
  return Math.log(Math.max(leastFidelity, factor));
};

/**
 * Log of the share of the price that is left by the parts of a finished plan, besides its deviations. "Other part" says
 * in one word what parts that are not original say one by one: both count once, by what costs more.
 */
export const plannedPartsLog = (
  plan: RestorationPlan,
  { partLoss, deviationLoss }: Pick<AssumptionSet, 'partLoss' | 'deviationLoss'>,
): number => {
  const parts = partsBesidesDeviations(plan);
  const all = partsLog(parts, partLoss);
  if (!plan.deviations.includes(deviationOfOtherPart)) return all;
  const missing = parts.filter(({ originality }) => originality === 'missing');
  const gone = partsLog(missing, partLoss);
  const deviations = plan.deviations.filter(kind => kind !== deviationOfOtherPart);
  const told = fidelityLog(plan, deviationLoss) - fidelityLog({ ...plan, deviations }, deviationLoss);
  return gone + Math.min(0, all - gone - told);
};
