import type { WaitingGroup } from '../../../db/records/names/waiting-names.ts';
import { listSales, saleToMarket } from '../../../db/records/sales.ts';
import { indexMarket } from '../../../valuation/market/market-index.ts';
import { prepareSales } from '../../../valuation/market/prepare-sales.ts';
import { marketToday, rawMarket } from '../figures/market.ts';
import type { Sources } from '../session/memo.ts';

/**
 * What is known of the series in which names would stand (null: a new one), and what the sales of the
 * names add to it.
 */
export interface WaitingEvidence {
  /** Whether cars of the series would have a value once these are castings in it. */
  isEnough(groups: readonly WaitingGroup[], seriesId: number | null): boolean;
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
  const weights = groups.map(() => 0);
  for (const { record, weight } of prepareSales(waiting, indexMarket(waiting), assumptions, fitted.on).sales)
    weights[record.castingId - 1]! += weight;
  const weightOf = new Map<number, number>();
  for (const { id, seriesId } of market.castings) {
    const place = inside.index.castingIds.indexOf(id);
    const series = place < 0 ? undefined : inside.index.castingSeries[place];
    if (series !== undefined && !weightOf.has(seriesId))
      weightOf.set(seriesId, inside.evidence.seriesWeight[series] ?? 0);
  }
  const placed = new Map(groups.map((group, at) => [group, weights[at] ?? 0]));
  return {
    isEnough: (together, seriesId) =>
      together.reduce((sum, group) => sum + (placed.get(group) ?? 0), 0) +
        (seriesId === null ? 0 : (weightOf.get(seriesId) ?? 0)) >=
      assumptions.leastEvidence,
  };
};
