/** What the procedures answer about sale records, worths and the collection as a whole. */
import type {
  AdjustedRecord,
  Currency,
  Diagnostics,
  Evidence,
  FinishState,
  Grade,
  IsoDate,
  Minor,
  Range,
  Recommendation,
  SaleState,
  WhichWorth,
  Worth,
} from '../../../valuation/index.ts';
import type { CarRow } from './cars.ts';
import type { CollectionSummary } from './collection.ts';

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
  missingParts: string[];
  reproductionParts: string[];
  source: string;
  reference: string;
  reliabilityPercent: number | null;
  excluded: boolean;
  excludedWhy: string;
  /** Set where it came from the owner's own disposal. */
  own: boolean;
  /** How far it counts: left out by the owner, set aside by the engine as of no use, doubted as wild, or counted. */
  state: SaleState;
  /** Why the engine set it aside or doubts it, or null. */
  doubt: string | null;
  notes: string;
}

/** The adjustment grid behind one worth. */
export interface WorthExplanation {
  which: WhichWorth;
  worth: Worth | null;
  evidence: Evidence;
  /** "62 % this variation's 4 sales, 38 % its casting's 31". */
  sentence: string;
  records: (AdjustedRecord & {
    soldOn: IsoDate;
    grade: Grade | null;
    finishState: FinishState;
    variation: string;
    source: string;
  })[];
  help: string[];
}

/** The worths of every car that is not sold, on one date. */
export interface ValuationList {
  on: IsoDate;
  currency: Currency;
  cars: {
    inventoryNumber: string;
    casting: string | null;
    variation: string | null;
    grade: Grade | null;
    finishState: FinishState;
    asFound: Range | null;
    restored: Range | null;
    originalFinish: Range | null;
    evidence: Pick<Evidence, 'sales' | 'credibility'>;
  }[];
}

export interface HomeView {
  summary: CollectionSummary;
  /** Of the cars not sold; `valued` of `cars` have a worth, the others are not in the sums. */
  totals: { cars: number; valued: number; asFound: Range; cost: Minor; currency: Currency };
  overTime: { on: IsoDate; asFound: Minor; cars: number }[];
  bySeries: { name: string; cars: number; worth: Minor }[];
  byGrade: { grade: string; cars: number; worth: Minor }[];
  byColour: { name: string; swatch: string | null; cars: number; worth: Minor }[];
  byRecommendation: { recommendation: Recommendation; cars: number; gain: Minor }[];
  /** What to do next, most useful first. */
  next: { sentence: string; to: string; count: number }[];
  best: CarRow[];
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
