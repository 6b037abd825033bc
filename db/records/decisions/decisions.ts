import type { Kysely, Transaction } from 'kysely';
import type { IsoDate } from '../../../valuation/types.ts';
import { type Option, type Recommendation, recommendations } from '../../../valuation/words.ts';
import { inChunks, readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** What the owner decided for a car. */
export interface StoredDecision {
  carId: number;
  choice: Option;
  decidedOn: IsoDate;
  /** What was recommended when it was decided. */
  recommended: Recommendation;
  /** Kinds of the guards that were overruled. */
  overruled: string[];
  reason: string;
}

/** Recorded decisions by car id; of all cars, or of those given. */
export const readDecisions = async (
  db: Kysely<Schema>,
  carIds?: number[],
): Promise<Map<number, StoredDecision>> => {
  const rows = await inChunks(carIds, ids => {
    const query = db.selectFrom('decision').selectAll();
    return (ids ? query.where('car_id', 'in', ids) : query).execute();
  });
  return new Map(
    rows.map(row => {
      const overruled = readJson(row.overruled);
      return [
        row.car_id,
        {
          carId: row.car_id,
          choice: row.choice,
          decidedOn: row.decided_on,
          recommended: recommendations.find(word => word === row.recommended) ?? 'not-enough-evidence',
          overruled: Array.isArray(overruled) ? overruled.filter(word => typeof word === 'string') : [],
          reason: row.reason,
        },
      ];
    }),
  );
};

/** What was decided of each car, by its id. */
export const readChoices = async (db: Kysely<Schema>): Promise<Map<number, Option>> => {
  const rows = await db.selectFrom('decision').select(['car_id', 'choice']).execute();
  return new Map(rows.map(row => [row.car_id, row.choice]));
};

/** Keeps a decision in place of an earlier one on the same car. */
export const saveDecision = async (trx: Transaction<Schema>, decision: StoredDecision): Promise<void> => {
  const values = {
    choice: decision.choice,
    decided_on: decision.decidedOn,
    recommended: decision.recommended,
    overruled: JSON.stringify(decision.overruled),
    reason: decision.reason,
  };
  await trx
    .insertInto('decision')
    .values({ car_id: decision.carId, ...values })
    .onConflict(conflict => conflict.column('car_id').doUpdateSet(values))
    .execute();
};

/** Takes a car's decision back. */
export const removeDecision = async (trx: Transaction<Schema>, carId: number): Promise<void> => {
  await trx.deleteFrom('decision').where('car_id', '=', carId).execute();
};
