/** What the procedures answer about lots and cars. */

import type { FinishedWork } from '../../../db/records/bench/finished-work.ts';
import type { FittedPart, GivenUp } from '../../../db/records/bench/job-details.ts';
import type { CarEvent } from '../../../db/records/cars/car-events.ts';
import type { CarRecord } from '../../../db/records/cars/cars.ts';
import type { Disposal } from '../../../db/records/cars/disposals.ts';
import type { BidTerms } from '../../../db/records/lots/lot-bids.ts';
import type {
  Currency,
  Decision,
  Evidence,
  Fidelity,
  FinishState,
  Grade,
  Help,
  IsoDate,
  Identification as KnownTo,
  LotCostKind,
  Minor,
  Option,
  OwnAsideCause,
  PartName,
  PartState,
  Range,
  Rarity,
  Recommendation,
  RestorationPlan,
} from '../../../valuation/index.ts';
import type { DisclosureFacts } from '../../../valuation/wording/cars/disclosure-text.ts';
import type { Hazard } from '../../../valuation/wording/work/cautions.ts';
import type { HistoryEntry } from './collection.ts';
import type { VariationRow } from './reference.ts';
import type { Features, PhotoView, Worths } from './shared.ts';
import type { WorkingOut } from './windows.ts';

export interface LotRow {
  id: number;
  name: string;
  boughtOn: IsoDate | null;
  /** Bid for, not bought: its cars are not the owner's. */
  isSeen: boolean;
  seller: string;
  currency: Currency;
  price: Minor;
  /** Price, premium, tax, carriage and other, in the lot's currency. */
  cost: Minor;
  carCount: number;
  gradedCount: number;
  identifiedCount: number;
  photographedCount: number;
  soldCount: number;
  /**
   * Sum of the mids as found of the cars still there, in the reporting currency, and how many of
   * them have a worth.
   */
  worth: Minor;
  valuedCount: number;
  photo: string | null;
}

/** What was paid for a lot, or for a car of it alone, as evidence of what such cars bring. */
export interface PurchaseView {
  /** The car, where it was bought alone. */
  car: { id: number; inventoryNumber: string } | null;
  boughtOn: IsoDate;
  /** All costs of buying, in the currency of the lot. */
  total: Minor;
  cars: number;
  /** Why it does not count; null where it does. */
  aside: OwnAsideCause | null;
  /** Why its owner has left it out, where that is so. */
  why: string;
}

/** What was paid for the cars of a lot, as evidence. */
export interface LotEvidence {
  purchases: PurchaseView[];
  /** What is not known that a purchase needs; null where there is one. */
  lacks: 'cars' | 'cost' | 'day' | null;
  currency: Currency;
}

export interface LotPage extends LotRow {
  evidence: LotEvidence;
  notes: string;
  costs: { kind: LotCostKind; minor: Minor; note: string }[];
  /** On what terms it is bid for, where that was saved. */
  bid: BidTerms | null;
  /** Sum of the cars' shares; equal to `cost` once shared. */
  shared: Minor;
  rows: CarRow[];
  result: {
    cost: Minor;
    improvements: Minor;
    proceeds: Minor;
    fees: Minor;
    /** Of the cars sold: proceeds − fees − their cost and improvements. */
    gainRealised: Minor;
    /** What was realised, and what selling the rest at its worth would add. */
    gain: Minor;
    /** Of the cars still there: their worth where it is known, and how many are without. */
    remainingWorth: Minor;
    unvalued: number;
    /**
     * The reporting currency; amounts of `withoutRate` currencies are left out until their rate is entered.
     */
    currency: Currency;
    withoutRate: Currency[];
  };
}

/**
 * A car as lists show it: what is recorded of it, with what it is called, what it is worth and what is
 * advised.
 */
export interface CarRow extends Omit<CarRecord, 'releaseId' | 'ownWorth'> {
  /** Of a lot that was only seen: it is not the owner's. */
  isSeen: boolean;
  lot: string | null;
  casting: string | null;
  releaseName: string | null;
  releaseYear: number | null;
  series: string | null;
  /** The variation's features where it is identified, else what the owner wrote. */
  features: Features;
  /** Of what it wears now. */
  swatch: string | null;
  variation: string | null;
  rarity: Rarity | null;
  identified: KnownTo;
  candidateCount: number;
  /** The owner's own words for what it is. */
  said: string[];
  costCurrency: Currency | null;
  photo: string | null;
  photoCount: number;
  worths: Worths;
  recommendation: Recommendation | null;
  probability: number | null;
  expectedGain: Minor | null;
  decided: Option | null;
}

/** What the cars in view come to. */
export interface CarTotals {
  cars: number;
  /** The owner's; the sums are theirs. */
  here: number;
  /** Those of lots that were only seen. */
  seen: number;
  valued: number;
  asFound: Minor;
  /** Cost by currency, none converted, the greatest number of cars first. */
  costs: { currency: Currency; minor: Minor; cars: number }[];
  withoutCost: number;
  /** Expected gain where some work is recommended, and on how many cars. */
  gain: Minor;
  gaining: number;
}

/** By each part of the filter of the list of cars, how many cars each choice would show. */
export interface CarChoices {
  lots: { value: number; label: string; cars: number }[];
  series: { value: string; cars: number }[];
  finish: { value: string | null; cars: number }[];
  grade: { value: Grade | null; cars: number }[];
  status: { value: string | null; cars: number }[];
  recommendation: { value: string | null; cars: number }[];
  rarity: { value: string | null; cars: number }[];
}

/** What the list of cars says of what it shows. */
export interface CarsFacts {
  /** Where the values are those of before, how far the new ones are. */
  workingOut: WorkingOut | null;
  /** How many cars of the collection have something that is not understood. */
  unread: number;
  totals: CarTotals;
  /** Between what amounts the values that are shown lie, but for the outermost. */
  values: { low: Minor; high: Minor } | null;
  choices: CarChoices;
  /** The casting and the variation that are filtered for. */
  casting: string | null;
  variation: string | null;
}

/** Cars that were chosen of a list. */
export interface ChosenCars {
  ids: number[];
  /** Those of them that are sold. */
  sold: number[];
  /** The inventory number of the one that is meant, where it is one. */
  only: string | null;
}

export interface PartGradeView extends PartState {
  note: string;
}

export interface ConditionCheckView {
  id: number;
  checkedOn: IsoDate;
  grade: Grade | null;
  /** The finish that the car had then, as far as the records of work tell. */
  finishState: FinishState;
  notes: string;
  parts: PartGradeView[];
}

export interface PlanView extends RestorationPlan {
  notes: string;
  /** True where it is the standard plan that the assumption set supplies, not the owner's. */
  standard: boolean;
}

export interface DecisionView extends Decision {
  inventoryNumber: string;
  casting: string | null;
  variation: string | null;
  recorded: RecordedDecision | null;
}

export interface RecordedDecision {
  choice: Option;
  decidedOn: IsoDate;
  recommended: Recommendation;
  overruled: string[];
  reason: string;
}

export interface DisposalView extends Omit<Disposal, 'id' | 'carId'> {
  /** Proceeds − fees − cost, where the cost is known in the same currency. */
  gain: Minor | null;
}

/** A car that was sold, as their list shows it. */
export interface SoldCarRow
  extends DisposalView,
    Pick<
      CarRow,
      | 'inventoryNumber'
      | 'asWritten'
      | 'grade'
      | 'finishState'
      | 'wornColour'
      | 'casting'
      | 'releaseName'
      | 'features'
      | 'swatch'
    > {
  /** The sale's own id. */
  id: number;
  carId: number;
}

/** The cars that were sold, the latest sale first, and the numbers of those marked as sold without a sale. */
export interface SoldCars {
  rows: SoldCarRow[];
  unrecorded: string[];
}

export type FinishedWorkView = Omit<FinishedWork, 'carId'>;

/**
 * A part that was fitted to a car on the bench, with the numbers of the car it is on and of the one it came
 * from.
 */
export interface FittedPartView extends FittedPart {
  inventoryNumber: string;
  donorNumber: string | null;
}

export interface CarPage extends CarRow {
  ownWorth: Range | null;
  candidates: VariationRow[];
  photos: PhotoView[];
  /** What was done to it, the newest first. */
  work: FinishedWorkView[];
  /**
   * What is to be said of its finish and the work on it; `wording/disclosure-text.ts` makes the paragraph.
   */
  disclosure: DisclosureFacts;
  checks: ConditionCheckView[];
  /** What happened to it, the newest first. */
  events: CarEvent[];
  /** Work on it that was given up, the newest first. */
  givenUp: GivenUp[];
  /** What can injure in the work that is open to it, by the steps of its plans. */
  hazards: Hazard[];
  /** Parts that were fitted to it, and parts that were taken from it for other cars. */
  fitted: FittedPartView[];
  gave: FittedPartView[];
  /** The parts that its casting has; null where they are not listed or the casting is not known. */
  castingParts: PartName[] | null;
  plan: PlanView | null;
  decision: DecisionView;
  evidence: Evidence;
  /** What was paid for it, alone or in its lot, as evidence; null where nothing of it is known. */
  purchase: (PurchaseView & { lotId: number; lot: string; currency: Currency }) | null;
  fidelity: Fidelity;
  help: Help[];
  expenses: { id: number; spentOn: IsoDate; what: string; minor: Minor; currency: Currency }[];
  disposal: DisposalView | null;
  valuations: { on: IsoDate; asFound: Range | null; restored: Range | null; originalFinish: Range | null }[];
  history: HistoryEntry[];
  factorySpecification: string;
  previousId: number | null;
  nextId: number | null;
}
