import type { Transaction } from 'kysely';
import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import { latestParts } from '../../../db/records/cars/condition-checks.ts';
import { type Disposal, listDisposals } from '../../../db/records/cars/disposals.ts';
import { insertSale, type SaleEntry, saleOfDisposal, updateSale } from '../../../db/records/sales/sales.ts';
import type { Schema } from '../../../db/schema.ts';
import { disposalToSaleRecord, type PartState } from '../../../valuation/index.ts';

/**
 * The sale record of a disposal; one of a car whose casting is not known is kept for later, and
 * tells nothing yet.
 */
const saleOf = (car: CarRecord, parts: PartState[], disposal: Disposal): Omit<SaleEntry, 'id'> | null => {
  const record = disposalToSaleRecord(0, { ...car, castingId: car.castingId ?? 0, parts }, disposal);
  if (!record) return null;
  const { id: _, reliability: __, ...sale } = record;
  return {
    ...sale,
    castingId: car.castingId,
    asWritten: car.castingId === null ? car.asWritten : {},
    reference: car.inventoryNumber,
    reliabilityPercent: null,
    excluded: false,
    excludedWhy: '',
    disposalId: disposal.id,
    notes: '',
  };
};

/**
 * Lets the sale records of sold cars follow what their cars and disposals say, adding those that are missing.
 * A car given away for nothing tells nothing of the market and has none.
 */
export const followOwnSales = async (trx: Transaction<Schema>, carIds: number[]): Promise<void> => {
  if (carIds.length === 0) return;
  const cars = new Map((await listCars(trx, { ids: carIds })).map(car => [car.id, car]));
  const parts = await latestParts(trx, carIds);
  for (const disposal of await listDisposals(trx, carIds)) {
    const car = cars.get(disposal.carId);
    if (!car) continue;
    const sale = saleOf(car, parts.get(car.id) ?? [], disposal);
    if (!sale) continue;
    const recorded = await saleOfDisposal(trx, disposal.id);
    if (recorded)
      await updateSale(trx, {
        ...sale,
        id: recorded.id,
        excluded: recorded.excluded,
        excludedWhy: recorded.excludedWhy,
        notes: recorded.notes,
      });
    else await insertSale(trx, sale);
  }
};
