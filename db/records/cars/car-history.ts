import type { Kysely } from 'kysely';
import { type HistoryAction, historyOfRows } from '../../history/history.ts';
import type { Schema } from '../../schema.ts';

/**
 * The actions that changed a car or what hangs on it, the newest first. `known` are ids that the caller
 * has read already.
 */
export const historyOfCar = async (
  db: Kysely<Schema>,
  carId: number,
  known: { checks: number[]; disposals: number[]; expenses: number[] },
): Promise<HistoryAction[]> => {
  const idsIn = async (
    table: 'restoration_plan' | 'decision' | 'photo' | 'finished_work' | 'job' | 'car_event',
  ) => (await db.selectFrom(table).select('id').where('car_id', '=', carId).execute()).map(row => row.id);
  return historyOfRows(db, [
    { table: 'car', ids: [carId] },
    { table: 'condition_check', ids: known.checks },
    { table: 'disposal', ids: known.disposals },
    { table: 'expense', ids: known.expenses },
    { table: 'restoration_plan', ids: await idsIn('restoration_plan') },
    { table: 'decision', ids: await idsIn('decision') },
    { table: 'photo', ids: await idsIn('photo') },
    { table: 'finished_work', ids: await idsIn('finished_work') },
    { table: 'job', ids: await idsIn('job') },
    { table: 'car_event', ids: await idsIn('car_event') },
  ]);
};
