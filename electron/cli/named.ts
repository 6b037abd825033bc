import type { Api } from './collection.ts';
import { Refused } from './terminal.ts';

/** The id of the lot of this name; refused, with the names that there are, where there is none. */
export const lotNamed = async (api: Api, name: string): Promise<number> => {
  const lots = await api.lots.list();
  const same = (left: string, right: string) =>
    left.localeCompare(right, 'en', { sensitivity: 'accent' }) === 0;
  const found = lots.find(lot => lot.name === name) ?? lots.find(lot => same(lot.name, name));
  if (found) return found.id;
  const names = lots.map(lot => `"${lot.name}"`).join(', ') || 'none yet';
  throw new Refused(`There is no lot "${name}". The collection's lots: ${names}.`);
};

/** Tells the id of each of these inventory numbers; refused where there is no such car. */
export const carIds = async (api: Api, numbers: readonly string[]): Promise<(number: string) => number> => {
  const key = (number: string) => number.trim().toLowerCase();
  const cars = numbers.length > 0 ? await api.cars.list({}) : [];
  const byNumber = new Map(cars.map(({ inventoryNumber, id }) => [key(inventoryNumber), id]));
  return number => {
    const id = byNumber.get(key(number));
    if (id === undefined) throw new Refused(`There is no car with the inventory number "${number}".`);
    return id;
  };
};

/** The id of the car with this inventory number; refused where there is none. */
export const carNumbered = async (api: Api, number: string): Promise<number> =>
  (await carIds(api, [number]))(number);
