import { firstPhotos, lotPhotos } from '../../../db/photos/photo-lists.ts';
import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import { type LotCost, type LotRecord, listLots, lotCosts } from '../../../db/records/lots/lots.ts';
import type { CarFigures } from '../figures/car-figures.ts';
import { carFigures } from '../figures/figures.ts';
import { seenLotsOf } from '../figures/owned.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { LotRow } from '../views.ts';

/** What the figures of a lot are counted from. */
export interface LotCars {
  cars: CarRecord[];
  figures: Map<number, CarFigures>;
  photos: Map<number, { sha256: string; photos: number }>;
  /** The lots that were only seen. */
  seen: ReadonlySet<number>;
}

/** A lot as lists show it; its photograph is its own, or the first of its cars. */
export const lotRow = (
  lot: LotRecord,
  costs: LotCost[],
  ownPhoto: string | null,
  gathered: LotCars,
): LotRow => {
  const { cars, figures, photos, seen } = gathered;
  const unsold = cars.filter(car => car.status !== 'sold');
  const mids = unsold.flatMap(car => figures.get(car.id)?.worths.asFound?.mid ?? []);
  return {
    id: lot.id,
    name: lot.name,
    boughtOn: lot.boughtOn,
    isSeen: seen.has(lot.id),
    seller: lot.seller,
    currency: lot.currency,
    price: costs.filter(cost => cost.kind === 'price').reduce((sum, cost) => sum + cost.minor, 0),
    cost: costs.reduce((sum, cost) => sum + cost.minor, 0),
    carCount: cars.length,
    gradedCount: cars.filter(car => car.grade !== null).length,
    identifiedCount: cars.filter(car => car.variationId !== null).length,
    photographedCount: cars.filter(car => photos.has(car.id)).length,
    soldCount: cars.length - unsold.length,
    worth: mids.reduce((sum, mid) => sum + mid, 0),
    valuedCount: mids.length,
    photo: ownPhoto ?? cars.map(car => photos.get(car.id)?.sha256).find(Boolean) ?? null,
  };
};

/** All lots as their list shows them. */
export const lotRows = async (session: Session): Promise<LotRow[]> => {
  const { db } = openOf(session).read;
  const cars = await listCars(db);
  const figures = await carFigures(session, cars);
  const photos = await firstPhotos(db);
  const costs = await lotCosts(db);
  const own = await lotPhotos(db);
  const seen = await seenLotsOf(session);
  const ofLot = Map.groupBy(cars, car => car.lotId);
  return (await listLots(db)).map(lot =>
    lotRow(lot, costs.get(lot.id) ?? [], own.get(lot.id) ?? null, {
      cars: ofLot.get(lot.id) ?? [],
      figures,
      photos,
      seen,
    }),
  );
};
