/** How prices may move with time beside what an index says. */
export type TimeModel = 'none' | 'trend' | 'steps';

/** What predicting records by those before them came to: how far off, as a mean of absolute logs. */
export interface TimeTrial {
  /** Records that were predicted. */
  records: number;
  errors: Record<TimeModel, number>;
}

export interface TimeUsed {
  /** `index`: a series of prices, the public one or the owner's. */
  used: TimeModel | 'index';
  /**
   * Whether its owner has said so, or the records: `trial` has what that rests on, and is null where they are
   * too few to tell. Always null where the owner has said so.
   */
  by: 'owner' | 'records';
  trial: TimeTrial | null;
  /**
   * Factor of price in each stretch of years before the effective date, the latest first; empty without
   * steps.
   */
  steps: { from: number; to: number | null; factor: number }[];
}
