import { leastSquares } from '../../../valuation/statistics/least-squares.ts';
import type { Market, SaleRecord } from '../../../valuation/types.ts';
import { type FinishState, finishStates, rarities } from '../../../valuation/words.ts';

/** Log prices by the plain ways that the engine must beat; NaN where a way has no answer. */
export interface Guesses {
  /**
   * Mean log of the variation's own sales, and of its casting's, each adjusted for grade and finish state by
   * the dummies' fit.
   */
  ownMean: number;
  castingMean: number;
  /** Ordinary least squares with dummies for castings and rarities, or for variations (for one without sales, the mean of its casting's
   * variations), besides finish states, whole grades and a line in time. */
  castingDummies: number;
  variationDummies: number;
}

const mean = (values: number[]) => values.reduce((a, b) => a + b, 0) / values.length;

/**
 * Dummies for finish states besides original, for whole grades besides C6 (halves between two), and years
 * before the effective date.
 */
const commonColumns = (state: FinishState, grade: number, years: number): number[] => [
  ...finishStates.slice(1).map(s => Number(s === state)),
  ...[1, 2, 3, 4, 5, 7, 8, 9, 10].map(g => Math.max(0, 1 - Math.abs(g - grade))),
  years,
];

/**
 * Least squares with a dummy per group, by taking group means off first (Frisch–Waugh–Lovell): the same fit,
 * without the columns.
 */
const withDummies = (rows: number[][], y: number[], groups: number[]) => {
  const members = Map.groupBy(groups.keys(), i => groups[i]!);
  const width = rows[0]!.length;
  const means = new Map(
    [...members].map(([group, places]) => [
      group,
      {
        y: mean(places.map(i => y[i]!)),
        x: Array.from({ length: width }, (_, a) => mean(places.map(i => rows[i]![a]!))),
      },
    ]),
  );
  const apart = rows.map((row, i) => row.map((x, a) => x - means.get(groups[i]!)!.x[a]!));
  // A column that never varies within a group tells nothing and would leave the fit undetermined.
  const kept = Array.from({ length: width }, (_, a) => a).filter(a =>
    apart.some(row => Math.abs(row[a]!) > 1e-9),
  );
  const { coefficients } = leastSquares(
    apart.map(row => kept.map(a => row[a]!)),
    y.map((value, i) => value - means.get(groups[i]!)!.y),
  );
  const beta = Array.from({ length: width }, () => 0);
  kept.forEach((a, k) => {
    beta[a] = coefficients[k]!;
  });
  const times = (x: number[]) => x.reduce((sum, value, a) => sum + value * beta[a]!, 0);
  const levels = new Map([...means].map(([group, at]) => [group, at.y - times(at.x)]));
  return { times, levels };
};

/** Fits the plain estimators to a market's graded sales. */
export const plainEstimators = (market: Market, on: string) => {
  const today = Date.parse(on);
  const sales = market.sales.filter(sale => sale.grade !== null && sale.variationId !== null);
  const yearsOf = (sale: SaleRecord) => (today - Date.parse(sale.soldOn)) / (365.25 * 86_400_000);
  const rarityOf = new Map(market.variations.map(v => [v.id, v.rarity]));
  const castingOf = new Map(market.variations.map(v => [v.id, v.castingId]));
  const rarityColumns = (id: number) => rarities.slice(1).map(r => Number(rarityOf.get(id) === r));
  const y = sales.map(sale => Math.log(sale.price));
  const common = sales.map(sale => commonColumns(sale.finishState, sale.grade!, yearsOf(sale)));
  const byCasting = withDummies(
    common.map((row, i) => [...row, ...rarityColumns(sales[i]!.variationId!)]),
    y,
    sales.map(sale => sale.castingId),
  );
  const byVariation = withDummies(
    common,
    y,
    sales.map(sale => sale.variationId!),
  );
  const overall = mean([...byCasting.levels.values()]);
  const variationLevels = Map.groupBy(byVariation.levels, ([id]) => castingOf.get(id)!);
  const adjusted = sales.map((_, i) => y[i]! - byVariation.times(common[i]!));
  const byOwn = Map.groupBy(adjusted.keys(), i => sales[i]!.variationId!);
  const byItsCasting = Map.groupBy(adjusted.keys(), i => sales[i]!.castingId);
  const meanAt = (places: number[] | undefined) =>
    places ? mean(places.map(i => adjusted[i]!)) : Number.NaN;
  return (id: number, state: FinishState, grade: number): Guesses => {
    const casting = castingOf.get(id)!;
    const columns = commonColumns(state, grade, 0);
    const ofCasting = variationLevels.get(casting)?.map(([, level]) => level);
    return {
      ownMean: meanAt(byOwn.get(id)) + byVariation.times(columns),
      castingMean: meanAt(byItsCasting.get(casting)) + byVariation.times(columns),
      castingDummies:
        (byCasting.levels.get(casting) ?? overall) + byCasting.times([...columns, ...rarityColumns(id)]),
      variationDummies:
        (byVariation.levels.get(id) ?? (ofCasting ? mean(ofCasting) : overall)) + byVariation.times(columns),
    };
  };
};
