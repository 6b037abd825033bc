import type { BeliefLevel, FinishState, Grade, PartName, Rarity } from '../words.ts';
import type { Currency, IsoDate, Minor } from './units.ts';

/** One observed sale of a comparable car. */
export interface SaleRecord {
  id: number;
  soldOn: IsoDate;
  price: Minor;
  currency: Currency;
  castingId: number;
  /** null where the record names the casting only. */
  variationId: number | null;
  /**
   * null where the seller gave none; the engine then takes the assumption set's unknown grade
   * and trusts it less.
   */
  grade: Grade | null;
  finishState: FinishState;
  missingParts: PartName[];
  reproductionParts: PartName[];
  /** 0 (worthless) to 1 (a documented sale); by default the assumption set's value for the kind of source. */
  reliability: number | null;
  /**
   * Kind of source as the owner names it, a key of `AssumptionSet.sourceReliability`; what is asked
   * ("asking", "asking price") counts as a `listing`, others as `other`.
   */
  source: string;
}

/**
 * Amount of reporting currency for one unit of `currency` (major units on both sides) from `on`
 * until the next rate.
 */
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
  purchases?: Purchase[];
  beliefs?: Belief[];
}

/** A car as it was when it was bought. */
export interface PurchasedCar {
  id: number;
  /** null where it is not identified; the purchase then tells nothing. */
  castingId: number | null;
  variationId: number | null;
  grade: Grade | null;
  finishState: FinishState;
  missingParts: PartName[];
  reproductionParts: PartName[];
  /**
   * True where it was worked on since, and its state at that time is not recorded; the purchase
   * then tells nothing.
   */
  changedSince?: boolean;
  /** True where what was written of its finish is not settled; the purchase then tells nothing. */
  hasOpenFinish?: boolean;
}

/**
 * What the owner paid: for one car, which counts as a sale of it, or for a lot, which tells of the
 * sum of its cars.
 */
export interface Purchase {
  lotId: number;
  boughtOn: IsoDate;
  currency: Currency;
  /**
   * All costs of buying, which is what the buyer paid; and the price alone, by which the same sale is
   * recognised among the records.
   */
  total: Minor;
  price: Minor | null;
  /** True where its owner says that it tells nothing of prices. */
  leftOut?: boolean;
  /** True of a car that has a day and a share of its own in its lot, which is then the rest. */
  isAlone?: boolean;
  cars: PurchasedCar[];
}

/**
 * What the owner believes that a common car of a series or casting, or one of a variation, brings when
 * complete: from `low` to `high` in eight cases of ten, in minor units.
 */
export interface Belief {
  id: number;
  level: BeliefLevel;
  /** Id of the series, casting or variation. */
  of: number;
  grade: Grade;
  finishState: FinishState;
  low: Minor;
  high: Minor;
  currency: Currency;
  believedOn: IsoDate;
}
