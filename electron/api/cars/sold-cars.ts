import { listCars } from '../../../db/records/cars/cars.ts';
import {
  type Disposal,
  type Expense,
  listDisposals,
  listExpenses,
  soldWithoutSale,
} from '../../../db/records/cars/disposals.ts';
import { listLots } from '../../../db/records/lots/lots.ts';
import { netGain } from '../../../valuation/lots/net-gain.ts';
import type { Currency, Minor } from '../../../valuation/types.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import type { DisposalView, SoldCars } from '../views.ts';
import { identityOf } from './car-rows.ts';

/** What a sale brought, and the gain where the car's cost and all spending on it are in the same currency. */
export const disposalView = (
  { id: _, carId: __, ...disposal }: Disposal,
  cost: Minor | null,
  costCurrency: Currency | null,
  expenses: readonly Expense[],
): DisposalView => {
  const { proceeds, fees, currency } = disposal;
  const same = costCurrency === currency && expenses.every(expense => expense.currency === disposal.currency);
  const improvements = expenses.reduce((sum, { minor }) => sum + minor, 0);
  return {
    ...disposal,
    gain: same && cost !== null ? netGain({ proceeds, fees, cost, improvements }) : null,
  };
};

/** Every car that was sold, the latest sale first, with what it brought. */
const sold = needsCollection.handler(async ({ context: { session, db } }): Promise<SoldCars> => {
  const disposals = await listDisposals(db);
  const index = await referenceIndex(session);
  const ids = disposals.map(({ carId }) => carId);
  const cars = new Map((await listCars(db, { ids })).map(car => [car.id, car]));
  const currencies = new Map((await listLots(db)).map(lot => [lot.id, lot.currency]));
  const spent = Map.groupBy(await listExpenses(db, ids), ({ carId }) => carId);
  return {
    rows: disposals.flatMap(disposal => {
      const car = cars.get(disposal.carId);
      if (!car) return [];
      const { inventoryNumber, asWritten, grade, finishState, wornColour } = car;
      const currency = (car.lotId !== null && currencies.get(car.lotId)) || null;
      return {
        id: disposal.id,
        carId: car.id,
        inventoryNumber,
        asWritten,
        grade,
        finishState,
        wornColour,
        ...identityOf(index, car),
        ...disposalView(disposal, car.cost, currency, spent.get(car.id) ?? []),
      };
    }),
    unrecorded: await soldWithoutSale(db),
  };
});

export const soldCars = { sold };
