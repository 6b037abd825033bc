import { listCars } from '../../../db/records/cars.ts';
import { listDisposals } from '../../../db/records/disposals.ts';
import { listValuations, type ValuationSnapshot } from '../../../db/records/valuations.ts';
import { diagnostics } from '../../../valuation/index.ts';
import { basisOfWorths } from '../../../valuation/words.ts';
import { booksOf } from '../figures/books.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { DiagnosticsView } from '../views.ts';

/**
 * The last worth as found that was kept of each car before a day; a snapshot of that very day may
 * know of the sale.
 */
const lastBefore = (snapshots: ValuationSnapshot[], day: string): ValuationSnapshot | undefined =>
  snapshots.findLast(snapshot => snapshot.on < day && snapshot.asFound !== null);

/** How past worths have held up against what the cars brought when they were sold. */
export const diagnosticsView = async (session: Session): Promise<DiagnosticsView> => {
  const { db } = openOf(session).read;
  const books = await booksOf(session);
  const disposals = await listDisposals(db);
  const cars = new Map(
    (await listCars(db, { ids: disposals.map(disposal => disposal.carId) })).map(car => [car.id, car]),
  );
  const snapshots = Map.groupBy(
    (await listValuations(db)).filter(
      snapshot => snapshot.basis === basisOfWorths && snapshot.currency === books.currency,
    ),
    snapshot => snapshot.carId,
  );
  const pairs = disposals.flatMap(disposal => {
    const valued = lastBefore(snapshots.get(disposal.carId) ?? [], disposal.soldOn);
    const realised = books.convert(disposal.proceeds, disposal.currency, disposal.soldOn);
    if (!valued?.asFound || realised === null || realised <= 0 || valued.asFound.mid <= 0) return [];
    const { low, mid, high } = valued.asFound;
    return [
      {
        carId: disposal.carId,
        inventoryNumber: cars.get(disposal.carId)?.inventoryNumber ?? '',
        valuedOn: valued.on,
        low,
        mid,
        high,
        soldOn: disposal.soldOn,
        realised,
      },
    ];
  });
  const { bias, biasRange, coverage, coverageRange, typicalError, verdict } = diagnostics(pairs);
  return { pairs, bias, biasRange, coverage, coverageRange, typicalError, verdict };
};
