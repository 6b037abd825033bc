import type { FinishedWork } from '../../../db/records/bench/finished-work.ts';
import type { CarRecord } from '../../../db/records/cars/cars.ts';
import type { PartState } from '../../../valuation/types.ts';
import type { DisclosureFacts } from '../../../valuation/wording/disclosure-text.ts';

/**
 * What is to be said of a car's finish and the work on it; `work` is its newest record, `madeColour` what its
 * variation was made in.
 */
export const disclosureFacts = (
  car: Pick<CarRecord, 'finishState' | 'wornColour' | 'wornFinish' | 'restorerMark'>,
  made: { colour: string; parts: readonly PartState[] },
  work: FinishedWork | undefined,
): DisclosureFacts => ({
  finishState: car.finishState,
  madeColour: made.colour,
  wornColour: car.wornColour,
  wornFinish: car.wornFinish,
  parts: made.parts,
  mark: car.restorerMark,
  work: work
    ? {
        finishedOn: work.finishedOn,
        fidelity: work.fidelity,
        departures: work.departures,
        closure: work.closure,
        bearings: work.bearings,
        axles: work.axles,
        leftAsWas: work.leftAsWas,
        who: work.who,
      }
    : null,
});
