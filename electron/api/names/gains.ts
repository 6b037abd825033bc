import type { WaitingGroup } from '../../../db/records/names/waiting-names.ts';
import { listSales, saleToMarket } from '../../../db/records/sales/sales.ts';
import {
  type NameToSettle,
  type ValuedByNames,
  valuedByNames,
} from '../../../valuation/worth/names-settled.ts';
import { marketToday, rawMarket } from '../figures/market.ts';
import type { Sources } from '../session/memo.ts';

/** A group of waiting names, and what it would be once it is settled. */
export interface PlacedGroup extends Pick<NameToSettle, 'castingId' | 'seriesId' | 'home'> {
  group: WaitingGroup;
}

/** Cars that have a value once names are settled: by each group alone, and by all together. */
export const gainsOfNames = async (
  { db, from }: Pick<Sources, 'db' | 'from'>,
  placed: readonly PlacedGroup[],
): Promise<ValuedByNames> => {
  const ids = placed.flatMap(({ group }) => group.saleIds);
  const sales = new Map((await listSales(db, { ids })).map(sale => [sale.id, sale]));
  const names = placed.map(
    ({ group, ...place }): NameToSettle => ({
      ...place,
      carIds: group.carIds,
      lacking: group.lackingIds.length,
      sales: group.saleIds.flatMap(id => {
        const sale = sales.get(id);
        // Any casting: which it is follows from the name.
        return (sale && saleToMarket({ ...sale, castingId: 0, variationId: null })) ?? [];
      }),
    }),
  );
  return valuedByNames(await from(marketToday), await from(rawMarket), names);
};
