import type { FinishedWork } from '../../../db/records/bench/finished-work.ts';
import type { CarRecord } from '../../../db/records/cars/cars.ts';
import type { PartState } from '../../../valuation/types.ts';
import type { DisclosureFacts } from '../../../valuation/wording/cars/disclosure-text.ts';
import { standingWork } from '../../../valuation/wording/cars/disclosure-work.ts';

/**
 * What is to be said of a car's finish and the work on it; `works` are its records, the newest first, `made` what
 * its variation was made in, and its parts.
 */
export const disclosureFacts = (
  car: Pick<CarRecord, 'finishState' | 'wornColour' | 'wornFinish' | 'restorerMark'>,
  made: { colour: string; parts: readonly PartState[] },
  works: readonly FinishedWork[],
): DisclosureFacts => ({
  finishState: car.finishState,
  madeColour: made.colour,
  wornColour: car.wornColour,
  wornFinish: car.wornFinish,
  parts: made.parts,
  mark: car.restorerMark,
  work: standingWork(works),
});
