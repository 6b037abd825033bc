import type { CellValue, DataTable } from '../../../reports/tables/data-table.ts';
import { carFilterIn, lookIn } from '../../../valuation/reading/list-address.ts';
import { shownCars } from '../cars/car-list.ts';
import { refused } from '../session/errors.ts';
import type { Session } from '../session/session.ts';
import { orderOf, type Seen } from './as-seen.ts';

/** The lists that say something of cars; the first column of each is the car's inventory number. */
export const listsAboutCars: readonly string[] = ['expenses', 'disposals', 'decisions', 'jobs'];

/** What a list says of the cars that a list of cars shows, car by car in its order; `tableOf` gives the whole list. */
export const aboutCars = async (
  session: Session,
  list: string,
  { query, locale }: Seen,
  tableOf: () => Promise<DataTable>,
): Promise<DataTable> => {
  if (!listsAboutCars.includes(list))
    throw refused(`The list of ${list} says nothing of single cars.`, 'list');
  const order = orderOf(lookIn(query), null, 'number', locale);
  const shown = await shownCars(session, { filter: carFilterIn(query), order, wall: false });
  const table = await tableOf();
  const numberIn = ([cell]: readonly CellValue[]) => (cell?.kind === 'text' ? cell.text : '');
  const byNumber = Map.groupBy(table.rows(), numberIn);
  const rows = shown.flatMap(({ inventoryNumber }) => byNumber.get(inventoryNumber) ?? []);
  return { ...table, count: rows.length, rows: () => rows };
};
