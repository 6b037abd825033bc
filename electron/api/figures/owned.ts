import { readSeenLots } from '../../../db/records/seen-lots.ts';
import type { CarStatus } from '../../../valuation/words.ts';
import { refused } from '../session/errors.ts';
import { memo } from '../session/memo.ts';
import type { Session } from '../session/session.ts';

/** The lots that were only seen. */
export const seenLotsOf = memo(({ db }) => readSeenLots(db));

type Standing = { readonly status: CarStatus; readonly lotId: number | null };

/** True of a car of a lot that was only seen, which is not the owner's until the lot is bought. */
export const isSeenOnly = (seen: ReadonlySet<number>, { status, lotId }: Standing): boolean =>
  status !== 'sold' && lotId !== null && seen.has(lotId);

/** True of a car that is the owner's now: neither sold nor in a lot that was only seen. */
export const isOwned = (seen: ReadonlySet<number>, car: Standing): boolean =>
  car.status !== 'sold' && !isSeenOnly(seen, car);

/**
 * The cars that are the owner's now. Whatever sums the collection, lists it for others or says what to do with it
 * takes these; the page of a lot, its bid and the list of all cars take the others too, and mark them.
 */
export const ownedOf = async <Car extends Standing>(
  session: Session,
  cars: readonly Car[],
): Promise<Car[]> => {
  const seen = await seenLotsOf(session);
  return cars.filter(car => isOwned(seen, car));
};

/** Refuses a car that was only seen where something is asked that only an owner can do or say. */
export const refuseSeen = async (
  session: Session,
  car: Standing & { readonly inventoryNumber: string },
): Promise<void> => {
  if (isSeenOnly(await seenLotsOf(session), car))
    throw refused(`${car.inventoryNumber} is of a lot that was only seen. Save the lot as bought first.`);
};
