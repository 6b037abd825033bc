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

/** The id of the car with this inventory number; refused where there is none. */
export const carNumbered = async (api: Api, number: string): Promise<number> => {
  const cars = await api.cars.list({});
  const found = cars.find(car => car.inventoryNumber.toLowerCase() === number.trim().toLowerCase());
  if (!found) throw new Refused(`There is no car with the inventory number "${number}".`);
  return found.id;
};
