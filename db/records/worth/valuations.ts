import type { Kysely, Transaction } from 'kysely';
import type { Currency, IsoDate, Range } from '../../../valuation/types.ts';
import { pieces } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** A car's worths as they were found on a day, kept for looking back. */
export interface ValuationSnapshot {
  carId: number;
  on: IsoDate;
  currency: Currency;
  basis: string;
  asFound: Range | null;
  restored: Range | null;
  originalFinish: Range | null;
}

const range = (low: number | null, mid: number | null, high: number | null): Range | null =>
  low === null || mid === null || high === null ? null : { low, mid, high };

/** Snapshots, of all cars or of one, the oldest first. */
export const listValuations = async (db: Kysely<Schema>, carId?: number): Promise<ValuationSnapshot[]> => {
  let query = db.selectFrom('valuation').selectAll();
  if (carId !== undefined) query = query.where('car_id', '=', carId);
  const rows = await query.orderBy('effective_on').orderBy('id').execute();
  return rows.map(row => ({
    carId: row.car_id,
    on: row.effective_on,
    currency: row.currency,
    basis: row.basis,
    asFound: range(row.as_found_low, row.as_found_mid, row.as_found_high),
    restored: range(row.restored_low, row.restored_mid, row.restored_high),
    originalFinish: range(row.original_low, row.original_mid, row.original_high),
  }));
};

/** Sum of the mids as found of each day's snapshots of one basis and currency, the oldest first. */
export const worthOverTime = async (
  db: Kysely<Schema>,
  basis: string,
  currency: Currency,
): Promise<{ on: IsoDate; asFound: number; cars: number }[]> => {
  const rows = await db
    .selectFrom('valuation')
    .select(['effective_on'])
    .select(eb => [
      eb.fn.sum<number>('as_found_mid').as('sum'),
      eb.fn.count<number>('as_found_mid').as('cars'),
    ])
    .where('basis', '=', basis)
    .where('currency', '=', currency)
    .groupBy('effective_on')
    .orderBy('effective_on')
    .execute();
  return rows.map(row => ({ on: row.effective_on, asFound: row.sum ?? 0, cars: row.cars }));
};

/**
 * Keeps snapshots; one of the same car, day and basis is replaced. `at` is the instant of making them,
 * `evidence` plain data by car id on what they rest.
 */
export const saveValuations = async (
  trx: Transaction<Schema>,
  snapshots: (ValuationSnapshot & { evidence: object })[],
  at: string,
  assumptionSetId: number | null,
): Promise<void> => {
  const first = snapshots[0];
  if (!first) return;
  for (const piece of pieces(snapshots))
    await trx
      .deleteFrom('valuation')
      .where('effective_on', '=', first.on)
      .where('basis', '=', first.basis)
      .where(
        'car_id',
        'in',
        piece.map(snapshot => snapshot.carId),
      )
      .execute();
  for (const piece of pieces(snapshots, 500))
    await trx
      .insertInto('valuation')
      .values(
        piece.map(snapshot => ({
          car_id: snapshot.carId,
          effective_on: snapshot.on,
          made_at: at,
          currency: snapshot.currency,
          basis: snapshot.basis,
          assumption_set_id: assumptionSetId,
          as_found_low: snapshot.asFound?.low ?? null,
          as_found_mid: snapshot.asFound?.mid ?? null,
          as_found_high: snapshot.asFound?.high ?? null,
          restored_low: snapshot.restored?.low ?? null,
          restored_mid: snapshot.restored?.mid ?? null,
          restored_high: snapshot.restored?.high ?? null,
          original_low: snapshot.originalFinish?.low ?? null,
          original_mid: snapshot.originalFinish?.mid ?? null,
          original_high: snapshot.originalFinish?.high ?? null,
          evidence: JSON.stringify(snapshot.evidence),
        })),
      )
      .execute();
};
