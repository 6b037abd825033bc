import type { Kysely } from 'kysely';
import type { Minor } from '../../valuation/types.ts';
import type { FinishState, Grade } from '../../valuation/words.ts';
import { halfToGrade, inChunks, readTexts } from '../codec.ts';
import type { Schema } from '../schema.ts';
import { carCandidates } from './cars.ts';

/** Of a car what sums, groups and orders of a whole collection are made of. */
export interface BriefCar {
  readonly id: number;
  readonly isSold: boolean;
  readonly isKept: boolean;
  readonly lotId: number | null;
  readonly castingId: number | null;
  readonly variationId: number | null;
  /** Variations that it may be, where the one is not known. */
  readonly candidates: number[];
  /**
   * The colour that it wears, where that is recorded and another; else what was written of a car without a
   * variation.
   */
  readonly colour: string;
  readonly grade: Grade | null;
  readonly finishState: FinishState;
  /** Its cost, in the currency of its lot. */
  readonly cost: Minor | null;
  readonly isDecided: boolean;
  readonly hasPhoto: boolean;
}

const none: number[] = [];

/** The cars in the order in which they were entered, in brief; all, or those of these ids. */
export const briefCars = async (db: Kysely<Schema>, carIds?: number[]): Promise<BriefCar[]> => {
  const rows = await inChunks(carIds, ids => {
    const query = db
      .selectFrom('car')
      .select([
        'id',
        'status',
        'lot_id',
        'casting_id',
        'variation_id',
        'as_written',
        'worn_colour',
        'grade_half',
        'finish_state',
        'cost_minor',
      ])
      .select(eb => [
        eb
          .exists(eb.selectFrom('decision').select('decision.id').whereRef('decision.car_id', '=', 'car.id'))
          .as('decided'),
        eb
          .exists(eb.selectFrom('photo').select('photo.id').whereRef('photo.car_id', '=', 'car.id'))
          .as('photographed'),
      ])
      .orderBy('id');
    return (ids ? query.where('id', 'in', ids) : query).execute();
  });
  const candidates = await carCandidates(db, carIds);
  return rows.map(row => ({
    id: row.id,
    isSold: row.status === 'sold',
    isKept: row.status === 'kept',
    lotId: row.lot_id,
    castingId: row.casting_id,
    variationId: row.variation_id,
    candidates: candidates.get(row.id) ?? none,
    colour:
      row.worn_colour ||
      (row.variation_id !== null || row.as_written === '{}' ? '' : (readTexts(row.as_written).colour ?? '')),
    grade: halfToGrade(row.grade_half),
    finishState: row.finish_state,
    cost: row.cost_minor,
    isDecided: Number(row.decided) === 1,
    hasPhoto: Number(row.photographed) === 1,
  }));
};
