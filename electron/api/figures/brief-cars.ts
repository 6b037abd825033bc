import { type BriefCar, briefCars } from '../../../db/records/cars/brief-cars.ts';
import { slot } from '../session/cache.ts';
import { heedHeap } from '../session/large-heap.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { blocksAgain, blocksOf, type CarBlock } from './car-blocks.ts';

interface Held {
  /** When they were read. */
  at: number;
  cars: Map<number, BriefCar>;
  blocks: Map<number, CarBlock>;
}

const held = slot<Held | null>(() => null);

const mapOf = (cars: readonly BriefCar[]) => new Map(cars.map(car => [car.id, car]));

const readAgain = async (session: Session): Promise<Held> => {
  const { cache } = session;
  const { db } = openOf(session).read;
  const at = cache.now();
  const found = cache.of(held);
  const touched = found && cache.touchedAfter(found.at);
  if (!found || !touched) {
    const cars = mapOf(await briefCars(db));
    heedHeap(cars.size);
    const all = { at, cars, blocks: blocksOf(cars) };
    cache.put(held, all);
    return all;
  }
  if (touched.length === 0) return found;
  const read = mapOf(await briefCars(db, touched));
  const { cars } = found;
  let newest = 0;
  for (const id of cars.keys()) newest = id;
  for (const id of touched) if (!read.has(id)) cars.delete(id);
  // One that an undo has brought back belongs between others.
  const isBetween = [...read.keys()].some(id => id < newest && !cars.has(id));
  for (const [id, car] of read) cars.set(id, car);
  const next = isBetween ? mapOf([...cars.values()].sort((a, b) => a.id - b.id)) : cars;
  const again = { at, cars: next, blocks: blocksAgain(found.blocks, next, touched) };
  cache.put(held, again);
  return again;
};

/**
 * Every car in brief, by id and in the order of entering. A car's object stays the same until an action
 * touches it, or a row that hangs on it.
 */
export const allBriefCars = async (session: Session): Promise<ReadonlyMap<number, BriefCar>> =>
  (await readAgain(session)).cars;

/** The same in blocks; one stays the same until an action touches a car of it. */
export const briefCarBlocks = async (session: Session): Promise<CarBlock[]> => [
  ...(await readAgain(session)).blocks.values(),
];
