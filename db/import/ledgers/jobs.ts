import type { Transaction } from 'kysely';
import type { IsoDate } from '../../../valuation/types.ts';
import { type CarStatus, deviationOfColour, type FinishState } from '../../../valuation/words.ts';
import { insertFinishedWork } from '../../records/bench/finished-work.ts';
import { insertJobPhoto, setHeard, setJobDetails } from '../../records/bench/job-details.ts';
import { insertMaterial, insertUsedPart } from '../../records/bench/job-uses.ts';
import { insertJob, setJobState, setJobStep } from '../../records/bench/jobs.ts';
import {
  insertTime,
  listWorkRecords,
  type WholeJob,
  type WholePhoto,
  type WholeUse,
  type WholeWork,
  type WorkRecord,
} from '../../records/bench/whole-jobs.ts';
import { updateCars } from '../../records/cars/cars-write.ts';
import { carChecks } from '../../records/cars/condition-checks.ts';
import { listSeasons } from '../../records/decisions/seasons.ts';
import type { Schema } from '../../schema.ts';
import { jobOf, workOf } from './job-rows.ts';
import { carsByNumber, counted, Refusal, type Row, seenRefuser, type Terms } from './row.ts';

/**
 * Which job a row belongs to. A row of finished work that was no job stands by itself, as does one that names no
 * car.
 */
export const recordOfRow = (row: Row, line: number): string =>
  row('job_state') === ''
    ? `line ${line}`
    : JSON.stringify([
        row('inventory_number').toLowerCase(),
        ...['job_number', 'work', 'job_state', 'added_on', 'started_on', 'ended_on'].map(row),
      ]);

const isOver = ({ state }: WholeJob): boolean => state === 'finished' || state === 'given up';

/** Which records of elsewhere may be here or not: a job is the same one with them and without. */
const elsewhere = new Set(['photos', 'shelf']);

/** What work says of itself, whatever the order in which it says it. */
const contentOf = ({ carId, job, work }: Omit<WorkRecord, 'jobId'>): string =>
  JSON.stringify({ carId, job, work }, (_, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(
          Object.entries(value)
            .filter(([name]) => !elsewhere.has(name))
            .sort(([one], [other]) => (one < other ? -1 : 1)),
        )
      : value,
  );

interface Books {
  trx: Transaction<Schema>;
  carOf: (number: string) => number | undefined;
  /** The id of what is on the shelf, by its name. */
  shelfOf: (name: string) => number | undefined;
  /** A photograph of a car that is on no job yet, by the fingerprint of its file. */
  takePhoto: (carId: number, sha256: string) => number | undefined;
  note: Terms['note'];
}

const insertUses = async (
  { trx, carOf, shelfOf }: Books,
  jobId: number,
  stepId: number | null,
  uses: readonly WholeUse[],
): Promise<void> => {
  for (const { part, ...use } of uses)
    if (!part) await insertMaterial(trx, { jobId, stepId, ...use });
    else {
      const { donor, shelf, originality, ...fitted } = part;
      if (originality === 'missing') continue;
      // What is on the shelf now is what was left after it.
      const from = { shelfId: shelfOf(shelf) ?? null, isCounted: true, donorCarId: carOf(donor) ?? null };
      await insertUsedPart(trx, { jobId, stepId, ...use, ...fitted, originality, ...from });
    }
};

/** Says of photographs that the car has at which step they were taken. */
const insertPhotos = async (
  { trx, takePhoto, note }: Books,
  { carId, jobId, stepId }: { carId: number; jobId: number; stepId: number | null },
  photos: readonly WholePhoto[],
): Promise<void> => {
  for (const { sha256, moment } of photos) {
    const photoId = takePhoto(carId, sha256);
    if (photoId !== undefined) await insertJobPhoto(trx, { jobId, stepId, photoId, moment });
    else
      note(
        'Some photographs of the jobs are not with their cars here, and are left out. Undo this import, add the photographs to the cars and import the list again; an archive brings them by itself.',
      );
  }
};

const insertWholeJob = async (
  books: Books,
  carId: number,
  job: WholeJob,
  seasonId: number | null,
): Promise<number> => {
  const { trx } = books;
  const { kind, aim, colour, plannedCost, addedAt, startedAt, endedAt } = job;
  const jobId = await insertJob(
    trx,
    {
      ...{ carId, seasonId, kind, colour },
      ...(aim !== null && { aim }),
      ...(plannedCost && { plannedCost }),
      lines: job.steps.map(({ step: id, ...line }) => ({ id, ...line })),
    },
    addedAt,
  );
  await setJobState(trx, jobId, job.state, {
    reason: job.reason,
    ...(startedAt !== null && { startedAt }),
    ...(endedAt !== null && { endedAt }),
  });
  await setJobDetails(trx, jobId, job);
  const rows = await trx
    .selectFrom('job_step')
    .select('id')
    .where('job_id', '=', jobId)
    .orderBy('position')
    .execute();
  for (const [i, step] of job.steps.entries()) {
    const stepId = rows[i]!.id;
    await setJobStep(trx, stepId, step);
    if (step.heardAt !== null) await setHeard(trx, [stepId], step.heardAt);
    for (const time of step.times) await insertTime(trx, stepId, time);
    await insertUses(books, jobId, stepId, step.uses);
    await insertPhotos(books, { carId, jobId, stepId }, step.photos);
  }
  await insertUses(books, jobId, null, job.uses);
  await insertPhotos(books, { carId, jobId, stepId: null }, job.photos);
  return jobId;
};

/** The check of a car that was made on a day; null where there is none, or more than one. */
const checkOf = async (trx: Transaction<Schema>, carId: number, on: IsoDate): Promise<number | null> => {
  const checks = (await carChecks(trx, carId)).filter(check => check.checkedOn === on);
  return checks.length === 1 ? checks[0]!.id : null;
};

/** Gives photographs of cars that are on no job yet, each once. */
const photosToTake = async (trx: Transaction<Schema>): Promise<Books['takePhoto']> => {
  const rows = await trx
    .selectFrom('photo')
    .leftJoin('job_photo', 'job_photo.photo_id', 'photo.id')
    .select(['photo.id', 'photo.car_id', 'photo.sha256'])
    .where('photo.car_id', 'is not', null)
    .where('job_photo.id', 'is', null)
    .orderBy('photo.id')
    .execute();
  const free = Map.groupBy(rows, row => `${row.car_id} ${row.sha256}`);
  return (carId, sha256) => free.get(`${carId} ${sha256}`)?.shift()?.id;
};

interface KnownCar {
  id: number;
  number: string;
  status: CarStatus;
  finishState: FinishState;
  isAtWork: boolean;
  newest: IsoDate | null;
}

/** Takes jobs with their steps, and finished work, each whole or not at all; nothing that is there is changed. */
export const jobs = async (trx: Transaction<Schema>, terms: Terms) => {
  const carIdOf = await carsByNumber(trx);
  const refuseSeen = await seenRefuser(trx);
  const there = await listWorkRecords(trx);
  const isKnown = counted(there.map(contentOf));
  const added = new Set(there.flatMap(({ carId, job }) => (job ? [`${carId} ${job.addedAt}`] : [])));
  const cars = new Map(
    (await trx.selectFrom('car').select(['id', 'inventory_number', 'status', 'finish_state']).execute()).map(
      (row): [number, KnownCar] => [
        row.id,
        {
          id: row.id,
          number: row.inventory_number,
          status: row.status,
          finishState: row.finish_state,
          isAtWork: false,
          newest: null,
        },
      ],
    ),
  );
  for (const { carId, job, work } of there) {
    const car = cars.get(carId)!;
    if (job && !isOver(job)) car.isAtWork = true;
    if (work && (car.newest === null || car.newest < work.finishedOn)) car.newest = work.finishedOn;
  }
  const ids = new Map([...cars.values()].map(({ id, number }) => [number.toLowerCase(), id]));
  const shelf = await trx.selectFrom('part').select(['id', 'name']).execute();
  const shelved = new Map(shelf.map(({ id, name }) => [name.toLowerCase(), id]));
  const books: Books = {
    trx,
    carOf: number => ids.get(number.toLowerCase()),
    shelfOf: name => shelved.get(name.toLowerCase()),
    takePhoto: await photosToTake(trx),
    note: terms.note,
  };
  const seasons = new Map((await listSeasons(trx)).map(({ id, name }) => [name, id]));

  /** The season's id; where it is not here, the job is taken without it, and that is said. */
  const seasonOf = (name: string): number | null => {
    const id = seasons.get(name) ?? null;
    if (name !== '' && id === null)
      terms.note(`There is no season "${name}" here: its jobs are taken without it.`);
    return id;
  };

  /** The job as this collection can have it: without a season or cars that are not here. */
  const asHere = (job: WholeJob, seasonId: number | null): WholeJob => {
    const usesHere = (uses: readonly WholeUse[]): WholeUse[] =>
      uses.map(use => {
        if (!use.part) return use;
        const { donor, shelf: shelfName } = use.part;
        if (shelfName !== '' && books.shelfOf(shelfName) === undefined)
          terms.note(
            `The shelf here has no "${shelfName}": parts that came from there are taken without saying so.`,
          );
        if (donor === '' || books.carOf(donor) !== undefined) return use;
        terms.note(
          `There is no car ${donor} here: parts that were taken from it are taken without saying so.`,
        );
        return { ...use, part: { ...use.part, donor: '' } };
      });
    return {
      ...job,
      season: seasonId === null ? '' : job.season,
      uses: usesHere(job.uses),
      steps: job.steps.map(step => ({ ...step, uses: usesHere(step.uses) })),
    };
  };

  /** A car that is said to be original is so no longer once its newest work has left it otherwise. */
  const followFinish = async (car: KnownCar, work: WholeWork): Promise<void> => {
    const { finishedOn, finishState, colour, departures } = work;
    const isNewest = car.newest === null || car.newest <= finishedOn;
    if (isNewest) car.newest = finishedOn;
    if (!isNewest || car.finishState !== 'original' || finishState === 'original') return;
    car.finishState = finishState;
    const wears = colour !== '' && departures.includes(deviationOfColour) ? { wornColour: colour } : {};
    await updateCars(trx, [{ id: car.id, changes: { finishState, ...wears } }], terms.at);
    terms.soldCarIds.push(car.id);
    terms.note(
      `${car.number} was said to have its original finish; by its finished work it is ${finishState} now.`,
    );
  };

  return async (rows: readonly Row[]): Promise<boolean> => {
    const carId = carIdOf(rows[0]!);
    const car = cars.get(carId)!;
    const job = jobOf(rows, terms);
    const work = workOf(rows, terms, job?.kind ?? null);
    if (!job && !work)
      throw new Refusal('job_state', 'it says neither how far the job is nor when the work was finished');
    const seasonId = job ? seasonOf(job.season) : null;
    const here = job && asHere(job, seasonId);
    const checkId = work?.isChecked ? await checkOf(trx, carId, work.finishedOn) : null;
    const workHere = work && { ...work, isChecked: checkId !== null };
    if (isKnown(contentOf({ carId, job: here, work: workHere }))) return false;
    refuseSeen(carId);
    if (job) {
      if (added.has(`${carId} ${job.addedAt}`))
        throw new Refusal(
          'inventory_number',
          'another job of this car that was added at the same time is recorded; nothing was changed',
        );
      if (!isOver(job) && car.isAtWork)
        throw new Refusal('inventory_number', 'this car is on the bench already; nothing was changed');
      if (!isOver(job) && car.status === 'sold')
        throw new Refusal('inventory_number', 'this car has been sold, so that no work on it is open');
    }
    const jobId = here && (await insertWholeJob(books, carId, here, seasonId));
    if (job) added.add(`${carId} ${job.addedAt}`);
    if (work) {
      const { isChecked: _, ...finished } = work;
      await insertFinishedWork(trx, { ...finished, carId, jobId, checkId });
      await followFinish(car, work);
    }
    if (job && !isOver(job)) {
      car.isAtWork = true;
      if (car.status === 'kept')
        await updateCars(trx, [{ id: carId, changes: { status: 'on the bench' } }], terms.at);
    }
    return true;
  };
};
