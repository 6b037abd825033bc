import type {
  Closure,
  DeviationKind,
  FinishState,
  Grade,
  PlanKind,
  PlanLineKind,
  WorkKind,
} from '../words.ts';
import type { Guard } from './decision.ts';
import type { PartState } from './part-state.ts';
import type { Range, ThreePoint } from './units.ts';
import type { FactorySpecification, GradeShare, ShelfPart, WorkPlan } from './work.ts';

/** What the owner plans for a car. */
export interface RestorationPlan {
  /** The grade aimed at, if all goes well. */
  targetGrade: Grade;
  /**
   * The grades that the work can end in, with the chance of each; where it is left out, the workmanship of
   * the assumptions says.
   */
  grades?: GradeShare[];
  /** How it is closed; where it is left out, the closure shows. */
  closure?: Closure;
  kind: PlanKind;
  deviations: DeviationKind[];
  /**
   * Materials, parts, tools: each a three-point cost. `part` names a scarce part when it draws on
   * a limited stock.
   */
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
  /** What departs from the factory specification by the work that is recorded of it. */
  departures?: readonly DeviationKind[];
  plan: RestorationPlan | null;
  /** The owner's own plans to conserve it or to take it apart; those made from the car stand in. */
  care?: Partial<Record<WorkKind, Pick<WorkPlan, 'hours' | 'cost' | 'spoilChance' | 'spoiledShare'>>>;
  /** What the factory made of its variation, where that is known. */
  spec?: FactorySpecification;
  /** Spare parts on the shelf that fit it. */
  shelf?: ShelfPart[];
  /** The owner's own figures, which stand in where there is no evidence. */
  ownWorth: Range | null;
  /** Guards that the owner overrules for this car, each with the reason. */
  overruled?: { guard: Guard['kind']; reason: string }[];
}
