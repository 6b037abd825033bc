import type {
  BeliefLevel,
  DeviationKind,
  EvidenceKind,
  EvidenceLevel,
  FidelityGrade,
  FinishState,
  Grade,
  PartName,
} from '../words.ts';
import type { Currency, IsoDate, Minor, Range } from './units.ts';

/** How much of an estimate rests on what. The four shares sum to 1. */
export interface Evidence {
  /**
   * Records of this very variation, of its casting (the variation's included) and of its
   * series (all included).
   */
  sales: number;
  castingSales: number;
  seriesSales: number;
  /** Weight of the variation's own records, 0…1 (the Bühlmann–Straub credibility). */
  credibility: number;
  shares: { variation: number; casting: number; series: number; everything: number };
  /** Ids of records doubted as wild; they stay in but count little. */
  doubtful: number[];
  /** What kinds of evidence it is; absent where all of it is sale records. */
  kinds?: {
    /** Share of the estimate that rests on each kind; the four sum to 1. */
    shares: Record<EvidenceKind, number>;
    /** In its series: cars bought singly, lots with a car of it, and beliefs. */
    purchases: number;
    lots: number;
    beliefs: number;
  };
}

/** One worth of a car. */
export interface Worth extends Range {
  /** Mean and standard deviation of the log of the worth in minor units. */
  logMean: number;
  logSd: number;
  /**
   * The part of `logSd` that comes from the pooled estimate and that the worths of one car therefore share.
   */
  sharedSd: number;
  /**
   * The part that one sale varies, where more than that and `sharedSd` is in `logSd`: the grades in which
   * work can end.
   */
  saleSd?: number;
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

/**
 * What would let a car be valued, or valued more closely: its identity, sale records, its variation, its
 * grade, or the owner's own figure.
 */
export type Help = 'identify' | 'sale-records' | 'choose-variation' | 'grade' | 'own-figure';
export interface Fidelity {
  grade: FidelityGrade;
  /** 1 is to specification; each deviation multiplies it down. */
  factor: number;
  deviations: DeviationKind[];
}

/**
 * A line of the adjustment grid: what a factor did to a record's price, as a multiplier, and
 * from what to what.
 */
export interface Adjustment {
  what: 'currency' | 'date' | 'source' | 'rarity' | 'grade' | 'finish state' | 'parts' | 'fidelity';
  factor: number;
  cause: AdjustmentCause;
}
export type AdjustmentCause =
  | { kind: 'exchange-rate'; from: Currency; to: Currency; on: IsoDate }
  | { kind: 'index'; series: 'cpi-u' | 'own'; from: number; to: number }
  | { kind: 'trend'; years: number }
  | { kind: 'steps'; years: number }
  | { kind: 'source'; source: string }
  | { kind: 'rarity' }
  | { kind: 'grade'; from: Grade; ungraded: boolean; to: Grade; finishState: FinishState }
  | { kind: 'finish-state'; from: FinishState; to: FinishState; grade: Grade }
  | { kind: 'made-complete'; missing: PartName[]; reproductions: PartName[] }
  | { kind: 'own-parts' }
  | { kind: 'departures' }
  | { kind: 'workmanship'; aim: Grade };

/** Why a sale record could not be used, for the owner to mend. */
export type AsideCause =
  | { kind: 'unknown-casting' | 'unknown-variation' | 'other-casting' | 'no-price' | 'no-reliability' }
  | { kind: 'after-effective-date'; soldOn: IsoDate }
  | { kind: 'no-rate'; currency: Currency; on: IsoDate };

/** Why what was paid, or what is believed, could not be used, for the owner to mend. */
export type OwnAsideCause =
  | AsideCause
  | { kind: 'entered-as-sale'; saleId: number }
  | { kind: 'unidentified-cars' | 'changed-cars' | 'open-finish'; cars: number }
  | { kind: 'unknown-series' | 'left-out' };

/**
 * Where evidence comes from that is no sale record: a car bought singly, a car's share of a lot's
 * price, or a belief.
 */
export type OwnEvidence =
  | { kind: 'purchase'; lotId: number; carId: number; on: IsoDate; grade: Grade | null }
  | {
      kind: 'lot';
      lotId: number;
      carId: number;
      on: IsoDate;
      /** As it was bought. */
      grade: Grade | null;
      total: Minor;
      cars: number;
    }
  | { kind: 'belief'; beliefId: number; level: BeliefLevel };

/** A sale record brought to the subject, with each adjustment, its weight and whether it is doubted. */
export interface AdjustedRecord {
  /** Of the sale record, the car that was bought, or the belief. */
  id: number;
  /** Absent for a sale record. */
  from?: OwnEvidence;
  price: Minor;
  currency: Currency;
  adjustments: Adjustment[];
  /** Minor units of the reporting currency, brought to the subject. */
  adjusted: Minor;
  weight: number;
  level: EvidenceLevel;
  doubtful: boolean;
}
