import type { WaitingGroup } from '../../../db/records/names/waiting-names.ts';
import { listSales, saleToMarket } from '../../../db/records/sales.ts';
import { indexMarket } from '../../../valuation/market/market-index.ts';
import { prepareSales } from '../../../valuation/market/prepare-sales.ts';
import {
  castingPrecision,
  evidencePrecisions,
  isNarrow,
  towardsSeries,
} from '../../../valuation/worth/evidence-width.ts';
import { marketToday, rawMarket } from '../figures/market.ts';
import type { Sources } from '../session/memo.ts';

/** What the sales of waiting names tell, and what is known of the series in which the names would stand. */
export interface WaitingEvidence {
  /** Cars under names that would have a value once these are castings of the series (null: a new one). */
  valued(groups: readonly WaitingGroup[], seriesId: number | null): number;
}

/**
 * What the sale records of waiting groups would add to a series, each as heavy as the engine takes it. Every
 * group stands for a casting of its own while that is worked out.
 */
export const waitingEvidence = async (
  { db, from }: Pick<Sources, 'db' | 'from'>,
  groups: readonly WaitingGroup[],
): Promise<WaitingEvidence> => {
  const market = await from(rawMarket);
  const fitted = await from(marketToday);
  const { assumptions, inside } = fitted;
  const groupOf = new Map(groups.flatMap((group, at) => group.saleIds.map(id => [id, at] as const)));
  const sales = (await listSales(db, { ids: [...groupOf.keys()] })).flatMap(sale => {
    const at = groupOf.get(sale.id);
    return at === undefined ? [] : (saleToMarket({ ...sale, castingId: at + 1, variationId: null }) ?? []);
  });
  const castings = groups.map((_, at) => ({ id: at + 1, seriesId: at + 1 }));
  const waiting = { ...market, castings, variations: [], sales };
  const precisions = groups.map(() => 0);
  for (const { record, weight } of prepareSales(waiting, indexMarket(waiting), assumptions, fitted.on).sales)
    precisions[record.castingId - 1]! += castingPrecision(weight, 1, assumptions);
  const told = evidencePrecisions(fitted);
  const placed = new Map(groups.map((group, at) => [group, precisions[at] ?? 0]));
  return {
    valued: (together, seriesId) => {
      const place = seriesId === null ? undefined : inside.index.seriesPlace.get(seriesId);
      const believed = place !== undefined && inside.evidence.seriesBeliefs[place]! > 0;
      const series = together.reduce(
        (sum, group) => sum + towardsSeries(placed.get(group) ?? 0, assumptions),
        place === undefined ? 0 : told.series[place]!,
      );
      return together
        .filter(
          group =>
            believed || isNarrow({ variation: 0, casting: placed.get(group) ?? 0, series }, assumptions),
        )
        .reduce((sum, { carIds }) => sum + carIds.length, 0);
    },
  };
};
