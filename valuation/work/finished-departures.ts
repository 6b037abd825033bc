import type { PartState } from '../types.ts';
import {
  type Closure,
  type DeviationKind,
  deviationKinds,
  deviationOfColour,
  deviationOfOpening,
  deviationOfReproduction,
  type FidelityGrade,
  type FinishState,
  type WorkKind,
} from '../words.ts';

/** What was done to a car, as far as it tells what departs from the factory specification. */
export interface WorkDone {
  kind: WorkKind;
  finishState: FinishState;
  /** The colour that it wears now; empty where it is not said. */
  colour: string;
  closure: Closure | 'not opened' | '';
  /** It was opened, by the steps that are done; a closure that is said goes before it. */
  opened?: boolean;
  parts: readonly PartState[];
  /** The departures that its owner has ticked. */
  departures: readonly DeviationKind[];
  fidelity: FidelityGrade | null;
}

/** True where two colours are called the same, whatever their case. */
export const sameColour = (one: string, other: string): boolean =>
  one.trim().toLowerCase() === other.trim().toLowerCase();

/**
 * Every departure that follows from what was done, whether or not it was ticked: nothing that is known may be
 * left unsaid.
 */
export const finishedDepartures = (work: WorkDone, madeColour: string): DeviationKind[] => {
  const found = new Set<DeviationKind>(work.departures);
  const { closure, opened = false } = work;
  if (closure === 'screw' || closure === 'rivet' || closure === 'glue' || (closure === '' && opened))
    found.add(deviationOfOpening);
  if (work.colour !== '' && madeColour !== '' && !sameColour(work.colour, madeColour))
    found.add(deviationOfColour);
  for (const { part, originality } of work.parts) {
    const departs = originality === 'reproduction' ? deviationOfReproduction[part] : undefined;
    if (departs) found.add(departs);
  }
  return deviationKinds.filter(kind => found.has(kind));
};

/** How closely finished work follows the factory; null where it is no work of painting, or not said. */
export const finishedFidelity = (
  work: WorkDone,
  departures: readonly DeviationKind[],
): FidelityGrade | null => {
  if (work.kind === 'customise' || work.finishState === 'customised') return 'custom';
  if (work.kind !== 'restore') return null;
  return departures.length > 0 ? 'with deviations' : work.fidelity;
};
