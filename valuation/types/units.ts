/** ISO 8601 calendar date, `YYYY-MM-DD`. */
export type IsoDate = string & { readonly __form?: 'date' };

/** ISO 4217 code, such as `USD`. */
export type Currency = string & { readonly __form?: 'currency' };

/** A whole number of a currency's smallest unit (cents for USD, yen for JPY, fils for BHD). */
export type Minor = number & { readonly __unit?: 'minor' };

/**
 * Minor units of the reporting currency; `low` and `high` bound an 80 % predictive interval,
 * `mid` is its median.
 */
export interface Range {
  low: Minor;
  mid: Minor;
  high: Minor;
}

/**
 * A cost or duration as three points (minor units of the reporting currency, or hours), read as a beta-PERT.
 */
export interface ThreePoint {
  low: number;
  likely: number;
  high: number;
}
