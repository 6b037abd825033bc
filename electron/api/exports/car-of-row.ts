import { listCars } from '../../../db/records/cars/cars.ts';
import { type ListColumn, textCell } from '../../../reports/tables/data-table.ts';
import type { FinishState } from '../../../valuation/words.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

export type OfCar<T> = T & { number: string; finishState: FinishState | null };

/** Rows about cars, each with its car's inventory number and what has become of its finish. */
export const withNumbers = async <T extends { carId: number }>(
  session: Session,
  rows: T[],
): Promise<OfCar<T>[]> => {
  const cars = await listCars(openOf(session).read.db);
  const byId = new Map(cars.map(car => [car.id, car]));
  return rows.map(row => {
    const car = byId.get(row.carId);
    return { ...row, number: car?.inventoryNumber ?? '', finishState: car?.finishState ?? null };
  });
};

/** The car that a row is about; no list names one without its finish state. */
export const carColumns: readonly ListColumn<OfCar<object>>[] = [
  { name: 'inventory_number', width: 16, value: ({ number }) => textCell(number) },
  { name: 'finish_state', width: 13, value: ({ finishState }) => textCell(finishState) },
];

/** The rows with these ids, in the order of the ids; those of one id as they stand. */
export const chosenOf = <Row>(
  rows: readonly Row[],
  ids: readonly number[],
  idOf: (row: Row) => number,
): Row[] => {
  const byId = Map.groupBy(rows, idOf);
  return [...new Set(ids)].flatMap(id => byId.get(id) ?? []);
};
