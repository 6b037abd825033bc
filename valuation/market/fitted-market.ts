import type { AssumptionSet, Currency, IsoDate, TimeUsed } from '../types.ts';
import { type FinishState, finishStates, type Rarity } from '../words.ts';
import type { DateAdjustment } from './date-adjustment.ts';
import type { MarketTree } from './market-design.ts';
import type { MarketIndex } from './market-index.ts';
import type { Variances } from './pool-evidence.ts';
import type { OwnAside } from './prepare-own.ts';
import type { PreparedSale, SetAside } from './prepare-sales.ts';
import type { RarityKey } from './rarity-chances.ts';

/** How many sales there are of what, by place. */
export interface EvidenceCounts {
  variationSales: Int32Array;
  castingSales: Int32Array;
  seriesSales: Int32Array;
  /** Sum of the weights (recency × reliability) of each series' sales, and of what stands beside them. */
  seriesWeight: Float64Array;
  /** Of each series: cars bought singly, lots with a car of it, and beliefs. */
  seriesPurchases: Int32Array;
  seriesLots: Int32Array;
  seriesBeliefs: Int32Array;
  /** Ids of the doubtful records of each casting that has any. */
  castingDoubtful: Map<number, number[]>;
  /** Sales, purchases included, of each finish state, by its place in `finishStates`. */
  stateSales: Int32Array;
}

/**
 * Sales at each node of the market, by its place in the index, and the weight they carry; doubtful records
 * (by their id) count apart.
 */
export const countEvidence = (
  index: MarketIndex,
  { castingSeries }: MarketTree,
  sales: readonly PreparedSale[],
  doubtful: ReadonlySet<number>,
): EvidenceCounts => {
  const counts: EvidenceCounts = {
    variationSales: new Int32Array(index.variationIds.length),
    castingSales: new Int32Array(index.castingIds.length),
    seriesSales: new Int32Array(index.seriesCount),
    seriesWeight: new Float64Array(index.seriesCount),
    seriesPurchases: new Int32Array(index.seriesCount),
    seriesLots: new Int32Array(index.seriesCount),
    seriesBeliefs: new Int32Array(index.seriesCount),
    castingDoubtful: new Map(),
    stateSales: new Int32Array(finishStates.length),
  };
  const lots = new Set<string>();
  for (const { record, variation, casting, state, weight, from, lot } of sales) {
    if (from?.kind !== 'belief') counts.stateSales[state]!++;
    const series = castingSeries[casting]!;
    if (from) {
      counts.seriesWeight[series]! += weight;
      if (from.kind === 'purchase') counts.seriesPurchases[series]!++;
      else if (from.kind === 'belief') counts.seriesBeliefs[series]!++;
      else if (!lots.has(`${series} ${lot}`)) {
        lots.add(`${series} ${lot}`);
        counts.seriesLots[series]!++;
      }
      continue;
    }
    if (variation >= 0) counts.variationSales[variation]!++;
    counts.castingSales[casting]!++;
    counts.seriesSales[series]!++;
    counts.seriesWeight[series]! += weight;
    if (!doubtful.has(record.id)) continue;
    const ids = counts.castingDoubtful.get(casting) ?? [];
    ids.push(record.id);
    counts.castingDoubtful.set(casting, ids);
  }
  return counts;
};

/** What valuations are made from; not for reading on screens. */
export interface FitInside {
  index: MarketIndex;
  /** The sale records by id, then what was paid, then beliefs. */
  sales: PreparedSale[];
  /**
   * Variation of each sale; a sale that names its casting only has a place of its own after the known ones.
   */
  slots: Int32Array;
  tree: MarketTree;
  /**
   * Weight of each sale: recency × reliability × robustness × the chance that it is booked rightly, less where
   * its grade is unknown, on the scale of the fit.
   */
  weights: Float64Array;
  /**
   * What each sale makes surer: its weight, but of the car of a lot only so much as the lot's price
   * tells of that car alone, the others unknown, which is its share of its weight, and of a record less where
   * its label is doubted. The very weights where there are neither lots nor doubts.
   */
  certainty: Float64Array;
  /** Standard deviations by which each sale departs from what the others predict. */
  departures: Float64Array;
  /** Log of the rarity factor of each sale's variation. */
  saleRarity: Float64Array;
  /**
   * L⁻¹ × the columns of each sale, and last its log residual from the effects that all share:
   * `columns.count + 1` to a row.
   */
  rows: Float64Array;
  /**
   * L, the root of the effects' posterior precision: |L⁻¹ x|² is the variance that a combination x of
   * the effects has.
   */
  root: Float64Array;
  level: number;
  /** Log of the factor by which prices have moved since a sale of so many years ago, as fitted. */
  timeLog: (age: number) => number;
  /** Fitted log price at each finish state and grade step (state × 19 + step), relative to C10 original. */
  curve: Float64Array;
  /** The rarity of each variation, or what is told of an unknown one, and the log of the factor of each. */
  rarities: RarityKey[];
  rarityLog: Map<RarityKey, number>;
  /** By what factor an unknown rarity lets a variation lie farther from its casting, as a variance. */
  unknownApart: number;
  /**
   * Log of what a sale without a grade brings against one of the unknown grade, the variance of that, and how
   * far off the grade may be, in half points.
   */
  ungraded: { log: number; variance: number; steps: number };
  /** Log by which the prices of a kind of source lie above those that they are taken for. */
  sourceLog: (source: string) => number;
  /** Factor of the variance of one sale at each grade step, 1 at C6. */
  noise: Float64Array;
  evidence: EvidenceCounts;
  indexSpan: DateAdjustment['span'];
}

/** The market as the engine understands it on a day: pooled, with its curves. Made by `fitMarket`. */
export interface FittedMarket {
  on: IsoDate;
  reportingCurrency: Currency;
  assumptions: AssumptionSet;
  /** Records that could not be used, with the reason. */
  setAside: SetAside[];
  /** What was paid and what is believed that could not be used. */
  ownAside: OwnAside[];
  /** Records doubted as wild: how many standard deviations they lie from what the others predict. */
  doubtful: { id: number; departure: number }[];
  /**
   * Records whose price suits another variation of their casting better: the chance, 0…1, that they are booked
   * under the wrong one. They count by what is left.
   */
  mislabelled: { id: number; chance: number }[];
  recordsUsed: number;
  /**
   * The estimate tried on its own records: each predicted by the others, the share of them that fell inside
   * the 80 % range (null with no records), and how far the typical one fell from the mid, as a factor less 1.
   */
  leftOut: { coverage: number | null; typicalError: number | null };
  /**
   * Multiplier of price at each of the nineteen grades, C1 to C10, relative to C10 of the same finish state.
   */
  gradeCurves: Record<FinishState, number[]>;
  /** Price in this finish state relative to original finish, both at C10. */
  finishFactors: Record<FinishState, number>;
  rarityFactors: Record<Rarity, number>;
  /** Standard deviations of log price, after the records. */
  spread: { within: number; betweenVariations: number; betweenCastings: number; betweenSeries: number };
  /** Yearly change of price that was fitted, as a factor such as 1.03; null where no trend is used. */
  trend: { perYear: number; years: number } | null;
  /** How prices move with time, and why it is taken so. */
  time: TimeUsed;
  /** Rounds until nothing moved any more, and whether that was reached. */
  rounds: number;
  stable: boolean;
  inside: FitInside;
}

/**
 * Variance of a variation's own level about its casting's; −1 is one of which nothing is known, nor its
 * rarity.
 */
export const ownVariance = (fitted: FittedMarket, variation: number): number => {
  const { tree, unknownApart } = fitted.inside;
  const apart = variation < 0 ? unknownApart : (tree.variationApart?.[variation] ?? 1);
  return fitted.spread.betweenVariations ** 2 * apart;
};

/** Variances of log price at each level, the squares of the fitted spreads (standard deviations). */
export const variancesOf = (fitted: FittedMarket): Variances => ({
  within: fitted.spread.within ** 2,
  betweenVariations: fitted.spread.betweenVariations ** 2,
  betweenCastings: fitted.spread.betweenCastings ** 2,
  betweenSeries: fitted.spread.betweenSeries ** 2,
});
