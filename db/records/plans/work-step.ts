import type { ThreePoint } from '../../../valuation/types.ts';
import type { Hazard } from '../../../valuation/words.ts';
import { hazards } from '../../../valuation/words.ts';
import { readWords } from '../../codec.ts';

/** The columns that a step has in a plan and on the bench alike; minutes. */
interface StepRow {
  hands_low: number;
  hands_likely: number;
  hands_high: number;
  waiting_low: number;
  waiting_likely: number;
  waiting_high: number;
  hazards: string;
}

/** How long a step takes, in whole minutes, and what has to be minded in it, as its row has them. */
export const workToRow = (step: {
  id: string;
  name: string;
  part: string | null;
  hands: ThreePoint;
  waiting: ThreePoint;
  hazards: readonly Hazard[];
  why: unknown;
}) => ({
  step: step.id,
  name: step.name,
  part: step.part ?? '',
  hands_low: Math.round(step.hands.low),
  hands_likely: Math.round(step.hands.likely),
  hands_high: Math.round(step.hands.high),
  waiting_low: Math.round(step.waiting.low),
  waiting_likely: Math.round(step.waiting.likely),
  waiting_high: Math.round(step.waiting.high),
  hazards: JSON.stringify(step.hazards),
  why: JSON.stringify(step.why),
});

/** The minutes and hazards that a row says. */
export const rowToWork = (row: StepRow): { hands: ThreePoint; waiting: ThreePoint; hazards: Hazard[] } => ({
  hands: { low: row.hands_low, likely: row.hands_likely, high: row.hands_high },
  waiting: { low: row.waiting_low, likely: row.waiting_likely, high: row.waiting_high },
  hazards: readWords(row.hazards, hazards),
});
