import type { Kysely } from 'kysely';
import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import type { Schema } from '../../../db/schema.ts';
import { notFound } from '../session/errors.ts';

/** One car, or NOT_FOUND. */
export const findCar = async (db: Kysely<Schema>, id: number): Promise<CarRecord> => {
  const [car] = await listCars(db, { ids: [id] });
  if (!car) throw notFound('car', id);
  return car;
};
