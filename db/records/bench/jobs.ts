import type { Kysely, Selectable, Transaction } from 'kysely';
import type { Currency, Minor, ThreePoint, WorkReason } from '../../../valuation/types.ts';
import {
  type Grade,
  type Hazard,
  isGrade,
  type JobState,
  type JobStepState,
  type WorkKind,
} from '../../../valuation/words.ts';
import { readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';
import { rowToWork, workToRow } from '../plans/work-step.ts';
import { type JobUse, usesOfJobs } from './job-uses.ts';

/** A step of a job, with the time that was counted on it. */
export interface JobStep {
  id: number;
  step: string;
  name: string;
  part: string;
  state: JobStepState;
  /** Minutes that were planned. */
  hands: ThreePoint;
  waiting: ThreePoint;
  hazards: Hazard[];
  /** What called for it; null where that is not known to this version. */
  why: WorkReason | null;
  waitsUntil: string | null;
  doneAt: string | null;
  /** When the call at the end of its waiting was heard. */
  heardAt: string | null;
  spoiled: boolean;
  note: string;
  /**
   * Seconds of work that are counted, and how many of its times cannot be counted by themselves (left
   * running over night).
   */
  seconds: number;
  uncounted: number;
  runningSince: string | null;
  /** How many cars share the time of the clock that runs; 1 where none does. */
  sharedBy: number;
}

/** The work on one car. */
export interface Job {
  id: number;
  carId: number;
  seasonId: number | null;
  kind: WorkKind;
  state: JobState;
  addedAt: string;
  startedAt: string | null;
  endedAt: string | null;
  reason: string;
  /** The grade that its plan aimed at; null where that was not written down. */
  aim: Grade | null;
  /** The colour that it was to be painted in; empty where that was not said. */
  colour: string;
  /** What its plan was likely to cost in materials and parts; null where that was not written down. */
  plannedCost: { minor: Minor; currency: Currency } | null;
  steps: JobStep[];
  uses: JobUse[];
}

const readReason = (json: string): WorkReason | null => {
  const value = readJson(json);
  return typeof value === 'object' && value !== null && 'kind' in value ? (value as WorkReason) : null;
};

const colourOf = (plan: string): string => {
  const read = readJson(plan);
  const colour = read !== null && typeof read === 'object' && 'colour' in read ? read.colour : '';
  return typeof colour === 'string' ? colour : '';
};

const aimOf = (plan: string): Grade | null => {
  const read = readJson(plan);
  const aim = read !== null && typeof read === 'object' && 'aim' in read ? read.aim : null;
  return isGrade(aim) ? aim : null;
};

const rowToStep = (
  row: Selectable<Schema['job_step']>,
  spans: readonly Selectable<Schema['job_time']>[],
): JobStep => ({
  id: row.id,
  step: row.step,
  name: row.name,
  part: row.part,
  state: row.state,
  ...rowToWork(row),
  why: readReason(row.why),
  waitsUntil: row.waits_until,
  doneAt: row.done_at,
  heardAt: row.heard_at,
  spoiled: row.spoiled === 1,
  note: row.note,
  seconds: spans.reduce((sum, span) => sum + Math.round((span.seconds ?? 0) / span.shared_by), 0),
  uncounted: spans.filter(span => span.ended_at !== null && span.seconds === null).length,
  runningSince: spans.find(span => span.ended_at === null)?.started_at ?? null,
  sharedBy: spans.find(span => span.ended_at === null)?.shared_by ?? 1,
});

const plannedCostOf = (plan: string): Job['plannedCost'] => {
  const read = readJson(plan);
  if (read === null || typeof read !== 'object' || !('minor' in read) || !('currency' in read)) return null;
  const { minor, currency } = read;
  return typeof minor === 'number' && typeof currency === 'string' ? { minor, currency } : null;
};

/** Jobs in the order of the bench, those that are over last. */
export const listJobs = async (db: Kysely<Schema>): Promise<Job[]> => {
  const jobs = await db.selectFrom('job').selectAll().orderBy('position').orderBy('id').execute();
  const steps = Map.groupBy(
    await db.selectFrom('job_step').selectAll().orderBy('position').orderBy('id').execute(),
    step => step.job_id,
  );
  const times = Map.groupBy(
    await db.selectFrom('job_time').selectAll().orderBy('id').execute(),
    time => time.step_id,
  );
  const uses = await usesOfJobs(db);
  const over = (state: JobState) => state === 'finished' || state === 'given up';
  return jobs
    .map(job => ({
      id: job.id,
      carId: job.car_id,
      seasonId: job.season_id,
      kind: job.kind,
      state: job.state,
      addedAt: job.added_at,
      startedAt: job.started_at,
      endedAt: job.ended_at,
      reason: job.reason,
      aim: aimOf(job.plan),
      plannedCost: plannedCostOf(job.plan),
      colour: colourOf(job.plan),
      steps: (steps.get(job.id) ?? []).map(step => rowToStep(step, times.get(step.id) ?? [])),
      uses: uses.get(job.id) ?? [],
    }))
    .sort((a, b) => Number(over(a.state)) - Number(over(b.state)));
};

/** The cars whose job is not over: waiting for its turn, under way or paused. */
export const carsOnBench = async (db: Kysely<Schema>): Promise<Set<number>> => {
  const jobs = await db
    .selectFrom('job')
    .select('car_id')
    .where('state', 'not in', ['finished', 'given up'])
    .execute();
  return new Set(jobs.map(job => job.car_id));
};

/** Puts a car on the bench with the steps of its plan. Returns the job's id. */
export const insertJob = async (
  trx: Transaction<Schema>,
  job: {
    carId: number;
    seasonId: number | null;
    kind: WorkKind;
    lines: readonly Parameters<typeof workToRow>[0][];
    /** The grade that its plan aims at. */
    aim?: Grade;
    /** The colour that it is to be painted in. */
    colour?: string;
    /** What its plan is likely to cost in materials and parts. */
    plannedCost?: { minor: Minor; currency: Currency };
  },
  at: string,
): Promise<number> => {
  const last = await trx
    .selectFrom('job')
    .select(eb => eb.fn.max('position').as('last'))
    .executeTakeFirst();
  const { id } = await trx
    .insertInto('job')
    .values({
      car_id: job.carId,
      season_id: job.seasonId,
      kind: job.kind,
      plan: JSON.stringify({
        ...(job.aim !== undefined && { aim: job.aim }),
        ...job.plannedCost,
        ...(job.colour && { colour: job.colour }),
      }),
      position: (last?.last ?? 0) + 1,
      added_at: at,
    })
    .returning('id')
    .executeTakeFirstOrThrow();
  for (const [position, line] of job.lines.entries())
    await trx
      .insertInto('job_step')
      .values({ job_id: id, position, ...workToRow(line) })
      .execute();
  return id;
};

/** Changes where a job is in its life, and when. */
export const setJobState = async (
  trx: Transaction<Schema>,
  id: number,
  state: JobState,
  more: { startedAt?: string; endedAt?: string; reason?: string } = {},
): Promise<void> => {
  await trx
    .updateTable('job')
    .set({
      state,
      ...(more.startedAt !== undefined && { started_at: more.startedAt }),
      ...(more.endedAt !== undefined && { ended_at: more.endedAt }),
      ...(more.reason !== undefined && { reason: more.reason }),
    })
    .where('id', '=', id)
    .execute();
};

/** Ticks a step off, leaves it out, or takes that back. */
export const setJobStep = async (
  trx: Transaction<Schema>,
  id: number,
  step: Pick<JobStep, 'state' | 'note' | 'spoiled' | 'doneAt' | 'waitsUntil'>,
): Promise<void> => {
  await trx
    .updateTable('job_step')
    .set({
      state: step.state,
      note: step.note,
      spoiled: step.spoiled ? 1 : 0,
      done_at: step.doneAt,
      waits_until: step.waitsUntil,
      heard_at: null,
    })
    .where('id', '=', id)
    .execute();
};

/** Starts the clock of a step that so many cars share. */
export const startTime = async (
  trx: Transaction<Schema>,
  stepId: number,
  at: string,
  sharedBy: number,
): Promise<void> => {
  await trx
    .insertInto('job_time')
    .values({ step_id: stepId, started_at: at, ended_at: null, seconds: null, shared_by: sharedBy })
    .execute();
};

/** Stops the clock of a step, with the seconds that count; null where they cannot be told. */
export const stopTime = async (
  trx: Transaction<Schema>,
  stepId: number,
  at: string,
  seconds: number | null,
): Promise<void> => {
  await trx
    .updateTable('job_time')
    .set({ ended_at: at, seconds })
    .where('step_id', '=', stepId)
    .where('ended_at', 'is', null)
    .execute();
};
