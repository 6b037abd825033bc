import type {
  DeviationKind,
  EvidenceLevel,
  FidelityGrade,
  FinishState,
  Grade,
  IndexName,
  Option,
  Originality,
  PartName,
  PlanKind,
  PlanLineKind,
  Rarity,
  Recommendation,
} from './words.ts';

/** ISO 8601 calendar date, `YYYY-MM-DD`. */
export type IsoDate = string & { readonly __form?: 'date' };
/** ISO 4217 code, such as `USD`. */
export type Currency = string & { readonly __form?: 'currency' };
/** A whole number of a currency's smallest unit (cents for USD, yen for JPY, fils for BHD). */
export type Minor = number & { readonly __unit?: 'minor' };

/** Minor units of the reporting currency; `low` and `high` bound an 80 % predictive interval, `mid` is its median. */
export interface Range {
  low: Minor;
  mid: Minor;
  high: Minor;
}

/** A cost or duration as three points (minor units of the reporting currency, or hours), read as a beta-PERT. */
export interface ThreePoint {
  low: number;
  likely: number;
  high: number;
}

/** One observed sale of a comparable car. */
export interface SaleRecord {
  id: number;
  soldOn: IsoDate;
  price: Minor;
  currency: Currency;
  castingId: number;
  /** null where the record names the casting only. */
  variationId: number | null;
  /** null where the seller gave none; the engine then takes the assumption set's unknown grade and trusts it less. */
  grade: Grade | null;
  finishState: FinishState;
  missingParts: PartName[];
  reproductionParts: PartName[];
  /** 0 (worthless) to 1 (a documented sale); by default the assumption set's value for the kind of source. */
  reliability: number | null;
  /** Kind of source as the owner names it, a key of `AssumptionSet.sourceReliability`; others count as `other`. */
  source: string;
}

/** Amount of reporting currency for one unit of `currency` (major units on both sides) from `on` until the next rate. */
export interface ExchangeRate {
  currency: Currency;
  on: IsoDate;
  rate: number;
}

/** All that the engine knows of the market: plain values, gathered by the caller. */
export interface Market {
  reportingCurrency: Currency;
  castings: { id: number; seriesId: number }[];
  variations: { id: number; castingId: number; rarity: Rarity | null }[];
  sales: SaleRecord[];
  rates: ExchangeRate[];
}

/** The project's own starting points, editable and versioned by the owner; no published guide is behind them. */
export interface AssumptionSet {
  /** Where the figures come from, shown wherever they are. */
  label: string;
  /** Multiplier of price at each whole grade 1…10, relative to C10 = 1, per finish state; half grades interpolate in logs. */
  gradeMultipliers: Record<FinishState, number[]>;
  /** Price of a car in this finish state relative to the same grade in original finish. */
  finishFactors: Record<FinishState, number>;
  /** Share of price lost when the part is missing, and when it is a reproduction. */
  partLoss: Record<PartName, { missing: number; reproduction: number; periodReplacement: number }>;
  /** Share of a restoration's worth lost per deviation. */
  deviationLoss: Record<DeviationKind, number>;
  /** Multiplier of a variation's price relative to its casting, before evidence. */
  rarityFactors: Record<Rarity, number>;
  sourceReliability: Record<string, number>;
  unknownGrade: Grade;
  /** Years after which a sale record counts half. */
  halfLifeYears: number;
  /** Grade points of distance at which a record counts half. */
  gradeDistanceHalf: number;
  index: IndexName | { series: Record<number, number> };
  /** Fewest effective sale records (anywhere in the series) below which the answer is "not enough evidence". */
  leastEvidence: number;
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
    /** Least expected gain (minor units of the reporting currency) and least probability for any work to be recommended. */
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

/** How much of an estimate rests on what. The four shares sum to 1. */
export interface Evidence {
  /** Records of this very variation, of its casting (the variation's included) and of its series (all included). */
  sales: number;
  castingSales: number;
  seriesSales: number;
  /** Weight of the variation's own records, 0…1 (the Bühlmann–Straub credibility). */
  credibility: number;
  shares: { variation: number; casting: number; series: number; everything: number };
  /** Ids of records doubted as wild; they stay in but count little. */
  doubtful: number[];
}

/** One worth of a car. */
export interface Worth extends Range {
  /** Mean and standard deviation of the log of the worth in minor units. */
  logMean: number;
  logSd: number;
  /** The part of `logSd` that comes from the pooled estimate and that the worths of one car therefore share. */
  sharedSd: number;
  /** True where the owner's own figure stands in. */
  own: boolean;
  attainable: boolean;
}

export interface Valuation {
  id: number;
  asFound: Worth | null;
  restored: Worth | null;
  originalFinish: Worth | null;
  fidelity: Fidelity;
  evidence: Evidence;
  /** What is missing and what would help, the most useful first. */
  help: Help[];
}

/** What would let a car be valued, or valued more closely: its identity, sale records, its variation, its grade, or the owner's own figure. */
export type Help = 'identify' | 'sale-records' | 'choose-variation' | 'grade' | 'own-figure';

export interface Fidelity {
  grade: FidelityGrade;
  /** 1 is to specification; each deviation multiplies it down. */
  factor: number;
  deviations: DeviationKind[];
}

/** A line of the adjustment grid: what a factor did to a record's price, as a multiplier, and from what to what. */
export interface Adjustment {
  what: 'currency' | 'date' | 'rarity' | 'grade' | 'finish state' | 'parts' | 'fidelity';
  factor: number;
  cause: AdjustmentCause;
}

export type AdjustmentCause =
  | { kind: 'exchange-rate'; from: Currency; to: Currency; on: IsoDate }
  | { kind: 'index'; series: 'cpi-u' | 'own'; from: number; to: number }
  | { kind: 'trend'; years: number }
  | { kind: 'rarity' }
  | { kind: 'grade'; from: Grade; ungraded: boolean; to: Grade; finishState: FinishState }
  | { kind: 'finish-state'; from: FinishState; to: FinishState; grade: Grade }
  | { kind: 'made-complete'; missing: PartName[]; reproductions: PartName[] }
  | { kind: 'own-parts' }
  | { kind: 'departures' };

/** Why a sale record could not be used, for the owner to mend. */
export type AsideCause =
  | { kind: 'unknown-casting' | 'unknown-variation' | 'other-casting' | 'no-price' | 'no-reliability' }
  | { kind: 'after-effective-date'; soldOn: IsoDate }
  | { kind: 'no-rate'; currency: Currency; on: IsoDate };

/** A sale record brought to the subject, with each adjustment, its weight and whether it is doubted. */
export interface AdjustedRecord {
  id: number;
  price: Minor;
  currency: Currency;
  adjustments: Adjustment[];
  /** Minor units of the reporting currency, brought to the subject. */
  adjusted: Minor;
  weight: number;
  level: EvidenceLevel;
  doubtful: boolean;
}

export interface OptionResult {
  option: Option;
  cost: Range;
  worth: Range;
  expectedGain: Minor;
  gain: Range;
  /** Probability that it beats leaving. */
  probability: number;
  /** Guards against it; empty when none. */
  guards: Guard[];
  /** Set where it is shown for comparison and never recommended: customising is, unless the owner planned it. */
  note?: 'only-compared';
}

interface GuardOverruled {
  overruled: boolean;
  /** The owner's words for overruling it; empty where it is not overruled. */
  reason: string;
}

/** An original finish at or above the keep-grade. `finish` is its grade, null where it has not been graded. */
export interface KeepGradeGuard extends GuardOverruled {
  kind: 'keep-grade';
  finish: Grade | null;
  keepGrade: Grade;
}

/** A rarity that the assumption set keeps: the variation's, or those among the variations that the car may be. */
export interface RarityGuard extends GuardOverruled {
  kind: 'rarity';
  rarities: Rarity[];
  /** The variation is known. */
  identified: boolean;
}

/** What stands against painting a car. */
export type Guard = KeepGradeGuard | RarityGuard;

/** What the gain of a plan depends on. */
export type TornadoInput = 'worth-afterwards' | 'worth-as-found' | 'cost' | 'spoil-chance' | 'selling-costs';

/** A tornado bar: the gain when one input goes from its low to its high while the others stay. */
export interface TornadoBar {
  input: TornadoInput;
  low: Minor;
  high: Minor;
  flips: boolean;
}

/** Why an option is recommended, or none is. Amounts in minor units of the reporting currency. */
export type Reason =
  | { kind: 'not-enough-evidence' }
  | { kind: 'help'; help: Help }
  | {
      kind: 'gain';
      option: Option;
      expectedGain: Minor;
      cost: Range;
      /** Selling costs are taken off. */
      afterFees: boolean;
      probability: number;
    }
  | { kind: 'guard'; guard: Guard }
  | { kind: 'nothing-pays' }
  | { kind: 'under-least-gain'; leastGain: Minor }
  | { kind: 'under-least-probability'; leastProbability: number }
  | { kind: 'break-even'; option: 'restore' | 'customise'; recommended: boolean; worth: Minor; cost: Minor }
  | { kind: 'standard-plan' }
  | { kind: 'deviations'; deviations: DeviationKind[] }
  | { kind: 'evidence'; evidence: Evidence }
  | { kind: 'own-figure' };

/** What a recommendation turns on, in one fact: a guard, a floor, the next best option, or what would help. */
export type Turning =
  | { kind: 'help'; help: Help | null }
  | { kind: 'guards'; guards: Guard[] }
  | { kind: 'next-best'; option: Option; expectedGain: Minor }
  | { kind: 'no-other' }
  | { kind: 'nothing-possible' }
  | { kind: 'nothing-pays'; nearest: Option; expectedGain: Minor }
  | { kind: 'under-least-gain'; option: Option; expectedGain: Minor; leastGain: Minor }
  | {
      kind: 'under-least-probability';
      option: Option;
      expectedGain: Minor;
      probability: number;
      leastProbability: number;
    };

export interface Decision {
  id: number;
  recommendation: Recommendation;
  /** Of the recommended option (0 for leave), or of the best option considered when the answer is leave: see `best`. */
  expectedGain: Minor;
  probability: number;
  cost: Range;
  options: OptionResult[];
  /** The option with the highest expected gain among those not guarded nor only compared, whether or not it passes the floors. */
  best: Option;
  /** The weightiest first. */
  reasons: Reason[];
  /** Restored worth above which, and cost below which, restoring pays; null where no restoration was considered. */
  breakEven: { restoredWorth: Minor; cost: Minor } | null;
  tornado: TornadoBar[];
}
