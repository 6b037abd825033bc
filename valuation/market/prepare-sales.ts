import { dayNumber } from '../calendar.ts';
import { checkBetween } from '../statistics/check-input.ts';
import type { AsideCause, AssumptionSet, IsoDate, Market, OwnEvidence, SaleRecord } from '../types.ts';
import { finishStates } from '../words.ts';
import { gradeStep } from './assumed-curve.ts';
import { type DateAdjustment, dateAdjustment } from './date-adjustment.ts';
import { type RateFinder, rateFinder } from './exchange-rate.ts';
import type { MarketIndex } from './market-index.ts';
import { recordPartsLog } from './part-loss.ts';
import { trustIn } from './source-kind.ts';

/**
 * A sale, or what stands for one, in logs and places, adjusted for all that needs no fitting: currency,
 * index and parts.
 */
export interface PreparedSale {
  record: SaleRecord;
  casting: number;
  /** −1 where the record names the casting only. */
  variation: number;
  state: number;
  step: number;
  /** ln of the price in minor units of the reporting currency, at the sale date and as sold. */
  price: number;
  currencyLog: number;
  dateLog: number;
  partsLog: number;
  /** Years from the sale to the effective date. */
  age: number;
  /** Recency × reliability of the source; of a car of a lot, its share of the lot's. */
  weight: number;
  /** What it is where it is no sale record. */
  from: OwnEvidence | null;
  /** Place of its lot among the fit's lots; −1 where it has a price of its own. */
  lot: number;
  /** Variance of log price that a belief's own range gives; 0 where there is none. */
  range: number;
}

/** A record that could not be used, and why, for the owner to mend. */
export interface SetAside {
  id: number;
  cause: AsideCause;
}

/** Throws RangeError, naming the record, on a figure that no stored record can hold. */
const checkRecord = (record: SaleRecord): void => {
  const name = `sale record ${record.id}`;
  if (!Number.isSafeInteger(record.price) || record.price < 0)
    throw new RangeError(`price of ${name} must be a whole number of minor units, not ${record.price}`);
  if (record.grade !== null) gradeStep(record.grade);
  if (!finishStates.includes(record.finishState))
    throw new RangeError(`finish state of ${name} is unknown: "${record.finishState}"`);
  if (record.reliability !== null) checkBetween(record.reliability, 0, 1, `reliability of ${name}`);
};

export interface PrepareContext {
  index: MarketIndex;
  assumptions: AssumptionSet;
  today: number;
  rateOf: RateFinder;
  date: DateAdjustment;
}

/**
 * One record in logs, or why it cannot be used. Throws RangeError on a figure that no stored record can hold.
 */
export const prepareSale = (record: SaleRecord, context: PrepareContext): PreparedSale | AsideCause => {
  const { index, assumptions } = context;
  checkRecord(record);
  const casting = index.castingPlace.get(record.castingId);
  if (casting === undefined) return { kind: 'unknown-casting' };
  const variation = record.variationId === null ? -1 : index.variationPlace.get(record.variationId);
  if (variation === undefined) return { kind: 'unknown-variation' };
  if (variation >= 0 && index.variationCasting[variation] !== casting) return { kind: 'other-casting' };
  if (record.price === 0) return { kind: 'no-price' };
  const age = (context.today - dayNumber(record.soldOn)) / 365.25;
  if (age < 0) return { kind: 'after-effective-date', soldOn: record.soldOn };
  const currencyLog = context.rateOf(record.currency, record.soldOn);
  if (currencyLog === null) return { kind: 'no-rate', currency: record.currency, on: record.soldOn };
  const reliability = record.reliability ?? trustIn(record.source, assumptions.sourceReliability);
  const weight = reliability * 0.5 ** (age / assumptions.halfLifeYears);
  if (!(weight > 0)) return { kind: 'no-reliability' };
  return {
    record,
    casting,
    variation,
    state: finishStates.indexOf(record.finishState),
    step: gradeStep(record.grade ?? assumptions.unknownGrade),
    price: Math.log(record.price) + currencyLog,
    currencyLog,
    dateLog: context.date.log(record.soldOn),
    partsLog: recordPartsLog(record, assumptions.partLoss),
    age,
    weight,
    from: null,
    lot: -1,
    range: 0,
  };
};

/**
 * Brings every sale record to logs, sorted by id, and lists those set aside with the reason: no exchange
 * rate at the sale date, not in the reference, sold after the effective date, no price, no weight.
 * Throws RangeError on bad figures: a price that is no whole number, a bad date, grade, reliability or
 * rate, an id given twice.
 */
export const prepareSales = (
  market: Market,
  index: MarketIndex,
  assumptions: AssumptionSet,
  on: IsoDate,
): { sales: PreparedSale[]; setAside: SetAside[]; context: PrepareContext } => {
  const context: PrepareContext = {
    index,
    assumptions,
    today: dayNumber(on),
    rateOf: rateFinder(market.reportingCurrency, market.rates),
    date: dateAdjustment(assumptions.index, on),
  };
  const sales: PreparedSale[] = [];
  const setAside: SetAside[] = [];
  const records = [...market.sales].sort((a, b) => a.id - b.id);
  records.forEach((record, i) => {
    if (i > 0 && records[i - 1]!.id === record.id)
      throw new RangeError(`sale record ${record.id} is there twice`);
    const prepared = prepareSale(record, context);
    if ('kind' in prepared) setAside.push({ id: record.id, cause: prepared });
    else sales.push(prepared);
  });
  return { sales, setAside, context };
};
