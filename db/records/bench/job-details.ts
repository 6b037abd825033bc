import type { Kysely, Transaction } from 'kysely';
import type { IsoDate } from '../../../valuation/types.ts';
import type { Originality, PartName, PhotoMoment, WorkKind } from '../../../valuation/words.ts';
import { readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** A photograph that was taken on a job, at the step where it was taken. */
export interface JobPhoto {
  id: number;
  jobId: number;
  stepId: number | null;
  sha256: string;
  moment: PhotoMoment;
  caption: string;
}

/** The photographs of jobs, in the order in which they were taken. */
export const listJobPhotos = async (db: Kysely<Schema>): Promise<JobPhoto[]> =>
  db
    .selectFrom('job_photo')
    .innerJoin('photo', 'photo.id', 'job_photo.photo_id')
    .select([
      'photo.id',
      'job_photo.job_id as jobId',
      'job_photo.step_id as stepId',
      'photo.sha256',
      'job_photo.moment',
      'photo.caption',
    ])
    .orderBy('job_photo.id')
    .execute();

/** Says of a photograph on which job and at which step it was taken. */
export const insertJobPhoto = async (
  trx: Transaction<Schema>,
  photo: { jobId: number; stepId: number | null; photoId: number; moment: PhotoMoment },
): Promise<void> => {
  await trx
    .insertInto('job_photo')
    .values({ job_id: photo.jobId, step_id: photo.stepId, photo_id: photo.photoId, moment: photo.moment })
    .execute();
};

/** Notes of jobs, who does them, and what was looked at before closing, by job id. */
export const jobDetails = async (
  db: Kysely<Schema>,
): Promise<Map<number, { notes: string; who: string; lookedAt: string[] }>> => {
  const rows = await db.selectFrom('job').select(['id', 'notes', 'who', 'looked_at']).execute();
  return new Map(
    rows.map(row => {
      const seen = readJson(row.looked_at);
      return [
        row.id,
        {
          notes: row.notes,
          who: row.who,
          lookedAt: Array.isArray(seen) ? seen.filter(one => typeof one === 'string') : [],
        },
      ];
    }),
  );
};

/** Changes a job's notes, who does it, or what was looked at. */
export const setJobDetails = async (
  trx: Transaction<Schema>,
  id: number,
  { notes, who, lookedAt }: { notes?: string; who?: string; lookedAt?: readonly string[] },
): Promise<void> => {
  await trx
    .updateTable('job')
    .set({
      ...(notes !== undefined && { notes }),
      ...(who !== undefined && { who }),
      ...(lookedAt !== undefined && { looked_at: JSON.stringify(lookedAt) }),
    })
    .where('id', '=', id)
    .execute();
};

/** Puts jobs into the order in which they are given. */
export const orderJobs = async (trx: Transaction<Schema>, ids: readonly number[]): Promise<void> => {
  for (const [position, id] of ids.entries())
    await trx.updateTable('job').set({ position }).where('id', '=', id).execute();
};

/** Notes that the call of steps that ran by themselves was heard. */
export const setHeard = async (
  trx: Transaction<Schema>,
  stepIds: readonly number[],
  at: string,
): Promise<void> => {
  await trx.updateTable('job_step').set({ heard_at: at }).where('id', 'in', stepIds).execute();
};

/** Adds time to a step that its owner enters by hand. */
export const insertEnteredTime = async (
  trx: Transaction<Schema>,
  stepId: number,
  at: string,
  seconds: number,
  sharedBy: number,
): Promise<void> => {
  await trx
    .insertInto('job_time')
    .values({ step_id: stepId, started_at: at, ended_at: at, seconds, shared_by: sharedBy })
    .execute();
};

/** Takes back what was noted as used on a job; a part from the shelf goes back there. */
export const removeUse = async (
  trx: Transaction<Schema>,
  jobId: number,
  use: { id: number; is: 'material' | 'part' },
): Promise<void> => {
  if (use.is === 'material') {
    await trx.deleteFrom('job_material').where('id', '=', use.id).where('job_id', '=', jobId).execute();
    return;
  }
  const part = await trx
    .deleteFrom('job_part')
    .where('id', '=', use.id)
    .where('job_id', '=', jobId)
    .returning(['part_id', 'quantity'])
    .executeTakeFirst();
  if (part && part.part_id !== null)
    await trx
      .updateTable('part')
      .set(eb => ({ in_stock: eb('in_stock', '+', part.quantity) }))
      .where('id', '=', part.part_id)
      .execute();
};

/** A part that was fitted to one car and, where it is known, taken from another. */
export interface FittedPart {
  jobId: number;
  carId: number;
  donorCarId: number | null;
  name: string;
  part: PartName | '';
  originality: Originality;
  quantity: number;
  usedOn: IsoDate;
}

/** The parts that were fitted to a car, and those that were taken from it. */
export const partsOfCar = async (db: Kysely<Schema>, carId: number): Promise<FittedPart[]> => {
  const rows = await db
    .selectFrom('job_part')
    .innerJoin('job', 'job.id', 'job_part.job_id')
    .select([
      'job_part.job_id as jobId',
      'job.car_id as carId',
      'job_part.donor_car_id as donorCarId',
      'job_part.name',
      'job_part.part',
      'job_part.originality',
      'job_part.quantity',
      'job_part.used_on as usedOn',
    ])
    .where(eb => eb.or([eb('job.car_id', '=', carId), eb('job_part.donor_car_id', '=', carId)]))
    .orderBy('job_part.id')
    .execute();
  return rows.map(row => ({ ...row, part: row.part as PartName | '' }));
};

/** Work on a car that was given up: when, why, and the time of one's own that was counted on it. */
export interface GivenUp {
  jobId: number;
  kind: WorkKind;
  endedAt: string;
  reason: string;
  minutes: number;
}

/** The jobs on a car that were given up, the newest first. */
export const givenUpOf = async (db: Kysely<Schema>, carId: number): Promise<GivenUp[]> => {
  const jobs = await db
    .selectFrom('job')
    .select(['id', 'kind', 'ended_at', 'reason'])
    .where('car_id', '=', carId)
    .where('state', '=', 'given up')
    .orderBy('id', 'desc')
    .execute();
  if (jobs.length === 0) return [];
  const times = await db
    .selectFrom('job_time')
    .innerJoin('job_step', 'job_step.id', 'job_time.step_id')
    .innerJoin('job', 'job.id', 'job_step.job_id')
    .select(['job.id as jobId', 'job_time.seconds', 'job_time.shared_by as sharedBy'])
    .where('job.car_id', '=', carId)
    .where('job.state', '=', 'given up')
    .execute();
  const seconds = (id: number) =>
    times.reduce((sum, one) => sum + (one.jobId === id ? (one.seconds ?? 0) / one.sharedBy : 0), 0);
  return jobs.map(({ id, kind, ended_at, reason }) => ({
    jobId: id,
    kind,
    endedAt: ended_at ?? '',
    reason,
    minutes: Math.round(seconds(id) / 60),
  }));
};

/** A step that runs by itself, such as drying, and calls when it is done. */
export interface Call {
  stepId: number;
  jobId: number;
  name: string;
  inventoryNumber: string;
  waitsUntil: string;
}

/** The calls that were not heard yet, of jobs that are not over, the earliest first. */
export const listCalls = async (db: Kysely<Schema>): Promise<Call[]> => {
  const rows = await db
    .selectFrom('job_step')
    .innerJoin('job', 'job.id', 'job_step.job_id')
    .innerJoin('car', 'car.id', 'job.car_id')
    .select([
      'job_step.id as stepId',
      'job_step.job_id as jobId',
      'job_step.name',
      'car.inventory_number as inventoryNumber',
      'job_step.waits_until as waitsUntil',
    ])
    .where('job_step.waits_until', 'is not', null)
    .where('job_step.heard_at', 'is', null)
    .where('job.state', 'not in', ['finished', 'given up'])
    .orderBy('job_step.waits_until')
    .execute();
  return rows.flatMap(row => (row.waitsUntil === null ? [] : [{ ...row, waitsUntil: row.waitsUntil }]));
};
