import { firstPhotos, listPhotos } from '../../../db/photos/photo-lists.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { listDisposals, listExpenses } from '../../../db/records/cars/disposals.ts';
import { readLotBid } from '../../../db/records/lots/lot-bids.ts';
import { findLot, type LotRecord, lotCosts } from '../../../db/records/lots/lots.ts';
import { lotResult } from '../../../valuation/index.ts';
import { carRows } from '../cars/car-rows.ts';
import { booksOf } from '../figures/books.ts';
import { carFigures } from '../figures/figures.ts';
import { seenLotsOf } from '../figures/owned.ts';
import { notFound } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { LotPage } from '../views.ts';
import { lotEvidence } from './lot-evidence.ts';
import { type LotCars, lotRow } from './lot-rows.ts';

/** Cost, spending, proceeds and what is left of a lot, each brought to the reporting currency at its day. */
const resultOf = async (
  session: Session,
  lot: LotRecord,
  { cars, figures }: Pick<LotCars, 'cars' | 'figures'>,
): Promise<LotPage['result']> => {
  const { db } = openOf(session).read;
  const books = await booksOf(session);
  const today = await session.today();
  const missing = new Set<string>();
  const bring = (minor: number, currency: string, on: string) => {
    const brought = books.convert(minor, currency, on);
    if (brought === null) missing.add(currency);
    return brought ?? 0;
  };
  const ids = cars.map(car => car.id);
  const expenses = Map.groupBy(await listExpenses(db, ids), expense => expense.carId);
  const disposals = new Map((await listDisposals(db, ids)).map(disposal => [disposal.carId, disposal]));
  const boughtOn = lot.boughtOn ?? today;
  const result = lotResult(
    cars.map(car => {
      const disposal = disposals.get(car.id);
      const improvements = (expenses.get(car.id) ?? []).map(({ minor, currency, spentOn }) =>
        bring(minor, currency, spentOn),
      );
      return {
        cost: bring(car.cost ?? 0, lot.currency, boughtOn),
        improvements: improvements.reduce((sum, minor) => sum + minor, 0),
        sold:
          car.status !== 'sold'
            ? null
            : {
                proceeds: disposal ? bring(disposal.proceeds, disposal.currency, disposal.soldOn) : 0,
                fees: disposal ? bring(disposal.fees, disposal.currency, disposal.soldOn) : 0,
              },
        worth: figures.get(car.id)?.worths.asFound?.mid ?? null,
      };
    }),
  );
  return {
    cost: result.cost,
    improvements: result.improvements,
    proceeds: result.proceeds,
    fees: result.fees,
    gainRealised: result.gainRealised,
    gain: result.gainInAll,
    remainingWorth: result.remainingWorth,
    unvalued: result.unvalued,
    currency: books.currency,
    withoutRate: [...missing],
  };
};

/** A lot's page: its costs, its cars, and how it has turned out so far. */
export const lotPage = async (session: Session, id: number): Promise<LotPage> => {
  const { db } = openOf(session).read;
  const lot = await findLot(db, id);
  if (!lot) throw notFound('lot', id);
  const cars = await listCars(db, { lotId: id });
  const ids = cars.map(car => car.id);
  const figures = await carFigures(session, cars);
  const photos = await firstPhotos(db, ids);
  const costs = (await lotCosts(db, id)).get(id) ?? [];
  const own = (await listPhotos(db, { lotId: id }))[0]?.sha256 ?? null;
  const row = lotRow(lot, costs, own, { cars, figures, photos, seen: await seenLotsOf(session) });
  return {
    ...row,
    notes: lot.notes,
    costs,
    bid: await readLotBid(db, id),
    evidence: await lotEvidence(session, lot, cars, costs.length > 0),
    shared: cars.reduce((sum, car) => sum + (car.cost ?? 0), 0),
    rows: await carRows(session, cars),
    result: await resultOf(session, lot, { cars, figures }),
  };
};
