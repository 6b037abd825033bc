import type { DeviationKind, FinishState, Grade, IndexName, PartName, Rarity } from '../words.ts';
import type { RestorationPlan } from './subject.ts';
import type { Minor, ThreePoint } from './units.ts';
import type { WorkAssumptions } from './work.ts';

/**
 * The project's own starting points, editable and versioned by the owner; no published guide is behind them.
 */
export interface AssumptionSet {
  /** Where the figures come from, shown wherever they are. */
  label: string;
  /**
   * Multiplier of price at each whole grade 1…10, relative to C10 = 1, per finish state; half grades
   * interpolate in logs.
   */
  gradeMultipliers: Record<FinishState, number[]>;
  /** Price of a car in this finish state relative to the same grade in original finish. */
  finishFactors: Record<FinishState, number>;
  /** Share of price lost when the part is missing, and when it is a reproduction. */
  partLoss: Record<PartName, { missing: number; reproduction: number; periodReplacement: number }>;
  /**
   * Share of price that original packaging as made (C10) adds; at C1 it adds nothing. A third of it for a
   * reproduction. 0.4 where it is left out.
   */
  packagingGain?: number;
  /** Share of a restoration's worth lost per deviation. */
  deviationLoss: Record<DeviationKind, number>;
  /** Multiplier of a variation's price relative to its casting, before evidence. */
  rarityFactors: Record<Rarity, number>;
  sourceReliability: Record<string, number>;
  /** How many sales a belief of the owner's counts for; 1 where it is not given. */
  beliefSales?: number;
  unknownGrade: Grade;
  /** Years after which a sale record counts half. */
  halfLifeYears: number;
  /** Grade points of distance at which a record counts half. */
  gradeDistanceHalf: number;
  index: IndexName | { series: Record<number, number> };
  /**
   * The widest estimate, as high ÷ low of its own 80 % range (without what one sale varies), beyond which the
   * answer is "not enough evidence"; 8 where it is left out.
   */
  widestEstimate?: number;
  /** Standard deviations of log price taken as prior, with the number of observations they count for. */
  prior: {
    within: number;
    betweenVariations: number;
    betweenCastings: number;
    betweenSeries: number;
    strength: number;
    /** How far the records may pull the assumed factors: standard deviations of log price per grade point, of a finish-state
     * factor, of a rarity factor, and of the yearly trend. 0 holds the assumption. */
    gradeStep: number;
    finish: number;
    rarity: number;
    trend: number;
  };
  decision: {
    /**
     * Least expected gain (minor units of the reporting currency) and least probability for any work
     * to be recommended.
     */
    leastGain: Minor;
    leastProbability: number;
    /** An original finish at or above this grade is not recommended for paint. */
    keepGrade: Grade;
    keepRarities: Rarity[];
    /** Selling costs as a share of proceeds. */
    sellingFees: number;
    /** Correlation of the worths of one car beyond what they share through the pooled estimate, 0…1. */
    worthCorrelation: number;
    conserveGain: Grade;
    donorShare: number;
  };
  /** What an hour at the bench costs the owner (minor units of the reporting currency); may be 0. */
  hourlyRate: Minor;
  /** How plans are made from cars, and how surely work turns out. */
  work: WorkAssumptions;
  /** What stands in for a plan on a car that has none. Costs in minor units of the reporting currency. */
  standardPlan: StandardPlanDefaults;
}
export interface StandardPlanDefaults {
  restore: PlanDefaults;
  customise: PlanDefaults;
  /** For each part that the car has lost and that the plan replaces with a reproduction. */
  replacedPart: ThreePoint;
  conserve: { hours: ThreePoint; cost: ThreePoint };
  donor: { hours: ThreePoint; cost: ThreePoint };
}
export interface PlanDefaults {
  targetGrade: Grade;
  hours: ThreePoint;
  lines: RestorationPlan['lines'];
  deviations: DeviationKind[];
  spoilChance: number;
  spoiledShare: number;
}
