import type { Market } from '../../../valuation/types.ts';
import { type FinishState, finishStates, type Grade, rarities } from '../../../valuation/words.ts';
import { mixedModel } from './mixed-model.ts';

interface Seen {
  state: FinishState;
  grade: Grade | null;
  variationId: number;
  years: number;
  source: string;
}

/**
 * A mixed model fitted by restricted maximum likelihood on the records of a market: nested intercepts of series,
 * casting and variation; finish states, grade in three stretches and its slope for cars that are not original,
 * rarities, sources and a line in time as fixed effects. Gives mean and variance of the log of one sale on the day.
 */
export const referenceOf = (market: Market, on: string) => {
  const casting = new Map(market.variations.map(({ id, castingId }) => [id, castingId]));
  const series = new Map(market.castings.map(({ id, seriesId }) => [id, seriesId]));
  const rarity = new Map(market.variations.map(one => [one.id, one.rarity]));
  const sources = [...new Set(market.sales.map(({ source }) => source))].filter(one => one !== 'auction');
  const columns = ({ state, grade, variationId, years, source }: Seen): number[] => {
    const at = grade ?? 6;
    return [
      1,
      ...finishStates.slice(1).map(one => Number(one === state)),
      Math.min(at, 4),
      Math.max(0, Math.min(at, 7) - 4),
      Math.max(0, at - 7),
      state === 'original' ? 0 : at - 6,
      ...[...rarities.slice(1), null].map(one => Number(rarity.get(variationId) === one)),
      Number(grade === null),
      years,
      ...sources.map(one => Number(one === source)),
    ];
  };
  const levels = (id: number) => [`${series.get(casting.get(id)!)}`, `${casting.get(id)}`, `v${id}`];
  const sold = market.sales.filter(({ variationId }) => variationId !== null);
  const x = sold.map(sale =>
    columns({
      state: sale.finishState,
      grade: sale.grade,
      variationId: sale.variationId!,
      years: (Date.parse(on) - Date.parse(sale.soldOn)) / (365.25 * 86_400_000),
      source: sale.source,
    }),
  );
  const y = sold.map(({ price }) => Math.log(price));
  // A column that no record has cannot be told; it is left at none.
  const used = x[0]!.map((_, a) => new Set(x.map(row => row[a])).size > 1 || a === 0);
  // Nor does the slope of other states tell from the states themselves where all are of one grade.
  if (new Set(sold.map(({ grade }) => grade)).size === 1) used[finishStates.length + 3] = false;
  const kept = (row: number[]) => row.filter((_, a) => used[a]);
  const model = mixedModel(
    { y, x: x.map(kept), levels: sold.map(({ variationId }) => levels(variationId!)) },
    [0.09, 0.25, 0.12, 0.12],
    70,
  );
  return (variationId: number, state: FinishState, grade: Grade | null) =>
    model.predict(
      kept(columns({ state, grade, variationId, years: 0, source: 'auction' })),
      levels(variationId),
    );
};
