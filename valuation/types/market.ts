import type { FinishState, Grade, PartName, Rarity } from '../words.ts';
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
