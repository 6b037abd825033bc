import type {
  Closure,
  DeviationKind,
  FinishState,
  finishKinds,
  Grade,
  Hazard,
  Originality,
  PartName,
  WorkKind,
} from '../words.ts';
import type { PartState } from './part-state.ts';
import type { Minor, ThreePoint } from './units.ts';

/** How the body was finished at the factory; it decides what is done to the bare metal. */
export type FinishKind = (typeof finishKinds)[number];

/**
 * What the factory made of a variation, in the words of the reference; an empty text where
 * nothing is recorded.
 */
export interface FactorySpecification {
  bodyFinish: string;
  basePaint: string;
  roof: string;
  rearEnd: string;
  accessory: string;
  glazing: string;
  interior: string;
  /** The parts that the casting has; null where its parts are not listed, and the usual ones are taken. */
  parts: PartName[] | null;
  /** The wheel bearings go when the wheels are pulled. */
  captiveBearings: boolean;
}

/** A spare part that fits the car. */
export interface ShelfPart {
  name: string;
  part: PartName;
  originality: Exclude<Originality, 'missing'>;
  /** Minor units of the reporting currency for one. */
  cost: Minor;
  grade: Grade | null;
}

/** A grade, and the chance 0…1 of ending in it. */
export interface GradeShare {
  grade: Grade;
  share: number;
}

/** How plans are made. */
export interface WorkAssumptions {
  /** A car without a plan of its own is judged by a plan made from the car, or by the standard plan. */
  plansFrom: 'car' | 'standard';
  /**
   * By how many grade points work falls short of what was aimed at, and how often; the shares add up to 1.
   */
  workmanship: { short: number; share: number }[];
  /**
   * The owner's steps; the starting steps where it is left out. Money in minor units of
   * the reporting currency.
   */
  steps?: readonly WorkStep[];
}

/** Facts that call for a step; all that are given must hold. */
export interface StepCall {
  /** The part's grade is below this; where the part is not graded, the car's grade counts. */
  below?: Grade;
  /** The part's grade is at least this, so that another step takes the worse ones. */
  from?: Grade;
  /** The part has been graded itself: a grade that is only taken from the car calls for nothing. */
  graded?: true;
  originality?: Originality[];
  finishStates?: FinishState[];
  bodyFinish?: FinishKind[];
  closures?: Closure[];
  /** The bearings go with the wheels when they are pulled, or do not. */
  captiveBearings?: boolean;
  /** The specification has the base painted, a roof or a tail finished apart. */
  specified?: 'base painted' | 'roof apart' | 'tail apart';
  /** The part has to be replaced: it is missing, or below `StepCall.below`. */
  replace?: true;
  /** Nothing calls for it: it is done where its owner asks for it. */
  asked?: true;
}

/** A part that is bought where the shelf has none: its origin, and its price in minor units. */
export interface BoughtPart {
  originality: Exclude<Originality, 'missing'>;
  cost: ThreePoint;
}

/** One step of work, as data. Times in minutes, money in minor units of the reporting currency. */
export interface WorkStep {
  /** Its key within the collection: lower case, words joined by hyphens. */
  id: string;
  name: string;
  /** The kinds of work that it belongs to. */
  kinds: readonly WorkKind[];
  /** The part that it works on and whose state it answers; null where it is about the whole car. */
  part: PartName | null;
  call: StepCall;
  /** Steps that come before it wherever they are in the plan. */
  after: readonly string[];
  /** Own hands at work. */
  hands: ThreePoint;
  /** What runs by itself: drying, soaking, plating. */
  waiting: ThreePoint;
  materials: readonly { name: string; kind: 'material' | 'tool'; cost: ThreePoint }[];
  hazards: readonly Hazard[];
  /** Chance 0…1 that it spoils the car, and the share of its worth as found that is left then. */
  spoilChance: number;
  spoiledShare: number;
  /**
   * What it does to the grade of its part: so many points, at most up to a grade; null where it does nothing.
   */
  grade: { gain: number; upTo: Grade } | null;
  /** What it makes of the originality of its part; null where that stays, or is that of the part that is fitted. */
  leaves: Exclude<Originality, 'missing'> | null;
  /** Parts that go when it is done, so that others are needed. */
  takes: readonly PartName[];
  /** What a step that replaces its part buys where the shelf has none; null for what the assumptions say. */
  buys: BoughtPart | null;
  /** Steps, by id, whose place it takes where it is done. */
  insteadOf: readonly string[];
  /** Departures from the factory specification that it brings. */
  brings: readonly DeviationKind[];
}

/** Why a line stands in a plan, as a fact; `wording/work-text.ts` makes its words. */
export type WorkReason =
  | { kind: 'always' }
  | { kind: 'part-grade'; part: PartName; grade: Grade; assumed: boolean; after: Grade | null }
  | { kind: 'part-originality'; part: PartName; originality: Originality }
  | { kind: 'lost-in-stripping'; part: PartName }
  | { kind: 'lost-in-step'; part: PartName; step: string }
  | { kind: 'finish-state'; finishState: FinishState }
  | { kind: 'body-finish'; finish: FinishKind; words: string }
  | { kind: 'closure'; closure: Closure }
  | { kind: 'bearings'; captive: boolean }
  | { kind: 'specification'; part: PartName; words: string }
  | { kind: 'owner' };

/** A step as a plan has it. */
export interface WorkLine
  extends Omit<WorkStep, 'kinds' | 'call' | 'grade' | 'leaves' | 'takes' | 'buys' | 'insteadOf'> {
  why: WorkReason;
}

/** A part that a plan fits, and where it comes from. */
export interface PlannedPart {
  part: PartName;
  from: 'shelf' | 'buy' | 'leave off';
  /** What it is called on the shelf; empty for one to buy. */
  name: string;
  originality: Originality;
  cost: ThreePoint;
  why: WorkReason;
}

/** A departure from the factory specification, and the step or part that brings it. */
export interface PlannedDeparture {
  kind: DeviationKind;
  from: { step: string } | { part: PartName };
}

/** What is to be done to a car, made from the car. */
export interface WorkPlan {
  kind: WorkKind;
  /** In the order in which to do them. */
  lines: WorkLine[];
  parts: PlannedPart[];
  departures: PlannedDeparture[];
  closure: Closure | null;
  /**
   * Own hands, in hours: the sums of the lines' lows, likelies and highs, because a slow hand is
   * slow at all of them.
   */
  hours: ThreePoint;
  /** What runs by itself, in hours. */
  waiting: ThreePoint;
  /** Materials, tools and parts, in minor units: sums in the same way. */
  cost: ThreePoint;
  /**
   * The grade aimed at, the part that holds it down (null where none does), and the grades
   * that it can end in.
   */
  aim: Grade;
  heldBy: PartName | null;
  grades: GradeShare[];
  partsAfter: PartState[];
  spoilChance: number;
  spoiledShare: number;
  hazards: Hazard[];
}

/** What an owner changes of a line; what is left out stays as the step has it. */
export interface LineChange {
  name?: string;
  /** Minutes. */
  hands?: ThreePoint;
  waiting?: ThreePoint;
  /** Stands for all its materials, in minor units of the reporting currency. */
  cost?: ThreePoint;
  /** What its new name adds to the hazards of the step. */
  hazards?: readonly Hazard[];
}

/** A line of the owner's own. */
export interface OwnLine {
  /** Its key within the plan, apart from those of the steps. */
  id: string;
  name: string;
  part: PartName | null;
  hands: ThreePoint;
  waiting: ThreePoint;
  cost: ThreePoint;
  hazards: readonly Hazard[];
  /** The line behind which it stands; null for the end. */
  behind: string | null;
}

/** Where a part is to come from, if not from where the plan would take it. */
export type PartChoice =
  | { from: 'shelf'; name: string }
  | { from: 'buy'; originality: Exclude<Originality, 'missing'>; cost: ThreePoint };

/** What an owner asks of a plan that is made from the car. */
export interface PlanWishes {
  /** The grade to aim at; the standard plan's where it is left out. */
  aim?: Grade;
  closure?: Closure;
  /** Steps that are not to be done, by id. */
  without?: readonly string[];
  /** Steps to be done though nothing calls for them, by id. */
  also?: readonly string[];
  /** Changed lines, by the id of their step. */
  changed?: Readonly<Record<string, LineChange>>;
  added?: readonly OwnLine[];
  fit?: Readonly<Partial<Record<PartName, PartChoice>>>;
  /** Parts to leave off that would be replaced. */
  leaveOff?: readonly PartName[];
  /** Departures that the owner wants besides. */
  departures?: readonly DeviationKind[];
  /** The colour that it is to wear; its own where it is left out. */
  colour?: string;
}
