/** What the procedures answer about the work on cars. */
import type { Job } from '../../../db/records/jobs.ts';
import type { Season, SeasonCar } from '../../../db/records/seasons.ts';
import type { IsoDate, WorkStep } from '../../../valuation/index.ts';

/** The steps in force: the owner's newest version, or the project's starting points (version 0). */
export interface StepsView {
  version: number;
  /** Where they come from. */
  label: string;
  note: string;
  madeAt: string | null;
  steps: readonly WorkStep[];
}

export interface SeasonView extends Omit<Season, 'cars'> {
  cars: (SeasonCar & {
    inventoryNumber: string;
    /**
     * When work on it was finished after the season was made, and the hours that it took; null where it is
     * not or they are not known.
     */
    finishedOn: IsoDate | null;
    hoursTaken: number | null;
  })[];
}

/** A job with the number of its car. */
export interface JobView extends Job {
  inventoryNumber: string;
}
