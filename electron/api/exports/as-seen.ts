import { amountCell, type CellValue, type DataTable, textCell } from '../../../reports/tables/data-table.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import {
  carFilterIn,
  type ListLook,
  type ListSort,
  lookIn,
  saleFilterIn,
  servedSaleFilter,
} from '../../../valuation/reading/list-address.ts';
import type { Currency } from '../../../valuation/types.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import { shownCars } from '../cars/car-list.ts';
import { adviceOf, gainOf, listedCars } from '../cars/listed-cars.ts';
import { shownSales } from '../sales/sale-list.ts';
import type { Session } from '../session/session.ts';

/** A list as its address says it: filter, order and columns. */
export interface Seen {
  query: string;
  locale: string;
}

type ColumnsSeen = Readonly<Record<string, readonly string[]>>;

/** What each column of the list of cars goes out as, in their usual order. */
const carColumns: ColumnsSeen = {
  number: ['inventory_number'],
  photo: [],
  name: ['casting', 'release_name', 'release_year'],
  colour: ['colour', 'worn_colour'],
  grade: ['grade'],
  finish: ['finish_state'],
  lot: ['lot'],
  status: ['status'],
  cost: ['cost', 'cost_currency', 'acquired_on'],
  worth: ['currency', 'as_found_low', 'as_found_mid', 'as_found_high', 'basis_of_value', 'effective_date'],
  found: ['currency', 'as_found_mid'],
  recommendation: ['recommended'],
  gain: ['currency', 'expected_gain'],
};

/** What each column of the list of sale records goes out as, in their usual order. */
const saleColumns: ColumnsSeen = {
  soldOn: ['sold_on'],
  price: ['price', 'currency'],
  currency: ['currency'],
  casting: ['casting'],
  variation: ['release_name', 'release_year', ...variationFeatures.map(feature => featureColumns[feature])],
  grade: ['grade'],
  finishState: ['finish_state'],
  missingParts: ['missing_parts'],
  reproductionParts: ['reproduction_parts'],
  source: ['source'],
  reference: ['reference'],
  state: ['reliability_percent', 'excluded', 'excluded_why'],
};

/** The names of what is shown, without doubles; `always` first, and the finish state in any case. */
const namesOf = (columns: ColumnsSeen, { columns: shown }: ListLook, always: readonly string[]): string[] => {
  const known = new Map(Object.entries(columns));
  const chosen = (shown ?? [...known.keys()]).flatMap(id => known.get(id) ?? []);
  return [...new Set([...always, ...chosen, 'finish_state'])];
};

/** The order in force: the usual one where the column of another is not shown. */
export const orderOf = (
  { sort, columns }: ListLook,
  usual: ListSort | null,
  pinned: string,
  locale: string,
) => {
  const stands = !sort || columns === null || sort.columnId === pinned || columns.includes(sort.columnId);
  const wanted = sort === undefined || !stands ? usual : sort;
  return {
    sort: wanted && { columnId: wanted.columnId, descending: wanted.descending ?? false },
    since: '',
    locale,
  };
};

/** A table with these columns alone, in this order; names that it does not have are left out. */
const withColumns = (table: DataTable, names: readonly string[]): DataTable => {
  const places = names
    .map(name => table.columns.findIndex(column => column.name === name))
    .filter(place => place >= 0);
  const pick = <Item>(items: readonly Item[]): Item[] => places.map(place => items[place]!);
  return {
    ...table,
    columns: pick(table.columns),
    *rows() {
      for (const row of table.rows()) yield pick(row);
    },
  };
};

/** The cars as their list shows them; `tableOf` gives a table of these cars with every column, its first their number. */
export const carsAsSeen = async (
  session: Session,
  { query, locale }: Seen,
  currency: Currency,
  tableOf: (ids: number[]) => Promise<DataTable>,
): Promise<DataTable> => {
  const look = lookIn(query);
  const order = orderOf(look, null, 'number', locale);
  const shown = await shownCars(session, { filter: carFilterIn(query), order, wall: false });
  const names = namesOf(carColumns, look, ['inventory_number']);
  const whole = await tableOf(shown.map(({ id }) => id));
  const advised = names.some(name => name === 'recommended' || name === 'expected_gain');
  const list = await listedCars(session, { figures: advised, texts: false });
  const byNumber = new Map<string, readonly CellValue[]>();
  for (const row of whole.rows()) if (row[0]?.kind === 'text') byNumber.set(row[0].text, row);
  const table: DataTable = {
    ...whole,
    columns: [...whole.columns, { name: 'recommended', width: 20 }, { name: 'expected_gain', width: 14 }],
    count: shown.length,
    *rows() {
      for (const car of shown)
        yield [
          ...(byNumber.get(car.inventoryNumber) ?? []),
          textCell(adviceOf(list, car)),
          amountCell(gainOf(list, car), currency),
        ];
    },
  };
  return withColumns(table, names);
};

/** The sale records as their list shows them; `tableOf` gives a table of these records, in this order. */
export const salesAsSeen = async (
  session: Session,
  { query, locale }: Seen,
  tableOf: (ids: number[]) => Promise<DataTable>,
): Promise<DataTable> => {
  const look = lookIn(query);
  const order = orderOf(look, { columnId: 'soldOn', descending: true }, 'soldOn', locale);
  const shown = await shownSales(session, { filter: servedSaleFilter(saleFilterIn(query)), order });
  return withColumns(await tableOf(shown.map(({ id }) => id)), namesOf(saleColumns, look, ['sold_on']));
};
