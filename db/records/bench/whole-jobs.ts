import type { Kysely, Transaction } from 'kysely';
import type { Schema } from '../../schema.ts';
import { listSeasons } from '../decisions/seasons.ts';
import { type FinishedWork, listFinishedWork } from './finished-work.ts';
import { type JobPhoto, jobDetails, listJobPhotos } from './job-details.ts';
import type { JobUse } from './job-uses.ts';
import { type Job, type JobStep, listJobs } from './jobs.ts';

/** A time on a step's clock; `endedAt` is null while it runs, `seconds` where they do not count. */
export interface StepTime {
  startedAt: string;
  endedAt: string | null;
  seconds: number | null;
  /** How many cars share it. */
  sharedBy: number;
}

/** What was used on a job, with the number of the car that a part was taken from; '' for none. */
export interface WholeUse extends Pick<JobUse, 'usedOn' | 'name' | 'minor' | 'currency'> {
  part:
    | (Pick<NonNullable<JobUse['part']>, 'part' | 'originality' | 'quantity'> & {
        donor: string;
        /** What it was called on the shelf; '' where it did not come from there. */
        shelf: string;
      })
    | null;
}

/** A photograph that was taken on a job, told by the fingerprint of its file. */
export type WholePhoto = Pick<JobPhoto, 'moment' | 'sha256'>;

/** A step of a job with all its times, all that it used, and the photographs that were taken at it. */
export interface WholeStep
  extends Omit<JobStep, 'id' | 'seconds' | 'uncounted' | 'runningSince' | 'sharedBy'> {
  times: StepTime[];
  uses: WholeUse[];
  photos: WholePhoto[];
}

/** A job with everything that belongs to it, in words that hold in another collection. */
export interface WholeJob extends Omit<Job, 'id' | 'carId' | 'seasonId' | 'steps' | 'uses'> {
  /** Name of its season; '' for none. */
  season: string;
  who: string;
  notes: string;
  lookedAt: string[];
  steps: WholeStep[];
  /** What was used at no step. */
  uses: WholeUse[];
  /** The photographs that were taken at no step. */
  photos: WholePhoto[];
}

/** Finished work in words that hold in another collection. */
export interface WholeWork extends Omit<FinishedWork, 'id' | 'carId' | 'jobId' | 'checkId'> {
  /** Whether its parts were looked at and noted that day. */
  isChecked: boolean;
}

/** Work on a car: a job, what was finished by it, or finished work that was no job. */
export interface WorkRecord {
  carId: number;
  /** Null for finished work that was no job. */
  jobId: number | null;
  job: WholeJob | null;
  work: WholeWork | null;
}

const timesOfSteps = async (db: Kysely<Schema>): Promise<Map<number, StepTime[]>> => {
  const rows = await db.selectFrom('job_time').selectAll().orderBy('id').execute();
  const times = new Map<number, StepTime[]>();
  for (const row of rows) {
    const time = {
      startedAt: row.started_at,
      endedAt: row.ended_at,
      seconds: row.seconds,
      sharedBy: row.shared_by,
    };
    const known = times.get(row.step_id);
    if (known) known.push(time);
    else times.set(row.step_id, [time]);
  }
  return times;
};

const wholeWork = ({ id: _, carId: __, jobId: ___, checkId, ...work }: FinishedWork): WholeWork => ({
  ...work,
  isChecked: checkId !== null,
});

/** All work on cars: the jobs as the bench has them, then finished work that was no job, the oldest first. */
export const listWorkRecords = async (db: Kysely<Schema>): Promise<WorkRecord[]> => {
  const jobs = await listJobs(db);
  const finished = [...(await listFinishedWork(db)).values()].flat();
  const workOf = new Map(finished.map(work => [work.jobId, work]));
  const details = await jobDetails(db);
  const seasons = new Map((await listSeasons(db)).map(season => [season.id, season.name]));
  const times = await timesOfSteps(db);
  const cars = await db.selectFrom('car').select(['id', 'inventory_number']).execute();
  const numbers = new Map(cars.map(car => [car.id, car.inventory_number]));
  const shelf = await db.selectFrom('part').select(['id', 'name']).execute();
  const shelfNames = new Map(shelf.map(({ id, name }) => [id, name]));
  const photos = Map.groupBy(await listJobPhotos(db), ({ jobId }) => jobId);
  const wholePhoto = ({ moment, sha256 }: JobPhoto): WholePhoto => ({ moment, sha256 });
  const wholeUse = ({ usedOn, name, minor, currency, part }: JobUse): WholeUse => ({
    ...{ usedOn, name, minor, currency },
    part: part && {
      part: part.part,
      originality: part.originality,
      quantity: part.quantity,
      donor: (part.donorCarId === null ? undefined : numbers.get(part.donorCarId)) ?? '',
      shelf: (part.shelfId === null ? undefined : shelfNames.get(part.shelfId)) ?? '',
    },
  });
  const ofJobs = jobs.map(({ id, carId, seasonId, steps, uses, ...job }): WorkRecord => {
    const known = new Set(steps.map(step => step.id));
    const work = workOf.get(id);
    const taken = photos.get(id) ?? [];
    return {
      carId,
      jobId: id,
      job: {
        ...job,
        season: (seasonId === null ? undefined : seasons.get(seasonId)) ?? '',
        ...(details.get(id) ?? { who: '', notes: '', lookedAt: [] }),
        steps: steps.map(
          ({ id: stepId, seconds: _, uncounted: __, runningSince: ___, sharedBy: ____, ...step }) => ({
            ...step,
            times: times.get(stepId) ?? [],
            uses: uses.filter(use => use.stepId === stepId).map(wholeUse),
            photos: taken.filter(photo => photo.stepId === stepId).map(wholePhoto),
          }),
        ),
        uses: uses.filter(({ stepId }) => stepId === null || !known.has(stepId)).map(wholeUse),
        photos: taken.filter(({ stepId }) => stepId === null || !known.has(stepId)).map(wholePhoto),
      },
      work: work ? wholeWork(work) : null,
    };
  });
  const alone = finished
    .filter(({ jobId }) => jobId === null)
    .sort((a, b) => (a.finishedOn === b.finishedOn ? a.id - b.id : a.finishedOn < b.finishedOn ? -1 : 1))
    .map((work): WorkRecord => ({ carId: work.carId, jobId: null, job: null, work: wholeWork(work) }));
  return [...ofJobs, ...alone];
};

/** Adds a time to a step's clock as it is told. */
export const insertTime = async (
  trx: Transaction<Schema>,
  stepId: number,
  { startedAt, endedAt, seconds, sharedBy }: StepTime,
): Promise<void> => {
  await trx
    .insertInto('job_time')
    .values({ step_id: stepId, started_at: startedAt, ended_at: endedAt, seconds, shared_by: sharedBy })
    .execute();
};
