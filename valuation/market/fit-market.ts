import { checkAssumptions } from '../check-assumptions.ts';
import { eightyPercent } from '../statistics/normal.ts';
import { quantile } from '../statistics/quantile.ts';
import type { AssumptionSet, IsoDate, Market } from '../types.ts';
import { type FinishState, finishStates, grades, type Rarity, rarities } from '../words.ts';
import { fitRounds, type RoundsResult } from './fit-rounds.ts';
import { countEvidence, type FittedMarket } from './fitted-market.ts';
import { columns, type RaritySpan } from './market-columns.ts';
import { designMarket, type MarketDesign } from './market-design.ts';
import { indexMarket } from './market-index.ts';
import { type PreparedSale, prepareSales } from './prepare-sales.ts';
import { doubtfulFrom } from './robust-weight.ts';
import { forward } from './shared-effects.ts';

const steps = grades.length;
const width = columns.count + 1;
/** A trend is fitted from at least so many records over at least so many years. */
const trendRecords = 40;
const trendYears = 3;

const recordOf = <Key extends string, Value>(keys: readonly Key[], of: (key: Key, i: number) => Value) =>
  Object.fromEntries(keys.map((key, i) => [key, of(key, i)])) as Record<Key, Value>;

/** Years between the first and the last sale. */
const yearsOf = (sales: readonly PreparedSale[]): number => {
  const first = sales.reduce((most, { age }) => Math.max(most, age), Number.NEGATIVE_INFINITY);
  const last = sales.reduce((least, { age }) => Math.min(least, age), Number.POSITIVE_INFINITY);
  return Math.max(0, first - last);
};

const leftOut = ({ departures, apart }: RoundsResult): FittedMarket['leftOut'] => {
  if (departures.length === 0) return { coverage: null, typicalError: null };
  const inside = departures.reduce((sum, t) => sum + Number(Math.abs(t) <= eightyPercent), 0);
  const typical = quantile(Array.from(apart, Math.abs), 0.5);
  return { coverage: inside / departures.length, typicalError: Math.expm1(typical) };
};

/** L⁻¹ × the columns of each sale, and last its residual: what the ladders are made from. */
const transformedRows = ({ rows, slots }: MarketDesign, { effects, residuals }: RoundsResult) => {
  const transformed = new Float64Array(rows.length);
  for (let i = 0; i < slots.length; i++) {
    const row = rows.subarray(i * width, i * width + columns.count);
    transformed.set(forward(effects.root, columns.count, row), i * width);
    transformed[i * width + columns.count] = residuals[i]!;
  }
  return transformed;
};

/**
 * Fits the market on a day: adjusts every sale record, pools them by hierarchical credibility, and fits the grade curve of each finish
 * state, the factors of finish states and rarities, and (where asked for and records suffice) a yearly trend. All in natural logs
 * of minor units of the reporting currency. Records that cannot be used are set aside and listed with the reason.
 *
 * Throws RangeError on bad figures in the market, the assumption set or the date. Values made from the result depend on nothing else.
 */
export const fitMarket = (market: Market, assumptions: AssumptionSet, on: IsoDate): FittedMarket => {
  checkAssumptions(assumptions);
  const index = indexMarket(market);
  const { sales, setAside, date } = prepareSales(market, index, assumptions, on);
  const years = yearsOf(sales);
  const withTrend = assumptions.index === 'trend' && sales.length >= trendRecords && years >= trendYears;
  const design = designMarket(index, sales, assumptions);
  const fit = fitRounds(design, assumptions, withTrend);
  const { variances, curve } = fit;
  const { estimate, root } = fit.effects;

  const curveAt = (state: number, step: number) => curve[state * steps + step]!;
  const fittedLog = ({ cell, log }: RaritySpan) => cell.reduce((sum, x, a) => sum + x * estimate[a]!, log);
  const rarityLog = new Map([...design.spans].map(([rarity, span]) => [rarity, fittedLog(span)]));
  const saleRarity = Float64Array.from(sales, ({ variation, casting }) =>
    variation >= 0
      ? rarityLog.get(index.variationRarity[variation]!)!
      : fittedLog(design.unnamed.get(casting)!),
  );
  const doubtful = sales
    .map(({ record }, i) => ({ id: record.id, departure: fit.departures[i]! }))
    .filter(({ departure }) => Math.abs(departure) >= doubtfulFrom);

  return {
    on,
    reportingCurrency: market.reportingCurrency,
    assumptions,
    setAside,
    doubtful,
    recordsUsed: sales.length,
    leftOut: leftOut(fit),
    gradeCurves: recordOf<FinishState, number[]>(finishStates, (_, state) =>
      grades.map((_, step) => Math.exp(curveAt(state, step) - curveAt(state, steps - 1))),
    ),
    finishFactors: recordOf<FinishState, number>(finishStates, (_, state) =>
      Math.exp(curveAt(state, steps - 1) - curveAt(0, steps - 1)),
    ),
    rarityFactors: recordOf<Rarity, number>(rarities, rarity =>
      Math.exp(rarityLog.get(rarity)! - rarityLog.get('common')!),
    ),
    spread: {
      within: Math.sqrt(variances.within),
      betweenVariations: Math.sqrt(variances.betweenVariations),
      betweenCastings: Math.sqrt(variances.betweenCastings),
      betweenSeries: Math.sqrt(variances.betweenSeries),
    },
    trend: withTrend ? { perYear: Math.exp(estimate[columns.trend]!), years } : null,
    rounds: fit.rounds,
    stable: fit.stable,
    inside: {
      index,
      sales,
      slots: design.slots,
      slotCasting: design.slotCasting,
      weights: design.weights.map((w, i) => w * fit.robust[i]! * fit.clarity[i]!),
      departures: fit.departures,
      saleRarity,
      trendLog: withTrend ? estimate[columns.trend]! : 0,
      rows: transformedRows(design, fit),
      root,
      level: design.centre + estimate[columns.level]!,
      curve,
      rarityLog,
      evidence: countEvidence(index, sales, new Set(doubtful.map(({ id }) => id))),
      indexSpan: date.span,
    },
  };
};
