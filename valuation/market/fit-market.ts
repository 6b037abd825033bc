import { checkAssumptions } from '../check-assumptions.ts';
import { atOnce, type InTurns } from '../in-turns.ts';
import { eightyPercent } from '../statistics/normal.ts';
import { quantile } from '../statistics/quantile.ts';
import type { AssumptionSet, IsoDate, Market, TimeModel, TimeTrial, TimeUsed } from '../types.ts';
import { type FinishState, finishStates, grades, type Rarity, rarities } from '../words.ts';
import { chooseTime } from './choose-time.ts';
import { fitRounds, noiseFactors, type RoundsResult } from './fit-rounds.ts';
import { countEvidence, type FittedMarket } from './fitted-market.ts';
import { doubtfulLabelFrom } from './label-doubt.ts';
import { columns, type RaritySpan, sourceColumn, yearLengths, yearsWithin } from './market-columns.ts';
import { designMarket, type MarketDesign } from './market-design.ts';
import { indexMarket } from './market-index.ts';
import { prepareOwn } from './prepare-own.ts';
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

/** The records themselves, which come first; what stands beside them is not tried. */
const leftOut = ({ departures, apart }: RoundsResult, records: number): FittedMarket['leftOut'] => {
  if (records === 0) return { coverage: null, typicalError: null };
  const inside = departures
    .subarray(0, records)
    .reduce((sum, t) => sum + Number(Math.abs(t) <= eightyPercent), 0);
  const typical = quantile(Array.from(apart.subarray(0, records), Math.abs), 0.5);
  return { coverage: inside / records, typicalError: Math.expm1(typical) };
};

/** The sales with what each car of a lot came to have of its price and weight. */
const withShares = (sales: readonly PreparedSale[], design: MarketDesign, fit: RoundsResult) =>
  sales.map((sale, i): PreparedSale => {
    if (sale.lot < 0) return sale;
    const price = fit.values[i]! + design.centre + design.offsets[i]! - sale.dateLog;
    const share = Math.round(Math.exp(price - sale.currencyLog));
    return { ...sale, price, weight: fit.weights[i]!, record: { ...sale.record, price: share } };
  });

/** See `FitInside.certainty`. */
const certaintyOf = (
  { lotOf, lots }: MarketDesign,
  { weights: own, labels }: RoundsResult,
  weights: Float64Array,
): Float64Array =>
  lots.length > 0 || labels
    ? weights.map((w, i) => {
        const lot = lotOf[i]!;
        return lot < 0 ? w * (labels?.sure[i] ?? 1) : (w * own[i]!) / lots[lot]!.weight;
      })
    : weights;

const rowsAStep = 5000;

/** L⁻¹ × the columns of each sale, and last its residual: what the ladders are made from. */
const transformedRows = function* (
  { rows, slots }: MarketDesign,
  { effects, residuals }: RoundsResult,
): InTurns<Float64Array> {
  const transformed = new Float64Array(rows.length);
  for (let i = 0; i < slots.length; i++) {
    if (i % rowsAStep === rowsAStep - 1) yield;
    const row = rows.subarray(i * width, i * width + columns.count);
    transformed.set(forward(effects.root, columns.count, row), i * width);
    transformed[i * width + columns.count] = residuals[i]!;
  }
  return transformed;
};

/**
 * The fit with time taken as the assumption set says, or as the records have it: their trial costs about as
 * much as a fit, and a second fit is made only where it finds something.
 */
const fitWithTime = function* (
  design: MarketDesign,
  assumptions: AssumptionSet,
  records: number,
  years: number,
): InTurns<{ fit: RoundsResult; model: TimeModel; trial: TimeTrial | null }> {
  const { index } = assumptions;
  const tells = records >= trendRecords && years >= trendYears;
  const wished: TimeModel = tells && (index === 'trend' || index === 'steps') ? index : 'none';
  const fit = yield* fitRounds(design, assumptions, wished);
  const chosen = index === 'records' && tells ? yield* chooseTime(design, fit, assumptions, records) : null;
  if (!chosen) return { fit, model: wished, trial: null };
  const { model, trial } = chosen;
  return { fit: model === wished ? fit : yield* fitRounds(design, assumptions, model), model, trial };
};

/** Log of what prices have moved by since a sale of so many years ago. */
const timeLogOf =
  (estimate: Float64Array, model: TimeModel) =>
  (age: number): number => {
    if (model === 'none') return 0;
    if (model === 'trend') return estimate[columns.trend]! * age;
    let log = 0;
    for (let k = 0; k < columns.years; k++) log += estimate[columns.firstYear + k]! * yearsWithin(age, k);
    return log;
  };

/** Log by which the prices of a kind of source lie above those that they are taken for. */
const sourceLogOf =
  (estimate: Float64Array) =>
  (source: string): number => {
    const column = sourceColumn(source);
    return column < 0 ? 0 : estimate[column]!;
  };

/** What prices did in each stretch of years in which there were sales. */
const stepsOf = (estimate: Float64Array, years: number): TimeUsed['steps'] => {
  const steps: TimeUsed['steps'] = [];
  let from = 0;
  for (let k = 0; k < columns.years && from < years; k++) {
    const last = k + 1 === columns.years;
    const to = last ? null : from + yearLengths[k]!;
    const within = last ? years - from : yearLengths[k]!;
    steps.push({ from, to, factor: Math.exp(estimate[columns.firstYear + k]! * within) });
    from += yearLengths[k]!;
  }
  return steps;
};

/**
 * Fits the market on a day: adjusts every sale record, pools them by hierarchical credibility, and fits the
 * grade curve of each finish state, the factors of finish states and rarities, and (where asked for and
 * records suffice) a yearly trend. All in natural logs of minor units of the reporting currency. Records that
 * cannot be used are set aside and listed with the reason.
 *
 * Throws RangeError on bad figures in the market, the assumption set or the date. Values made from the result
 * depend on nothing else.
 */
export const fitMarket = (market: Market, assumptions: AssumptionSet, on: IsoDate): FittedMarket =>
  atOnce(fitMarketInTurns(market, assumptions, on));

/** `fitMarket` in steps of some hundredths of a second for ten thousands of records. */
export const fitMarketInTurns = function* (
  market: Market,
  assumptions: AssumptionSet,
  on: IsoDate,
): InTurns<FittedMarket> {
  checkAssumptions(assumptions);
  const index = indexMarket(market);
  const { sales: records, setAside, context } = prepareSales(market, index, assumptions, on);
  yield;
  const own = prepareOwn(market, context);
  const prepared = own.sales.length > 0 ? [...records, ...own.sales] : records;
  const lots = own.lots.map(lot => ({ ...lot, parts: lot.parts.map(i => i + records.length) }));
  const years = yearsOf(records);
  const design = designMarket(index, prepared, assumptions, { ...own, lots });
  yield;
  const { fit, model, trial } = yield* fitWithTime(design, assumptions, records.length, years);
  const sales = lots.length > 0 ? withShares(prepared, design, fit) : prepared;
  const { variances, curve } = fit;
  const { estimate, root } = fit.effects;

  const rows = yield* transformedRows(design, fit);
  const curveAt = (state: number, step: number) => curve[state * steps + step]!;
  const fittedLog = ({ cell, log }: RaritySpan) => cell.reduce((sum, x, a) => sum + x * estimate[a]!, log);
  const rarityLog = new Map([...design.spans].map(([rarity, span]) => [rarity, fittedLog(span)]));
  const spanLogs = new Map<RaritySpan, number>();
  const saleRarity = Float64Array.from(design.saleSpans, span => {
    const log = spanLogs.get(span) ?? fittedLog(span);
    spanLogs.set(span, log);
    return log;
  });
  // On the scale of the fit, but no surer than the weightiest: records that are all old, or all hearsay, stay
  // as unsure as they are.
  const weightiest = design.lots.reduce(
    (most, { weight }) => Math.max(most, weight),
    records.reduce((most, { weight }) => Math.max(most, weight), 0),
  );
  const scale = weightiest > 0 ? fit.informationScale * Math.min(1, weightiest) : 1;
  const weights = fit.weights.map((w, i) => w * fit.robust[i]! * fit.clarity[i]! * scale);
  const doubtful = records
    .map(({ record }, i) => ({ id: record.id, departure: fit.departures[i]! }))
    .filter(({ departure }) => Math.abs(departure) >= doubtfulFrom);

  const mislabelled = records
    .map(({ record }, i) => ({ id: record.id, chance: 1 - (fit.labels?.right[i] ?? 1) }))
    .filter(({ chance }) => chance > doubtfulLabelFrom);

  return {
    on,
    reportingCurrency: market.reportingCurrency,
    assumptions,
    setAside,
    doubtful,
    mislabelled,
    ownAside: own.aside,
    recordsUsed: records.length,
    leftOut: leftOut(fit, records.length),
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
    trend: model === 'trend' ? { perYear: Math.exp(estimate[columns.trend]!), years } : null,
    time: {
      used: assumptions.index === 'cpi-u' || typeof assumptions.index !== 'string' ? 'index' : model,
      by: assumptions.index === 'records' ? 'records' : 'owner',
      trial,
      steps: model === 'steps' ? stepsOf(estimate, years) : [],
    },
    rounds: fit.rounds,
    stable: fit.stable,
    inside: {
      index,
      sales,
      slots: design.slots,
      tree: design.tree,
      weights,
      certainty: certaintyOf(design, fit, weights),
      departures: fit.departures,
      saleRarity,
      timeLog: timeLogOf(estimate, model),
      rows,
      root,
      level: design.centre + estimate[columns.level]!,
      curve,
      rarities: design.rarities,
      rarityLog,
      unknownApart:
        1 + design.spans.get(null)!.open / Math.max(1e-6, assumptions.prior.betweenVariations ** 2),
      noise: noiseFactors(fit.noiseSlope),
      ungraded: {
        log: estimate[columns.ungraded]!,
        variance: fit.effects.variance[columns.ungraded]!,
        steps: design.gradeDoubt,
      },
      sourceLog: sourceLogOf(estimate),
      evidence: countEvidence(index, design.tree, sales, new Set(doubtful.map(({ id }) => id))),
      indexSpan: context.date.span,
    },
  };
};

/** What adjusting for date by the records' own trend would do, for the owner to take or leave. */
export interface OfferedTrend {
  /** Fitted factor of price per year, such as 1.03, and the years that the records span. */
  perYear: number;
  years: number;
  records: number;
  /**
   * How far the typical record lies from what the others predict, as a factor less 1: without
   * and with the trend.
   */
  typicalError: { without: number; with: number };
}

/**
 * The trend that can be offered in place of the assumption set's index; null where there are too few records
 * (forty over three years are needed). Fits the market twice. Throws RangeError as `fitMarket` does.
 */
export const fittedTrend = (market: Market, assumptions: AssumptionSet, on: IsoDate): OfferedTrend | null => {
  const { trend, leftOut, recordsUsed } = fitMarket(market, { ...assumptions, index: 'trend' }, on);
  if (!trend) return null;
  const without = fitMarket(market, { ...assumptions, index: 'none' }, on).leftOut.typicalError!;
  return { ...trend, records: recordsUsed, typicalError: { without, with: leftOut.typicalError! } };
};
