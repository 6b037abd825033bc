import type { Kysely } from 'kysely';
import type { Minor } from '../../../valuation/types.ts';
import type { CarStatus, FinishState, Grade } from '../../../valuation/words.ts';
import { halfToGrade, inChunks, readTexts } from '../../codec.ts';
import type { Schema } from '../../schema.ts';
import { carCandidates } from './cars.ts';

/** Of a car what sums, groups and orders of a whole collection are made of. */
export interface BriefCar {
  readonly id: number;
  readonly inventoryNumber: string;
  readonly status: CarStatus;
  readonly isSold: boolean;
  readonly isKept: boolean;
  readonly lotId: number | null;
  readonly castingId: number | null;
  readonly releaseId: number | null;
  readonly variationId: number | null;
  /** Variations that it may be, where the one is not known. */
  readonly candidates: number[];
  /**
   * The colour that it wears, where that is recorded and another; else what was written of a car without a
   * variation.
   */
  readonly colour: string;
  readonly wornColour: string;
  /** What was written of it. */
  readonly written: { readonly casting?: string; readonly release?: string; readonly colour?: string };
  readonly grade: Grade | null;
  readonly finishState: FinishState;
  /** Its cost, in the currency of its lot. */
  readonly cost: Minor | null;
  readonly isDecided: boolean;
  readonly photos: number;
  /** Something that was written of it is not understood. */
  readonly isUnread: boolean;
}

const none: number[] = [];
const nothing = {};

const writtenOf = (json: string): BriefCar['written'] => {
  if (json === '{}') return nothing;
  const { casting, release_name: release, colour } = readTexts(json);
  return { ...(casting && { casting }), ...(release && { release }), ...(colour && { colour }) };
};

/** The cars in the order in which they were entered, in brief; all, or those of these ids. */
export const briefCars = async (db: Kysely<Schema>, carIds?: number[]): Promise<BriefCar[]> => {
  const rows = await inChunks(carIds, ids => {
    const query = db
      .selectFrom('car')
      .select([
        'id',
        'inventory_number',
        'status',
        'lot_id',
        'casting_id',
        'release_id',
        'variation_id',
        'as_written',
        'worn_colour',
        'grade_half',
        'finish_state',
        'cost_minor',
        'unread',
      ])
      .select(eb => [
        eb
          .exists(eb.selectFrom('decision').select('decision.id').whereRef('decision.car_id', '=', 'car.id'))
          .as('decided'),
        eb
          .selectFrom('photo')
          .select(photo => photo.fn.countAll<number>().as('number'))
          .whereRef('photo.car_id', '=', 'car.id')
          .as('photos'),
      ])
      .orderBy('id');
    return (ids ? query.where('id', 'in', ids) : query).execute();
  });
  const candidates = await carCandidates(db, carIds);
  return rows.map(row => {
    const written = writtenOf(row.as_written);
    return {
      id: row.id,
      inventoryNumber: row.inventory_number,
      status: row.status,
      isSold: row.status === 'sold',
      isKept: row.status === 'kept',
      lotId: row.lot_id,
      castingId: row.casting_id,
      releaseId: row.release_id,
      variationId: row.variation_id,
      candidates: candidates.get(row.id) ?? none,
      colour: row.worn_colour || (row.variation_id === null ? (written.colour ?? '') : ''),
      wornColour: row.worn_colour,
      written,
      grade: halfToGrade(row.grade_half),
      finishState: row.finish_state,
      cost: row.cost_minor,
      isDecided: Number(row.decided) === 1,
      photos: Number(row.photos),
      isUnread: row.unread !== '[]',
    };
  });
};
