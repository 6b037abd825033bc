import type { AssumptionSet } from '../types.ts';
import { finishStates, grades, type Rarity, rarities } from '../words.ts';
import { assumedCurve } from './assumed-curve.ts';
import { columns, curveCells, type RaritySpan, raritySpan, supplyOf } from './market-columns.ts';
import type { MarketIndex } from './market-index.ts';
import type { PreparedSale } from './prepare-sales.ts';

const steps = grades.length;

/** The sales as the fit wants them: a row of columns each, and their places in the tree. */
export interface MarketDesign {
  /** Columns of each sale, and last its log price less the assumed curve and rarity, about their centre: `columns.count + 1` to a row. */
  rows: Float64Array;
  centre: number;
  /** Log of the assumed curve at each finish state × 19 + grade step, and the cell of each sale. */
  assumed: Float64Array;
  cells: Int32Array;
  weights: Float64Array;
  /** 1 where the sale has no grade, and stands at the assumption set's unknown grade. */
  ungraded: Uint8Array;
  /** Variation of each sale; one that names its casting only has a place of its own after the known ones. */
  slots: Int32Array;
  slotCasting: Int32Array;
  castingSeries: Int32Array;
  seriesCount: number;
  /** Rarity columns of each rarity, and of the sales of each casting that name no variation. */
  spans: Map<Rarity | null, RaritySpan>;
  unnamed: Map<number, RaritySpan>;
}

/** Rarity columns of a casting's unnamed variation: those of its known variations, by how common each is. */
const unnamedSpan = (
  index: MarketIndex,
  casting: number,
  spans: Map<Rarity | null, RaritySpan>,
): RaritySpan => {
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

/** Lays out the sales of a market for the fit. Throws RangeError on bad grade multipliers, finish or rarity factors. */
export const designMarket = (
  index: MarketIndex,
  sales: readonly PreparedSale[],
  assumptions: AssumptionSet,
): MarketDesign => {
  const width = columns.count + 1;
  const count = sales.length;
  const spans = new Map<Rarity | null, RaritySpan>(
    [...rarities, null].map(rarity => [rarity, raritySpan(rarity, assumptions.rarityFactors)]),
  );
  const assumed = Float64Array.from(finishStates.flatMap(state => assumedCurve(assumptions, state)));
  const rows = new Float64Array(count * width);
  const cells = new Int32Array(count);
  const slots = new Int32Array(count);
  const weights = Float64Array.from(sales, ({ weight }) => weight);
  const slotCasting = [...index.variationCasting];
  const unnamed = new Map<number, RaritySpan>();
  let centre = 0;
  let total = 0;
  sales.forEach((sale, i) => {
    const { variation, casting, state, step, weight } = sale;
    if (variation < 0 && !unnamed.has(casting)) unnamed.set(casting, unnamedSpan(index, casting, spans));
    const span = variation < 0 ? unnamed.get(casting)! : spans.get(index.variationRarity[variation]!)!;
    slots[i] = variation < 0 ? slotCasting.push(casting) - 1 : variation;
    cells[i] = state * steps + step;
    const at = i * width;
    const curve = curveCells[cells[i]!]!;
    for (let a = 0; a < columns.count; a++) rows[at + a] = curve[a]! + span.cell[a]!;
    rows[at + columns.level] = 1;
    rows[at + columns.trend] = -sale.age;
    const log = sale.price + sale.dateLog - sale.partsLog - assumed[cells[i]!]! - span.log;
    rows[at + columns.count] = log;
    centre += weight * log;
    total += weight;
  });
  centre = total > 0 ? centre / total : 0;
  for (let i = 0; i < count; i++) rows[i * width + columns.count]! -= centre;
  return {
    rows,
    centre,
    assumed,
    cells,
    weights,
    ungraded: Uint8Array.from(sales, ({ record }) => (record.grade === null ? 1 : 0)),
    slots,
    slotCasting: Int32Array.from(slotCasting),
    castingSeries: Int32Array.from(index.castingSeries),
    seriesCount: index.seriesCount,
    spans,
    unnamed,
  };
};
