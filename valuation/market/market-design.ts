import { logSumExp } from '../statistics/log-sum-exp.ts';
import type { AssumptionSet } from '../types.ts';
import { finishStates, grades, rarities } from '../words.ts';
import { assumedCurve, unknownGradeSteps } from './assumed-curve.ts';
import {
  columns,
  curveCells,
  mixedSpan,
  type RaritySpan,
  raritySpan,
  sourceColumn,
  yearsWithin,
} from './market-columns.ts';
import type { MarketIndex } from './market-index.ts';
import type { EvidenceTree } from './pool-evidence.ts';
import type { PreparedLot } from './prepare-own.ts';
import type { PreparedSale } from './prepare-sales.ts';
import { type RarityKey, rarityKeys, supplyOf } from './rarity-chances.ts';

const steps = grades.length;

/**
 * A lot among the sales: the places of its cars, and the log of its price at the effective date. Its parts'
 * weights sum to `weight`.
 */
export interface DesignedLot {
  parts: number[];
  log: number;
  weight: number;
}

/** The sales as the fit wants them: a row of columns each, and their places in the tree. */
export interface MarketDesign {
  /**
   * Columns of each sale, and last its log price less its offset, about their centre:
   * `columns.count + 1` to a row.
   */
  rows: Float64Array;
  centre: number;
  /** Log of the assumed curve at each finish state × 19 + grade step, and the cell of each sale. */
  assumed: Float64Array;
  cells: Int32Array;
  weights: Float64Array;
  /** Log of what is assumed of each sale: its place on the curve, its rarity, its parts. */
  offsets: Float64Array;
  /** 1 where the sale has no grade, and stands at the assumption set's unknown grade. */
  ungraded: Uint8Array;
  /**
   * How far off an unknown grade may be, as a standard deviation in half points: that of the graded records
   * about their mean, the usual one counting as ten of them.
   */
  gradeDoubt: number;
  /** Variance of log price that a belief's own range gives; 0 elsewhere. */
  ranges: Float64Array;
  /** 1 where it is a belief. */
  beliefs: Uint8Array;
  /** 1 where somebody else said which variation it is: a sale record that is not of a car of the owner's. */
  labelled: Uint8Array;
  /**
   * Place of each sale's lot, −1 for a sale of its own. The rows and weights of a lot's cars are where the
   * fit starts, by its assumptions.
   */
  lotOf: Int32Array;
  lots: DesignedLot[];
  /** Variation of each sale; one that names its casting only has a place of its own after the known ones. */
  slots: Int32Array;
  tree: MarketTree;
  /** The rarity of each known variation, or what is told of an unknown one. */
  rarities: RarityKey[];
  /** Rarity columns of each rarity, and of the sales of each casting that name no variation. */
  spans: Map<RarityKey, RaritySpan>;
  saleSpans: RaritySpan[];
}

/**
 * The tree above the sales, with the places that sales and beliefs without a variation have
 * after the known ones.
 */
export interface MarketTree extends EvidenceTree {
  variationCasting: Int32Array;
  castingSeries: Int32Array;
}

/** Rarity columns of a casting's unnamed variation: those of its known variations, by how common each is. */
const unnamedSpan = (
  index: MarketIndex,
  casting: number,
  spans: Map<RarityKey, RaritySpan>,
  keys: readonly RarityKey[],
): RaritySpan => {
  const places = index.castingVariations[casting]!;
  if (places.length === 0) return spans.get(null)!;
  const total = places.reduce((sum, v) => sum + supplyOf(index.variationRarity[v]!), 0);
  return mixedSpan(
    places.map(v => ({
      span: spans.get(keys[v]!)!,
      share: supplyOf(index.variationRarity[v]!) / total,
    })),
  );
};

/** Starts every lot at shares by what is assumed of its cars. */
const layOutLots = (
  lots: readonly PreparedLot[],
  sales: readonly PreparedSale[],
  offsets: Float64Array,
  start: { logs: Float64Array; weights: Float64Array },
): DesignedLot[] =>
  lots.map(({ parts, price, weight }) => {
    const log = price + sales[parts[0]!]!.dateLog;
    const sum = logSumExp(parts.map(i => offsets[i]!));
    for (const i of parts) {
      start.logs[i] = log - sum;
      start.weights[i] = weight * Math.exp(offsets[i]! - sum);
    }
    return { parts, log, weight };
  });

/**
 * Lays out the sales of a market, and the lots that some of them are parts of, for the fit;
 * `seriesOfBeliefs` are the series of the places after the castings. Throws RangeError on bad grade
 * multipliers, finish or rarity factors.
 */
export const designMarket = (
  index: MarketIndex,
  sales: readonly PreparedSale[],
  assumptions: AssumptionSet,
  { lots, seriesOfBeliefs }: { lots: readonly PreparedLot[]; seriesOfBeliefs: readonly number[] } = {
    lots: [],
    seriesOfBeliefs: [],
  },
): MarketDesign => {
  const width = columns.count + 1;
  const count = sales.length;
  const byYears = assumptions.index === 'steps' || assumptions.index === 'records';
  const keys = rarityKeys(
    index,
    sales.flatMap(({ variation, from }) => (from === null ? variation : [])),
  );
  const spans = new Map<RarityKey, RaritySpan>(
    [...new Set([...rarities, null, ...keys])].map(one => [one, raritySpan(one, assumptions.rarityFactors)]),
  );
  const assumed = Float64Array.from(finishStates.flatMap(state => assumedCurve(assumptions, state)));
  const rows = new Float64Array(count * width);
  const cells = new Int32Array(count);
  const slots = new Int32Array(count);
  const weights = Float64Array.from(sales, ({ weight }) => weight);
  const offsets = new Float64Array(count);
  const logs = new Float64Array(count);
  const variationCasting = [...index.variationCasting];
  const withoutOwn: number[] = [];
  const unnamed = new Map<number, RaritySpan>();
  const spanOf = ({ variation, casting, from }: PreparedSale): RaritySpan => {
    if (variation >= 0) return spans.get(keys[variation]!)!;
    if (from?.kind === 'belief') return spans.get('common')!;
    const known = unnamed.get(casting) ?? unnamedSpan(index, casting, spans, keys);
    unnamed.set(casting, known);
    return known;
  };
  const saleSpans = sales.map(spanOf);
  sales.forEach((sale, i) => {
    const { variation, casting, state, step } = sale;
    const span = saleSpans[i]!;
    slots[i] = variation < 0 ? variationCasting.push(casting) - 1 : variation;
    if (variation < 0 && sale.from?.kind === 'belief') withoutOwn.push(slots[i]!);
    cells[i] = state * steps + step;
    const at = i * width;
    const curve = curveCells[cells[i]!]!;
    for (let a = 0; a < columns.count; a++) rows[at + a] = curve[a]! + span.cell[a]!;
    rows[at + columns.level] = 1;
    rows[at + columns.trend] = -sale.age;
    if (byYears)
      for (let k = 0; k < columns.years; k++) rows[at + columns.firstYear + k] = -yearsWithin(sale.age, k);
    if (sale.from?.kind !== 'belief') {
      const source = sourceColumn(sale.record.source);
      if (source >= 0) rows[at + source] = 1;
      if (sale.record.grade === null) rows[at + columns.ungraded] = 1;
    }
    offsets[i] = sale.partsLog + assumed[cells[i]!]! + span.log;
    logs[i] = sale.price + sale.dateLog - sale.partsLog - assumed[cells[i]!]! - span.log;
  });
  const designed = layOutLots(lots, sales, offsets, { logs, weights });
  let centre = 0;
  let total = 0;
  for (let i = 0; i < count; i++) {
    centre += weights[i]! * logs[i]!;
    total += weights[i]!;
  }
  centre = total > 0 ? centre / total : 0;
  for (let i = 0; i < count; i++) rows[i * width + columns.count] = logs[i]! - centre;
  const tree: MarketTree = {
    variationCasting: Int32Array.from(variationCasting),
    castingSeries: Int32Array.from([...index.castingSeries, ...seriesOfBeliefs]),
    seriesCount: index.seriesCount,
  };
  // What is not known of a rarity lets a variation lie as much farther from its casting.
  const farther = (open: number) => 1 + open / Math.max(1e-6, assumptions.prior.betweenVariations ** 2);
  const apart = Float64Array.from(variationCasting, (_, slot) =>
    slot < keys.length ? farther(spans.get(keys[slot]!)!.open) : 1,
  );
  slots.forEach((slot, i) => {
    if (slot >= keys.length) apart[slot] = farther(saleSpans[i]!.open);
  });
  for (const slot of withoutOwn) apart[slot] = 0;
  if (apart.some(one => one !== 1)) tree.variationApart = apart;
  if (withoutOwn.length > 0)
    tree.castingApart = Float64Array.from(tree.castingSeries, (_, c) =>
      c < index.castingSeries.length ? 1 : 0,
    );
  const graded = sales.filter(({ record, from }) => record.grade !== null && from === null);
  const middle = graded.reduce((sum, { step }) => sum + step, 0) / Math.max(1, graded.length);
  const squares = graded.reduce((sum, { step }) => sum + (step - middle) ** 2, 0);
  return {
    gradeDoubt: Math.sqrt((squares + 10 * unknownGradeSteps ** 2) / (graded.length + 10)),
    rows,
    centre,
    assumed,
    cells,
    weights,
    offsets,
    ungraded: Uint8Array.from(sales, ({ record }) => (record.grade === null ? 1 : 0)),
    ranges: Float64Array.from(sales, ({ range }) => range),
    beliefs: Uint8Array.from(sales, ({ from }) => (from?.kind === 'belief' ? 1 : 0)),
    labelled: Uint8Array.from(sales, ({ from, record, variation }) =>
      from === null && record.source !== 'own sale' && variation >= 0 ? 1 : 0,
    ),
    lotOf: Int32Array.from(sales, ({ lot }) => lot),
    lots: designed,
    slots,
    tree,
    rarities: keys,
    spans,
    saleSpans,
  };
};
