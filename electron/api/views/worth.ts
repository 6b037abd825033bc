/** What the procedures answer about sale records, worths and the collection as a whole. */

import type { UnreadText } from '../../../db/records/unread.ts';
import type {
  AdjustedRecord,
  AsideCause,
  Currency,
  Diagnostics,
  Evidence,
  FinishState,
  Grade,
  Help,
  IsoDate,
  Minor,
  PartName,
  Range,
  Recommendation,
  SaleState,
  WhichWorth,
  Worth,
} from '../../../valuation/index.ts';
import type { NextStep } from '../../../valuation/wording/next-step-text.ts';
import type { SaleShow } from '../../../valuation/words.ts';
import type { CarRow } from './cars.ts';
import type { CollectionSummary } from './collection.ts';
import type { OwnRest } from './shared.ts';
import type { WorkingOut } from './windows.ts';
import type { FirstSteps } from './young.ts';

/**
 * Why the engine set a sale record aside; by how many standard deviations it departs from the others; or the
 * chance, 0…1, that it is of another variation of its casting, which its price suits better.
 */
export type SaleDoubt = { cause: AsideCause } | { departure: number } | { otherVariation: number };

export interface SaleRow {
  id: number;
  soldOn: IsoDate;
  price: Minor;
  currency: Currency;
  castingId: number | null;
  casting: string;
  variationId: number | null;
  variation: string;
  swatch: string | null;
  grade: Grade | null;
  finishState: FinishState;
  missingParts: PartName[];
  reproductionParts: PartName[];
  source: string;
  reference: string;
  reliabilityPercent: number | null;
  excluded: boolean;
  excludedWhy: string;
  /** Set where it came from the owner's own disposal. */
  own: boolean;
  /**
   * How far it counts: left out by the owner, set aside by the engine as of no use, doubted as
   * wild or booked under another variation, or counted.
   */
  state: SaleState;
  doubt: SaleDoubt | null;
  /** Of a doubtful one: between what prices the middle half of the others of its casting lies, where there are enough. */
  among: { low: Minor; high: Minor } | null;
  notes: string;
  /** What was written beside its fields and is not understood yet. */
  unread: UnreadText[];
}

/** How many sale records would be shown under each choice of state. */
export type SaleTallies = Record<SaleShow, number>;

/** What the list of sale records says of all of them, and of what a filter shows. */
export interface SalesFacts {
  records: number;
  castings: number;
  states: Record<SaleState, number>;
  /** How many have something that is not understood. */
  unread: number;
  tallies: SaleTallies;
  /** Kinds of source, those of the assumptions first. */
  sources: string[];
  /** Those of which there is a record. */
  seenSources: string[];
  /** The casting or variation that is filtered for. */
  name: string;
}

/** Sale records that were chosen by a range of the list. */
export interface ChosenSales {
  ids: number[];
  leftOut: number;
  /** Those that follow the owner's own sales. */
  own: number;
}

/** The adjustment grid behind one worth. */
export interface WorthExplanation {
  which: WhichWorth;
  worth: Worth | null;
  evidence: Evidence;
  records: (AdjustedRecord & {
    soldOn: IsoDate;
    grade: Grade | null;
    finishState: FinishState;
    variation: string;
    source: string;
    /** Name of the lot that a price paid was for; and the range of a belief. */
    lot?: string;
    believed?: { low: Minor; high: Minor };
  })[];
  help: Help[];
}

/** The worths of every car that is not sold, on one date. */
export interface ValuationList {
  on: IsoDate;
  currency: Currency;
  cars: {
    inventoryNumber: string;
    casting: string | null;
    variation: string | null;
    /** The colour that it wears, where that is recorded and another. */
    wornColour: string;
    grade: Grade | null;
    finishState: FinishState;
    asFound: Range | null;
    restored: Range | null;
    originalFinish: Range | null;
    evidence: Pick<Evidence, 'sales' | 'credibility' | 'kinds'>;
  }[];
}

export interface HomeView {
  summary: CollectionSummary;
  /** Of a young collection; null once it has left them behind. */
  firstSteps: FirstSteps | null;
  /** Of the cars not sold; `valued` of `cars` have a worth, the others are not in the sums. */
  totals: {
    cars: number;
    valued: number;
    /** Of those with a value, how many rest mainly on what the owner paid, or believes. */
    onOwn: Record<OwnRest, number>;
    asFound: Range;
    cost: Minor;
    currency: Currency;
  };
  overTime: { on: IsoDate; asFound: Minor; cars: number }[];
  /** A null name gathers the cars whose series, grade or colour is not known; a null worth says that none has a value. */
  bySeries: { name: string | null; cars: number; worth: Minor | null }[];
  /**
   * Of cars with their factory finish by grade; of the others by their finish state, whatever their grade.
   */
  byGrade: { grade: Grade | null; finishState: FinishState | null; cars: number; worth: Minor | null }[];
  byColour: { name: string | null; swatch: string | null; cars: number; worth: Minor | null }[];
  byRecommendation: { recommendation: Recommendation; cars: number; gain: Minor }[];
  /** What to do next, most useful first. */
  next: (NextStep & { to: string })[];
  best: CarRow[];
  /**
   * Set where all figures but those of the summary and of saved valuations are from before the last change: how many cars are worked
   * out anew by now. Null where they are of now.
   */
  workingOut: WorkingOut | null;
}

export interface DiagnosticsView extends Omit<Diagnostics, 'count'> {
  /** Past valuations against what was later realised. */
  pairs: {
    carId: number;
    inventoryNumber: string;
    valuedOn: IsoDate;
    low: Minor;
    mid: Minor;
    high: Minor;
    soldOn: IsoDate;
    realised: Minor;
  }[];
}
