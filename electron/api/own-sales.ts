import type { Transaction } from 'kysely';
import { type CarRecord, listCars } from '../../db/cars.ts';
import { latestParts } from '../../db/checks.ts';
import { type Disposal, listDisposals } from '../../db/disposals.ts';
import { insertSale, listSales, type SaleEntry, updateSale } from '../../db/sales.ts';
import type { Schema } from '../../db/schema.ts';
import type { PartState } from '../../valuation/types.ts';

/** The kind of source under which the owner's own sales stand in the assumption set. */
export const ownSource = 'own sale';

const saleOf = (car: CarRecord, parts: PartState[], disposal: Disposal): Omit<SaleEntry, 'id'> => ({
  soldOn: disposal.soldOn,
  price: disposal.proceeds,
  currency: disposal.currency,
  castingId: car.castingId,
  variationId: car.variationId,
  asWritten: car.castingId === null ? car.asWritten : {},
  grade: car.grade,
  finishState: car.finishState,
  missingParts: parts.filter(part => part.originality === 'missing').map(part => part.part),
  reproductionParts: parts.filter(part => part.originality === 'reproduction').map(part => part.part),
  source: ownSource,
  reference: car.inventoryNumber,
  reliabilityPercent: null,
  excluded: false,
  excludedWhy: '',
  disposalId: disposal.id,
  notes: '',
});

/**
 * Lets the sale records of sold cars follow what their cars and disposals say, adding those that are missing. A car
 * given away for nothing tells nothing of the market and has none.
 */
export const followOwnSales = async (trx: Transaction<Schema>, carIds: number[]): Promise<void> => {
  if (carIds.length === 0) return;
  const cars = new Map((await listCars(trx, { ids: carIds })).map(car => [car.id, car]));
  const parts = await latestParts(trx, carIds);
  for (const disposal of await listDisposals(trx, carIds)) {
    const car = cars.get(disposal.carId);
    if (!car) continue;
    const row = await trx
      .selectFrom('sale_record')
      .select('id')
      .where('disposal_id', '=', disposal.id)
      .executeTakeFirst();
    const sale = saleOf(car, parts.get(car.id) ?? [], disposal);
    const [kept] = row ? await listSales(trx, { ids: [row.id] }) : [];
    if (kept)
      await updateSale(trx, {
        ...sale,
        id: kept.id,
        excluded: kept.excluded,
        excludedWhy: kept.excludedWhy,
        notes: kept.notes,
      });
    else if (disposal.proceeds > 0) await insertSale(trx, sale);
  }
};
