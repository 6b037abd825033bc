import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { referenceUse } from '../../../db/reference/reference.ts';
import {
  amountCell,
  type DataTable,
  type ListColumn,
  listTable,
  numberCell,
  textCell,
} from '../../../reports/tables/data-table.ts';
import type { Currency } from '../../../valuation/types.ts';
import { lotRows } from '../lots/lot-rows.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { castingRow } from '../reference/reference-rows.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CastingRow, LotRow } from '../views.ts';
import { chosenOf } from './car-of-row.ts';
import { jobsTable } from './jobs-table.ts';
import { disposalsTable, expensesTable, type LedgerLot, ledgerLots, lotColumns } from './ledger-tables.ts';
import { type ReferenceRow, referenceRows } from './reference-table.ts';

/** The rows of a list as a screen shows them, in its order. */
export interface Shown {
  ids: readonly number[];
  of: 'castings' | 'variations';
}

/** These columns first, in this order, then the others. */
const inFront = <Row>(columns: readonly ListColumn<Row>[], names: readonly string[]): ListColumn<Row>[] => [
  ...names.flatMap(name => columns.find(column => column.name === name) ?? []),
  ...columns.filter(({ name }) => !names.includes(name)),
];

interface ShownLot {
  lot: LedgerLot;
  row: LotRow;
}

const ofCars = (name: string, value: (row: LotRow) => number): ListColumn<ShownLot> => ({
  name,
  width: 12,
  value: ({ row }) => numberCell(value(row)),
});

/** What the list of lots shows, and of the books all that import takes, by the same names. */
const shownLotColumns = (currency: Currency): ListColumn<ShownLot>[] =>
  inFront<ShownLot>(
    [
      ...lotColumns.map(({ name, width, value }) => ({
        name,
        width,
        value: ({ lot }: ShownLot) => value(lot),
      })),
      ofCars('identified', row => row.identifiedCount),
      ofCars('graded', row => row.gradedCount),
      ofCars('photographed', row => row.photographedCount),
      { name: 'value_currency', width: 14, value: () => textCell(currency) },
      {
        name: 'value_as_found',
        width: 14,
        value: ({ row }) => (row.valuedCount === 0 ? null : amountCell(row.worth, currency)),
      },
      ofCars('valued', row => row.valuedCount),
      ofCars('sold', row => row.soldCount),
    ],
    [
      ...['lot', 'seller', 'bought_on', 'total', 'currency', 'cars', 'identified', 'graded', 'photographed'],
      ...['value_currency', 'value_as_found', 'valued', 'sold'],
    ],
  );

const lotsShown = async (session: Session, ids: readonly number[]): Promise<DataTable> => {
  const currency = await readReportingCurrency(openOf(session).read.db);
  const lots = new Map((await ledgerLots(session)).map(lot => [lot.id, lot]));
  const rows = chosenOf(await lotRows(session), ids, ({ id }) => id).flatMap(row => {
    const lot = lots.get(row.id);
    return lot ? [{ lot, row }] : [];
  });
  return listTable('Lots', shownLotColumns(currency), rows);
};

const castingColumns: readonly ListColumn<CastingRow>[] = [
  { name: 'maker', width: 24, value: casting => textCell(casting.maker) },
  { name: 'series', width: 20, value: casting => textCell(casting.series) },
  { name: 'casting', width: 24, value: casting => textCell(casting.name) },
  { name: 'first_year', width: 12, value: casting => numberCell(casting.firstYear) },
  { name: 'body_type', width: 16, value: casting => textCell(casting.bodyType) },
  { name: 'variations_known', width: 12, value: casting => numberCell(casting.variations) },
  { name: 'cars_owned', width: 12, value: casting => numberCell(casting.cars) },
  { name: 'sale_records', width: 12, value: casting => numberCell(casting.saleRecords) },
];

const castingsShown = async (session: Session, ids: readonly number[]): Promise<DataTable> => {
  const index = await referenceIndex(session);
  const use = await referenceUse(openOf(session).read.db);
  const rows = [...new Set(ids)].flatMap(id => {
    const casting = index.castings.get(id);
    return casting ? [castingRow(index, casting, use)] : [];
  });
  return listTable('Castings', castingColumns, rows);
};

/** The variations of a casting, with what its page shows of them first. */
const variationsShown = async (session: Session, ids: readonly number[]): Promise<DataTable> => {
  const { rows, columns } = await referenceRows(session);
  const use = await referenceUse(openOf(session).read.db);
  const counted = (name: string, counts: ReadonlyMap<number, number>): ListColumn<ReferenceRow> => ({
    name,
    width: 12,
    value: ({ variation }) => numberCell(variation ? (counts.get(variation.id) ?? 0) : null),
  });
  return listTable(
    'Variations',
    inFront(
      [...columns, counted('cars_owned', use.variationCars), counted('sale_records', use.variationSales)],
      ['casting', 'colour', 'rarity', 'cars_owned', 'sale_records'],
    ),
    chosenOf(rows, ids, ({ variation }) => variation?.id ?? 0),
  );
};

/** A list whose rows a screen names, as it shows them, with all that import takes of them. */
export const shownTable = async (session: Session, list: string, { ids, of }: Shown): Promise<DataTable> => {
  switch (list) {
    case 'lots':
      return lotsShown(session, ids);
    case 'reference':
      return of === 'castings' ? castingsShown(session, ids) : variationsShown(session, ids);
    case 'expenses':
      return expensesTable(session, ids);
    case 'disposals':
      return disposalsTable(session, ids);
    case 'jobs':
      return jobsTable(session, ids);
    default:
      throw refused(`The list of ${list} is not shown by its rows.`, 'list');
  }
};
