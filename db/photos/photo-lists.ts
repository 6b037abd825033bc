import { type Kysely, sql } from 'kysely';
import type { IsoDate } from '../../valuation/types.ts';
import { inChunks } from '../codec.ts';
import type { Schema } from '../schema.ts';

/** A photograph as it hangs on a car, a lot or a variation. */
export interface PhotoRecord {
  id: number;
  sha256: string;
  format: string;
  width: number;
  height: number;
  carId: number | null;
  lotId: number | null;
  variationId: number | null;
  view: string;
  caption: string;
  state: string;
  takenOn: IsoDate | null;
}

/** The photographs of a car, a lot or a variation, in their order; or those of these ids. */
export const listPhotos = async (
  db: Kysely<Schema>,
  of: { carId?: number; lotId?: number; variationId?: number; ids?: number[] },
): Promise<PhotoRecord[]> => {
  let query = db.selectFrom('photo').selectAll();
  if (of.carId !== undefined) query = query.where('car_id', '=', of.carId);
  if (of.lotId !== undefined) query = query.where('lot_id', '=', of.lotId);
  if (of.variationId !== undefined) query = query.where('variation_id', '=', of.variationId);
  if (of.ids) query = query.where('id', 'in', of.ids);
  const rows = await query.orderBy('position').orderBy('id').execute();
  return rows.map(row => ({
    id: row.id,
    sha256: row.sha256,
    format: row.format,
    width: row.width,
    height: row.height,
    carId: row.car_id,
    lotId: row.lot_id,
    variationId: row.variation_id,
    view: row.view,
    caption: row.caption,
    state: row.state,
    takenOn: row.taken_on,
  }));
};

/** The first photograph of each car and how many it has, by car id; of all cars, or of those given. */
export const firstPhotos = async (
  db: Kysely<Schema>,
  carIds?: number[],
): Promise<Map<number, { sha256: string; photos: number }>> => {
  const found = await inChunks(carIds, async ids => {
    // SQLite takes a bare column beside min() from the row that holds the minimum.
    const only = ids ? sql`AND car_id IN (${sql.join(ids)})` : sql``;
    const { rows } = await sql<{ car_id: number; sha256: string; photos: number }>`
      SELECT car_id, sha256, count(*) AS photos, min(position * 1000000000 + id) AS place
      FROM photo WHERE car_id IS NOT NULL ${only} GROUP BY car_id`.execute(db);
    return rows;
  });
  return new Map(found.map(({ car_id, sha256, photos }) => [car_id, { sha256, photos }]));
};

/** The hash of the first photograph of each lot itself, by lot id. */
export const lotPhotos = async (db: Kysely<Schema>): Promise<Map<number, string>> => {
  const rows = await db
    .selectFrom('photo')
    .select(['lot_id', 'sha256'])
    .where('lot_id', 'is not', null)
    .orderBy('position', 'desc')
    .orderBy('id', 'desc')
    .execute();
  return new Map(rows.flatMap(row => (row.lot_id === null ? [] : [[row.lot_id, row.sha256] as const])));
};

/** A photograph as papers show it. */
export type CarPhotoRecord = Pick<PhotoRecord, 'sha256' | 'view' | 'caption' | 'state' | 'takenOn'>;

/** The photographs of the given cars, in their order, by car id. */
export const photosOfCars = async (
  db: Kysely<Schema>,
  carIds: number[],
): Promise<Map<number, CarPhotoRecord[]>> => {
  const rows = await inChunks(carIds, ids =>
    db
      .selectFrom('photo')
      .select(['car_id', 'sha256', 'view', 'caption', 'state', 'taken_on as takenOn'])
      .where('car_id', 'in', ids ?? carIds)
      .orderBy('position')
      .orderBy('id')
      .execute(),
  );
  const photos = new Map<number, CarPhotoRecord[]>();
  for (const [carId, group] of Map.groupBy(rows, row => row.car_id))
    if (carId !== null)
      photos.set(
        carId,
        group.map(({ car_id: _, ...photo }) => photo),
      );
  return photos;
};
