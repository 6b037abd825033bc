import { listCars } from '../../../db/records/cars/cars.ts';
import {
  type Disposal,
  type Expense,
  listDisposals,
  listExpenses,
} from '../../../db/records/cars/disposals.ts';
import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { readDecisions, type StoredDecision } from '../../../db/records/decisions/decisions.ts';
import { leftOutLots } from '../../../db/records/lots/left-out.ts';
import { readLotBids } from '../../../db/records/lots/lot-bids.ts';
import { type LotCost, type LotRecord, listLots, lotCosts } from '../../../db/records/lots/lots.ts';
import { readSeenLots } from '../../../db/records/seen-lots.ts';
import {
  amountCell,
  type DataTable,
  dateCell,
  type ListColumn,
  listTable,
  numberCell,
  textCell,
} from '../../../reports/tables/data-table.ts';
import { currencyDecimals } from '../../../valuation/money.ts';
import { bidCell } from '../../../valuation/reading/bid-cell.ts';
import { type LotCostKind, lotCostKinds } from '../../../valuation/words.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { carColumns, chosenOf, type OfCar, withNumbers } from './car-of-row.ts';

/** A lot as its list has it. */
export interface LedgerLot extends LotRecord {
  costs: LotCost[];
  cars: number;
  isSeen: boolean;
  /** The terms of its bid in words, and why what was paid is left out, "yes" without a reason; '' for neither. */
  bid: string;
  leftOut: string;
}

const costOf = ({ costs }: LedgerLot, kind: LotCostKind): number | null => {
  const ofKind = costs.filter(cost => cost.kind === kind);
  return ofKind.length === 0 ? null : ofKind.reduce((sum, cost) => sum + cost.minor, 0);
};

export const lotColumns: readonly ListColumn<LedgerLot>[] = [
  { name: 'lot', width: 24, value: lot => textCell(lot.name) },
  { name: 'bought_on', width: 12, value: lot => dateCell(lot.boughtOn) },
  { name: 'seller', width: 20, value: lot => textCell(lot.seller) },
  { name: 'cars', width: 8, value: lot => numberCell(lot.cars) },
  { name: 'currency', width: 10, value: lot => textCell(lot.currency) },
  ...lotCostKinds.map(
    (kind): ListColumn<LedgerLot> => ({
      name: kind,
      width: 12,
      value: lot => amountCell(costOf(lot, kind), lot.currency),
    }),
  ),
  {
    name: 'total',
    width: 12,
    value: lot =>
      lot.costs.length === 0
        ? null
        : amountCell(
            lot.costs.reduce((sum, cost) => sum + cost.minor, 0),
            lot.currency,
          ),
  },
  {
    name: 'costs',
    width: 30,
    value: lot =>
      textCell(
        lot.costs
          .map(
            ({ kind, minor, note }) =>
              `${kind} ${(minor / 10 ** currencyDecimals(lot.currency)).toFixed(currencyDecimals(lot.currency))}${note ? `: ${note}` : ''}`,
          )
          .join('\n'),
      ),
  },
  { name: 'price_from', width: 10, value: lot => textCell(lot.priceFrom ?? 'lot') },
  {
    name: 'cost_notes',
    width: 24,
    value: lot =>
      textCell(
        lot.costs
          .filter(cost => cost.note)
          .map(cost => `${cost.kind}: ${cost.note}`)
          .join('; '),
      ),
  },
  { name: 'only_seen', width: 10, value: lot => textCell(lot.isSeen ? 'yes' : '') },
  { name: 'bid', width: 30, value: lot => textCell(lot.bid) },
  { name: 'purchase_left_out', width: 24, value: lot => textCell(lot.leftOut) },
  { name: 'notes', width: 30, value: lot => textCell(lot.notes) },
];

/** All lots with their costs. */
export const ledgerLots = async (session: Session): Promise<LedgerLot[]> => {
  const { db } = openOf(session).read;
  const costs = await lotCosts(db);
  const bids = await readLotBids(db);
  const seen = await readSeenLots(db);
  const leftOut = await leftOutLots(db);
  const currency = await readReportingCurrency(db);
  const cars = Map.groupBy(await listCars(db), car => car.lotId);
  return (await listLots(db)).map(lot => ({
    ...lot,
    costs: costs.get(lot.id) ?? [],
    cars: cars.get(lot.id)?.length ?? 0,
    isSeen: seen.has(lot.id),
    bid: bids.has(lot.id) ? bidCell(bids.get(lot.id)!, currency) : '',
    leftOut: leftOut.get(lot.id) ?? '',
  }));
};

export const lotsTable = async (session: Session): Promise<DataTable> =>
  listTable('Lots', lotColumns, await ledgerLots(session));

const expenseColumns: readonly ListColumn<OfCar<Expense>>[] = [
  ...carColumns,
  { name: 'spent_on', width: 12, value: expense => dateCell(expense.spentOn) },
  { name: 'what', width: 30, value: expense => textCell(expense.what) },
  { name: 'amount', width: 12, value: expense => amountCell(expense.minor, expense.currency) },
  { name: 'currency', width: 10, value: expense => textCell(expense.currency) },
];

/** All that was spent on cars, or what is given of it, in that order. */
export const expensesTable = async (session: Session, ids?: readonly number[]): Promise<DataTable> => {
  const all = await listExpenses(openOf(session).read.db);
  return listTable(
    'Expenses',
    expenseColumns,
    await withNumbers(session, ids ? chosenOf(all, ids, ({ id }) => id) : all.toReversed()),
  );
};

const disposalColumns: readonly ListColumn<OfCar<Disposal>>[] = [
  ...carColumns,
  { name: 'sold_on', width: 12, value: disposal => dateCell(disposal.soldOn) },
  { name: 'sold_for', width: 12, value: disposal => amountCell(disposal.proceeds, disposal.currency) },
  { name: 'fees', width: 12, value: disposal => amountCell(disposal.fees, disposal.currency) },
  { name: 'currency', width: 10, value: disposal => textCell(disposal.currency) },
  { name: 'buyer', width: 20, value: disposal => textCell(disposal.buyer) },
  { name: 'venue', width: 20, value: disposal => textCell(disposal.venue) },
  { name: 'notes', width: 30, value: disposal => textCell(disposal.notes) },
];

/** All sales of cars, or those that are given, in that order. */
export const disposalsTable = async (session: Session, ids?: readonly number[]): Promise<DataTable> => {
  const all = await listDisposals(openOf(session).read.db);
  return listTable(
    'Disposals',
    disposalColumns,
    await withNumbers(session, ids ? chosenOf(all, ids, ({ id }) => id) : all.toReversed()),
  );
};

export const decisionColumns: readonly ListColumn<StoredDecision>[] = [
  { name: 'decided_on', width: 12, value: decision => dateCell(decision.decidedOn) },
  { name: 'choice', width: 14, value: decision => textCell(decision.choice) },
  { name: 'recommended', width: 20, value: decision => textCell(decision.recommended) },
  { name: 'overruled', width: 24, value: decision => textCell(decision.overruled.join('; ')) },
  { name: 'reason', width: 40, value: decision => textCell(decision.reason) },
];

export const decisionsTable = async (session: Session): Promise<DataTable> => {
  const decisions = [...(await readDecisions(openOf(session).read.db)).values()];
  const rows = await withNumbers(session, decisions);
  return listTable(
    'Decisions',
    [...carColumns, ...decisionColumns],
    rows.sort((a, b) => (a.number < b.number ? -1 : 1)),
  );
};
