/** What the procedures answer about beliefs. */
import type {
  BeliefLevel,
  Currency,
  Diagnostics,
  FinishState,
  Grade,
  IsoDate,
  Minor,
  OwnAsideCause,
} from '../../../valuation/index.ts';

export interface BeliefView {
  id: number;
  level: BeliefLevel;
  /** Id and name of what it is about; a variation is named with its casting. */
  of: number;
  name: string;
  /** The casting of a belief about a casting or a variation. */
  castingId: number | null;
  grade: Grade;
  finishState: FinishState;
  low: Minor;
  high: Minor;
  currency: Currency;
  believedOn: IsoDate;
  note: string;
  /** Why it does not count, or null. */
  aside: OwnAsideCause | null;
  /** The sales since, against it; null where it does not count. */
  against: Diagnostics | null;
}

export interface AddedBeliefs {
  added: number;
  rejected: { row: number; reason: string }[];
}
