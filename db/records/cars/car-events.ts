import type { Kysely, Transaction } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import type { Grade } from '../../../valuation/words.ts';
import { gradeToHalf, halfToGrade } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/**
 * Something that happened to a car: dropped, scuffed, repaired; with its condition and its value before and
 * after, as they were worked out then.
 */
export interface CarEvent {
  id: number;
  happenedOn: IsoDate;
  cause: string;
  note: string;
  checkId: number | null;
  before: Grade | null;
  after: Grade | null;
  worthBefore: Minor | null;
  worthAfter: Minor | null;
  currency: Currency | null;
}

/** What happened to a car, the newest first. */
export const listCarEvents = async (db: Kysely<Schema>, carId: number): Promise<CarEvent[]> => {
  const rows = await db
    .selectFrom('car_event')
    .selectAll()
    .where('car_id', '=', carId)
    .orderBy('happened_on', 'desc')
    .orderBy('id', 'desc')
    .execute();
  return rows.map(row => ({
    id: row.id,
    happenedOn: row.happened_on,
    cause: row.cause,
    note: row.note,
    checkId: row.check_id,
    before: halfToGrade(row.before_half),
    after: halfToGrade(row.after_half),
    worthBefore: row.worth_before_minor,
    worthAfter: row.worth_after_minor,
    currency: row.currency,
  }));
};

/** Writes down what happened to a car. */
export const insertCarEvent = async (
  trx: Transaction<Schema>,
  carId: number,
  event: Omit<CarEvent, 'id'>,
): Promise<void> => {
  await trx
    .insertInto('car_event')
    .values({
      car_id: carId,
      happened_on: event.happenedOn,
      cause: event.cause,
      note: event.note,
      check_id: event.checkId,
      before_half: gradeToHalf(event.before),
      after_half: gradeToHalf(event.after),
      worth_before_minor: event.worthBefore,
      worth_after_minor: event.worthAfter,
      currency: event.currency,
    })
    .execute();
};
