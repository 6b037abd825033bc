import { readSubjects } from '../../../db/engine/subjects.ts';
import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import { listDisposals } from '../../../db/records/cars/disposals.ts';
import { listValuations, type ValuationSnapshot } from '../../../db/records/worth/valuations.ts';
import { diagnostics, sharedCorrelation, valueCar } from '../../../valuation/index.ts';
import { basisOfWorths } from '../../../valuation/words.ts';
import { booksOf } from '../figures/books.ts';
import { marketToday } from '../figures/market.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { DiagnosticsView } from '../views.ts';

/**
 * The last worth as found that was kept of each car before a day; a snapshot of that very day may
 * know of the sale.
 */
const lastBefore = (snapshots: ValuationSnapshot[], day: string): ValuationSnapshot | undefined =>
  snapshots.findLast(snapshot => snapshot.on < day && snapshot.asFound !== null);

/**
 * What the estimates of these cars have in common, as the market has it today; what is usual where it cannot
 * tell.
 */
const correlationOf = async (session: Session, cars: CarRecord[]): Promise<number | undefined> => {
  const fitted = await marketToday(session);
  const valued = (await readSubjects(openOf(session).read.db, cars)).flatMap(car => {
    const worth = valueCar(fitted, car).asFound;
    return worth && !worth.own ? [{ car, worth }] : [];
  });
  return valued.length < 2 ? undefined : sharedCorrelation(fitted, valued);
};

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
    if (!valued?.asFound || realised === null || realised <= 0 || valued.asFound.low <= 0) return [];
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
  // The verdict looks at the sales one after another.
  pairs.sort((a, b) => a.soldOn.localeCompare(b.soldOn) || a.carId - b.carId);
  const sold = new Set(pairs.map(({ carId }) => carId));
  const correlation = await correlationOf(
    session,
    [...cars.values()].filter(({ id }) => sold.has(id)),
  );
  const { bias, biasRange, coverage, coverageRange, typicalError, verdict } = diagnostics(pairs, correlation);
  return { pairs, bias, biasRange, coverage, coverageRange, typicalError, verdict };
};
