import { leftOutOf } from '../../../db/records/lots/left-out.ts';
import type { OwnAsideCause } from '../../../valuation/types.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { PurchaseView } from '../views.ts';
import { marketToday, rawMarket } from './market.ts';

const keyOf = (lotId: number, carIds: readonly number[]): string => `${lotId} ${carIds.join(',')}`;

/** Why what was paid does not count, by the cars of each purchase. */
const asideBy = async (session: Session): Promise<Map<string, OwnAsideCause>> =>
  new Map(
    (await marketToday(session)).ownAside.flatMap(({ of, cause }) =>
      'lotId' in of ? [[keyOf(of.lotId, of.carIds), cause] as const] : [],
    ),
  );

/**
 * The purchases of a lot, each with the cars of it: those bought alone, and the lot or what is left of it.
 */
export const purchasesOfLot = async (
  session: Session,
  lotId: number,
  numberOf: (carId: number) => string,
): Promise<{ purchase: PurchaseView; carIds: number[] }[]> => {
  const own = ((await rawMarket(session)).purchases ?? []).filter(purchase => purchase.lotId === lotId);
  if (own.length === 0) return [];
  const said = await leftOutOf(openOf(session).read.db, lotId);
  const aside = await asideBy(session);
  return own.map(({ boughtOn, total, cars, isAlone }) => {
    const carIds = cars.map(({ id }) => id);
    const alone = isAlone ? carIds[0] : undefined;
    return {
      carIds,
      purchase: {
        car: alone === undefined ? null : { id: alone, inventoryNumber: numberOf(alone) },
        boughtOn,
        total,
        cars: cars.length,
        aside: aside.get(keyOf(lotId, carIds)) ?? null,
        why: (alone === undefined ? said.lot : said.cars.get(alone))?.why ?? '',
      },
    };
  });
};
