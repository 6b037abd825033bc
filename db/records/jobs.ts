import type { Kysely, Transaction } from 'kysely';
import type { Currency, IsoDate, Minor, ThreePoint, WorkLine, WorkReason } from '../../valuation/types.ts';
import {
  type Grade,
  type Hazard,
  hazards,
  isGrade,
  type JobState,
  type JobStepState,
  type Originality,
  type PartName,
  type WorkKind,
} from '../../valuation/words.ts';
import { readJson, readWords } from '../codec.ts';
import type { Schema } from '../schema.ts';

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
}

/** What was used up or fitted on a job. */
export interface JobUse {
  id: number;
  stepId: number | null;
  name: string;
  usedOn: IsoDate;
  minor: Minor;
  currency: Currency;
  /** A part's: what it is, and where it came from. Null for materials. */
  part: {
    part: PartName | '';
    originality: Originality;
    shelfId: number | null;
    donorCarId: number | null;
    quantity: number;
  } | null;
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
  const materials = Map.groupBy(
    await db.selectFrom('job_material').selectAll().orderBy('id').execute(),
    one => one.job_id,
  );
  const parts = Map.groupBy(
    await db.selectFrom('job_part').selectAll().orderBy('id').execute(),
    one => one.job_id,
  );
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
      colour: colourOf(job.plan),
      steps: (steps.get(job.id) ?? []).map(step => {
        const spans = times.get(step.id) ?? [];
        return {
          id: step.id,
          step: step.step,
          name: step.name,
          part: step.part,
          state: step.state,
          hands: { low: step.hands_low, likely: step.hands_likely, high: step.hands_high },
          waiting: { low: step.waiting_low, likely: step.waiting_likely, high: step.waiting_high },
          hazards: readWords(step.hazards, hazards),
          why: readReason(step.why),
          waitsUntil: step.waits_until,
          doneAt: step.done_at,
          heardAt: step.heard_at,
          spoiled: step.spoiled === 1,
          note: step.note,
          seconds: spans.reduce((sum, span) => sum + Math.round((span.seconds ?? 0) / span.shared_by), 0),
          uncounted: spans.filter(span => span.ended_at !== null && span.seconds === null).length,
          runningSince: spans.find(span => span.ended_at === null)?.started_at ?? null,
        };
      }),
      uses: [
        ...(materials.get(job.id) ?? []).map(one => ({
          id: one.id,
          stepId: one.step_id,
          name: one.name,
          usedOn: one.used_on,
          minor: one.minor,
          currency: one.currency,
          part: null,
        })),
        ...(parts.get(job.id) ?? []).map(one => ({
          id: one.id,
          stepId: one.step_id,
          name: one.name,
          usedOn: one.used_on,
          minor: one.minor,
          currency: one.currency,
          part: {
            part: one.part as PartName | '',
            originality: one.originality,
            shelfId: one.part_id,
            donorCarId: one.donor_car_id,
            quantity: one.quantity,
          },
        })),
      ],
    }))
    .sort((a, b) => Number(over(a.state)) - Number(over(b.state)));
};

/** Puts a car on the bench with the steps of its plan. Returns the job's id. */
export const insertJob = async (
  trx: Transaction<Schema>,
  job: {
    carId: number;
    seasonId: number | null;
    kind: WorkKind;
    lines: readonly WorkLine[];
    /** The grade that its plan aims at. */
    aim?: Grade;
    /** The colour that it is to be painted in. */
    colour?: string;
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
      .values({
        job_id: id,
        position,
        step: line.id,
        name: line.name,
        part: line.part ?? '',
        hands_low: Math.round(line.hands.low),
        hands_likely: Math.round(line.hands.likely),
        hands_high: Math.round(line.hands.high),
        waiting_low: Math.round(line.waiting.low),
        waiting_likely: Math.round(line.waiting.likely),
        waiting_high: Math.round(line.waiting.high),
        hazards: JSON.stringify(line.hazards),
        why: JSON.stringify(line.why),
      })
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

/** Writes down material that was used. */
export const insertMaterial = async (
  trx: Transaction<Schema>,
  use: {
    jobId: number;
    stepId: number | null;
    usedOn: IsoDate;
    name: string;
    minor: Minor;
    currency: Currency;
  },
): Promise<void> => {
  await trx
    .insertInto('job_material')
    .values({
      job_id: use.jobId,
      step_id: use.stepId,
      used_on: use.usedOn,
      name: use.name,
      minor: use.minor,
      currency: use.currency,
      expense_id: null,
    })
    .execute();
};

/** Writes down a part that was fitted; one from the shelf leaves it. */
export const insertUsedPart = async (
  trx: Transaction<Schema>,
  use: {
    jobId: number;
    stepId: number | null;
    usedOn: IsoDate;
    name: string;
    part: PartName | '';
    originality: Exclude<Originality, 'missing'>;
    shelfId: number | null;
    donorCarId: number | null;
    quantity: number;
    minor: Minor;
    currency: Currency;
  },
): Promise<void> => {
  await trx
    .insertInto('job_part')
    .values({
      job_id: use.jobId,
      step_id: use.stepId,
      used_on: use.usedOn,
      name: use.name,
      part: use.part,
      originality: use.originality,
      part_id: use.shelfId,
      donor_car_id: use.donorCarId,
      quantity: use.quantity,
      minor: use.minor,
      currency: use.currency,
      expense_id: null,
    })
    .execute();
  if (use.shelfId !== null)
    await trx
      .updateTable('part')
      .set(eb => ({ in_stock: eb('in_stock', '-', use.quantity) }))
      .where('id', '=', use.shelfId)
      .execute();
};
