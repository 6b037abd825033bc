import type {
  DeviationKind,
  FinishState,
  Grade,
  Originality,
  PartName,
  PlanKind,
  PlanLineKind,
} from '../words.ts';
import type { Guard } from './decision.ts';
import type { Range, ThreePoint } from './units.ts';

/** A part of a car as it stands. */
export interface PartState {
  part: PartName;
  grade: Grade | null;
  originality: Originality;
}

/** What the owner plans for a car. */
export interface RestorationPlan {
  targetGrade: Grade;
  kind: PlanKind;
  deviations: DeviationKind[];
  /** Materials, parts, tools: each a three-point cost. `part` names a scarce part when it draws on a limited stock. */
  lines: {
    name: string;
    kind: PlanLineKind;
    cost: ThreePoint;
    part?: string;
    quantity?: number;
  }[];
  hours: ThreePoint;
  /** Chance 0…1 that a step spoils the car, and the share of its as-found worth that is left then. */
  spoilChance: number;
  spoiledShare: number;
  /** Parts that the restoration leaves as they are or replaces, by name; the others count as original. */
  partsAfter: PartState[];
}

/** One car to be valued. */
export interface Subject {
  id: number;
  castingId: number | null;
  variationId: number | null;
  /** Variations that it may be when `variationId` is null. */
  candidates: number[];
  grade: Grade | null;
  finishState: FinishState;
  parts: PartState[];
  plan: RestorationPlan | null;
  /** The owner's own figures, which stand in where there is no evidence. */
  ownWorth: Range | null;
  /** Guards that the owner overrules for this car, each with the reason. */
  overruled?: { guard: Guard['kind']; reason: string }[];
}
