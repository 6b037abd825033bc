import { type BriefCar, briefCars } from '../../../db/records/cars/brief-cars.ts';
import { slot } from '../session/cache.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

interface Held {
  /** When they were read. */
  at: number;
  cars: Map<number, BriefCar>;
}

const held = slot<Held | null>(() => null);

const mapOf = (cars: readonly BriefCar[]) => new Map(cars.map(car => [car.id, car]));

/**
 * Every car in brief, by id and in the order of entering. A car's object stays the same until an action
 * touches it, or a row that hangs on it.
 */
export const allBriefCars = async (session: Session): Promise<ReadonlyMap<number, BriefCar>> => {
  const { cache } = session;
  const { db } = openOf(session).read;
  const at = cache.now();
  const found = cache.of(held);
  const touched = found && cache.touchedAfter(found.at);
  if (!found || !touched) {
    const cars = mapOf(await briefCars(db));
    cache.put(held, { at, cars });
    return cars;
  }
  if (touched.length === 0) return found.cars;
  const read = mapOf(await briefCars(db, touched));
  const { cars } = found;
  const newest = Math.max(0, ...[...cars.keys()].slice(-1));
  for (const id of touched) if (!read.has(id)) cars.delete(id);
  // One that an undo has brought back belongs between others.
  const isBetween = [...read.keys()].some(id => id < newest && !cars.has(id));
  for (const [id, car] of read) cars.set(id, car);
  const next = isBetween ? mapOf([...cars.values()].sort((a, b) => a.id - b.id)) : cars;
  cache.put(held, { at, cars: next });
  return next;
};
