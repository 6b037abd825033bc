import { assumedCurve } from './assumed-curve.ts';
import { fitRounds } from './fit-rounds.ts';
import type { FittedMarket } from './fitted-market.ts';
import { columns, curveCells, raritySpan, supplyOf } from './market-columns.ts';
import { indexMarket, type MarketIndex } from './market-index.ts';
import { prepareSales } from './prepare-sales.ts';
import { doubtfulFrom } from './robust-weight.ts';
import { forward } from './shared-effects.ts';
import type { AssumptionSet, IsoDate, Market } from './types.ts';
import { type FinishState, finishStates, grades, type Rarity, rarities } from './words.ts';

const steps = grades.length;
/** A trend is fitted from at least so many records over at least so many years. */
const trendRecords = 40;
const trendYears = 3;

type Span = ReturnType<typeof raritySpan>;

/** Rarity columns of a casting's unnamed variation: those of its known variations, by how common each is. */
const unnamedSpan = (index: MarketIndex, casting: number, spans: Map<Rarity | null, Span>): Span => {
  const cell = new Float64Array(columns.count);
  const places = index.castingVariations[casting]!;
  const total = places.reduce((sum, v) => sum + supplyOf(index.variationRarity[v]!), 0);
  let log = 0;
  for (const v of places) {
    const rarity = index.variationRarity[v]!;
    const share = supplyOf(rarity) / total;
    const span = spans.get(rarity)!;
    log += share * span.log;
    for (let a = 0; a < cell.length; a++) cell[a]! += share * span.cell[a]!;
  }
  return { cell, log };
};

const recordOf = <Key extends string, Value>(keys: readonly Key[], of: (key: Key, i: number) => Value) =>
  Object.fromEntries(keys.map((key, i) => [key, of(key, i)])) as Record<Key, Value>;

const smallest = (values: Iterable<number>) => {
  let least = Number.POSITIVE_INFINITY;
  for (const value of values) least = Math.min(least, value);
  return least;
};

/**
 * Fits the market on a day: adjusts every sale record, pools them by hierarchical credibility, and fits the grade curve of each finish
 * state, the factors of finish states and rarities, and (where asked for and records suffice) a yearly trend. All in natural logs
 * of minor units of the reporting currency. Records that cannot be used are set aside and listed with the reason.
 *
 * Throws RangeError on bad figures in the market, the assumption set or the date. Values made from the result depend on nothing else.
 */
export const fitMarket = (market: Market, assumptions: AssumptionSet, on: IsoDate): FittedMarket => {
  const index = indexMarket(market);
  const { sales, setAside, date } = prepareSales(market, index, assumptions, on);
  const spans = new Map<Rarity | null, Span>(
    [...rarities, null].map(rarity => [rarity, raritySpan(rarity, assumptions.rarityFactors)]),
  );
  const assumed = finishStates.map(state => assumedCurve(assumptions, state));
  const ages = sales.map(({ age }) => age);
  const years = sales.length > 0 ? Math.max(0, ...[-smallest(ages.map(a => -a)) - smallest(ages)]) : 0;
  const withTrend = assumptions.index === 'trend' && sales.length >= trendRecords && years >= trendYears;

  const width = columns.count + 1;
  const count = sales.length;
  const known = index.variationIds.length;
  const rows = new Float64Array(count * width);
  const cells = new Int32Array(count);
  const slots = new Int32Array(count);
  const weights = new Float64Array(count);
  const ungraded = new Uint8Array(count);
  const slotCasting = [...index.variationCasting];
  const unnamed = new Map<number, Span>();
  const variationSales = new Int32Array(known);
  const castingSales = new Int32Array(index.castingIds.length);
  const seriesSales = new Int32Array(index.seriesCount);
  const seriesWeight = new Float64Array(index.seriesCount);
  let centre = 0;
  let total = 0;
  sales.forEach((sale, i) => {
    const { variation, casting, state, step, weight } = sale;
    let span: Span;
    if (variation >= 0) {
      span = spans.get(index.variationRarity[variation]!)!;
      slots[i] = variation;
      variationSales[variation]!++;
    } else {
      span = unnamed.get(casting) ?? unnamedSpan(index, casting, spans);
      unnamed.set(casting, span);
      slots[i] = slotCasting.push(casting) - 1;
    }
    const series = index.castingSeries[casting]!;
    castingSales[casting]!++;
    seriesSales[series]!++;
    seriesWeight[series]! += weight;
    cells[i] = state * steps + step;
    weights[i] = weight;
    ungraded[i] = sale.record.grade === null ? 1 : 0;
    const at = i * width;
    const curve = curveCells[cells[i]!]!;
    for (let a = 0; a < columns.count; a++) rows[at + a] = curve[a]! + span.cell[a]!;
    rows[at + columns.level] = 1;
    rows[at + columns.trend] = -sale.age;
    const log = sale.price + sale.dateLog - sale.partsLog - assumed[state]![step]! - span.log;
    rows[at + columns.count] = log;
    centre += weight * log;
    total += weight;
  });
  centre = total > 0 ? centre / total : 0;
  for (let i = 0; i < count; i++) rows[i * width + columns.count]! -= centre;

  const castingOfSlot = Int32Array.from(slotCasting);
  const fit = fitRounds({
    assumptions,
    withTrend,
    rows,
    cells,
    weights,
    ungraded,
    slots,
    slotCasting: castingOfSlot,
    castingSeries: Int32Array.from(index.castingSeries),
    seriesCount: index.seriesCount,
  });
  const { estimate, root } = fit.effects;
  const row = new Float64Array(columns.count);
  for (let i = 0; i < count; i++) {
    for (let a = 0; a < columns.count; a++) row[a] = rows[i * width + a]!;
    rows.set(forward(root, columns.count, row), i * width);
    rows[i * width + columns.count] = fit.residuals[i]!;
  }
  const curveAt = (state: number, step: number) => fit.curve[state * steps + step]!;
  const fittedLog = ({ cell, log }: Span) => cell.reduce((sum, x, a) => sum + x * estimate[a]!, log);
  const rarityLog = new Map([...spans].map(([rarity, span]) => [rarity, fittedLog(span)]));
  const saleRarity = Float64Array.from(sales, ({ variation, casting }) =>
    variation >= 0 ? rarityLog.get(index.variationRarity[variation]!)! : fittedLog(unnamed.get(casting)!),
  );

  const doubtful: FittedMarket['doubtful'] = [];
  const castingDoubtful = new Map<number, number[]>();
  sales.forEach((sale, i) => {
    if (Math.abs(fit.departures[i]!) < doubtfulFrom) return;
    doubtful.push({ id: sale.record.id, departure: fit.departures[i]! });
    castingDoubtful.set(sale.casting, [...(castingDoubtful.get(sale.casting) ?? []), sale.record.id]);
  });
  const { variances } = fit;
  return {
    on,
    reportingCurrency: market.reportingCurrency,
    assumptions,
    setAside,
    doubtful,
    recordsUsed: count,
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
      slots,
      slotCasting: castingOfSlot,
      weights: weights.map((w, i) => w * fit.robust[i]! * fit.clarity[i]!),
      robust: fit.robust,
      departures: fit.departures,
      saleRarity,
      trendLog: withTrend ? estimate[columns.trend]! : 0,
      rows,
      root,
      level: centre + estimate[columns.level]!,
      curve: fit.curve,
      rarityLog,
      seriesWeight,
      seriesSales,
      castingSales,
      variationSales,
      castingDoubtful,
      dateWhy: date.why,
      memory: new Map(),
      views: [],
      ladders: [],
    },
  };
};
