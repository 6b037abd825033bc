/** What the procedures answer about beliefs. */
import type { Belief, Diagnostics, OwnAsideCause } from '../../../valuation/index.ts';

export interface BeliefView extends Belief {
  /** What it is about; a variation is named with its casting. */
  name: string;
  /** The casting of a belief about a casting or a variation. */
  castingId: number | null;
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
