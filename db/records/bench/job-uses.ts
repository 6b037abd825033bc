import type { Kysely, Selectable, Transaction } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import type { Originality, PartName } from '../../../valuation/words.ts';
import type { Schema } from '../../schema.ts';

/** What is told of anything that a job used: an amount in its currency, and the step that it was used at. */
interface Used {
  stepId: number | null;
  name: string;
  usedOn: IsoDate;
  minor: Minor;
  currency: Currency;
}

/** What was used up or fitted on a job. */
export interface JobUse extends Used {
  id: number;
  /** A part's: what it is, and where it came from. Null for materials. */
  part: {
    part: PartName | '';
    originality: Originality;
    shelfId: number | null;
    donorCarId: number | null;
    quantity: number;
  } | null;
}

const rowToUsed = (row: Selectable<Schema['job_material'] | Schema['job_part']>) => ({
  id: row.id,
  stepId: row.step_id,
  name: row.name,
  usedOn: row.used_on,
  minor: row.minor,
  currency: row.currency,
});

const usedToRow = ({ jobId, stepId, usedOn, name, minor, currency }: Used & { jobId: number }) => ({
  job_id: jobId,
  step_id: stepId,
  used_on: usedOn,
  name,
  minor,
  currency,
  expense_id: null,
});

/** What each job has used, materials first, by the job's id. */
export const usesOfJobs = async (db: Kysely<Schema>): Promise<Map<number, JobUse[]>> => {
  const materials = await db.selectFrom('job_material').selectAll().orderBy('id').execute();
  const parts = await db.selectFrom('job_part').selectAll().orderBy('id').execute();
  const uses = new Map<number, JobUse[]>();
  const note = (jobId: number, use: JobUse) => {
    const known = uses.get(jobId);
    if (known) known.push(use);
    else uses.set(jobId, [use]);
  };
  for (const row of materials) note(row.job_id, { ...rowToUsed(row), part: null });
  for (const row of parts)
    note(row.job_id, {
      ...rowToUsed(row),
      part: {
        part: row.part as PartName | '',
        originality: row.originality,
        shelfId: row.part_id,
        donorCarId: row.donor_car_id,
        quantity: row.quantity,
      },
    });
  return uses;
};

/** Writes down material that was used. */
export const insertMaterial = async (
  trx: Transaction<Schema>,
  use: Used & { jobId: number },
): Promise<void> => {
  await trx.insertInto('job_material').values(usedToRow(use)).execute();
};

/** Writes down a part that was fitted; one from the shelf leaves it, unless it has left already. */
export const insertUsedPart = async (
  trx: Transaction<Schema>,
  use: Used & {
    jobId: number;
    part: PartName | '';
    originality: Exclude<Originality, 'missing'>;
    shelfId: number | null;
    donorCarId: number | null;
    quantity: number;
    /** Whether the shelf has counted it out already. */
    isCounted?: boolean;
  },
): Promise<void> => {
  await trx
    .insertInto('job_part')
    .values({
      ...usedToRow(use),
      part: use.part,
      originality: use.originality,
      part_id: use.shelfId,
      donor_car_id: use.donorCarId,
      quantity: use.quantity,
    })
    .execute();
  if (use.shelfId !== null && !use.isCounted)
    await trx
      .updateTable('part')
      .set(eb => ({ in_stock: eb('in_stock', '-', use.quantity) }))
      .where('id', '=', use.shelfId)
      .execute();
};
