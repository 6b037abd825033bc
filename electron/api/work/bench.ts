import { addPhoto } from '../../../db/photos/photos.ts';
import {
  insertEnteredTime,
  insertJobPhoto,
  listCalls,
  orderJobs,
  removeUse as removeUseRow,
  setHeard,
  setJobDetails,
} from '../../../db/records/bench/job-details.ts';
import { insertMaterial, insertUsedPart } from '../../../db/records/bench/job-uses.ts';
import {
  carsOnBench,
  insertJob,
  type Job,
  type JobStep,
  listJobs,
  setJobState,
  setJobStep,
  startTime,
} from '../../../db/records/bench/jobs.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { updateCars } from '../../../db/records/cars/cars-write.ts';
import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { listSeasons } from '../../../db/records/decisions/seasons.ts';
import { listParts } from '../../../db/records/plans/parts.ts';
import type { WorkPlan } from '../../../valuation/index.ts';
import { paintsCar, type WorkKind } from '../../../valuation/words.ts';
import { finishLeft } from '../../../valuation/work/finish-left.ts';
import { carPlan } from '../cars/car-plan.ts';
import { carRows } from '../cars/car-rows.ts';
import { findCar } from '../cars/find-car.ts';
import { planInColour, type Write } from '../cars/save-plan.ts';
import { stopClocks } from '../cars/stop-clocks.ts';
import { storeFiles } from '../cars/store-files.ts';
import { ownedOf, refuseSeen } from '../figures/owned.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { CallView, DonorView, JobView } from '../views.ts';
import { jobViews } from './job-views.ts';

const isOver = ({ state }: Job): boolean => state === 'finished' || state === 'given up';

const findJob = (jobs: readonly Job[], id: number): Job => {
  const job = jobs.find(one => one.id === id);
  if (!job) throw notFound('job', id);
  if (isOver(job)) throw refused('That job is over.');
  return job;
};

const findSteps = (jobs: readonly Job[], ids: readonly number[]): { job: Job; step: JobStep }[] =>
  ids.map(id => {
    for (const job of jobs) {
      const step = job.steps.find(one => one.id === id);
      if (step) return { job: findJob(jobs, job.id), step };
    }
    throw notFound('step', id);
  });

const list = needsCollection.handler(({ context }): Promise<JobView[]> => jobViews(context.session));

/**
 * Puts cars on the bench, each with the steps of its saved plan or of the one made from it; one action. The
 * colours that their season has for them go into their plans.
 */
const add = needsCollection.input(inputs.addJobs).handler(async ({ context, input }) => {
  const { session, db } = context;
  const ids = input.cars.map(({ carId }) => carId);
  const cars = await listCars(db, { ids });
  const running = await carsOnBench(db);
  for (const id of ids) {
    const car = cars.find(one => one.id === id);
    if (!car) throw notFound('car', id);
    if (car.status === 'sold') throw refused(`${car.inventoryNumber} has been sold.`);
    await refuseSeen(session, car);
    if (running.has(id)) throw refused(`${car.inventoryNumber} is on the bench already.`);
  }
  const currency = await readReportingCurrency(db);
  const season = (await listSeasons(db)).find(one => one.id === input.seasonId);
  const colourOf = new Map(season?.cars.map(({ carId, colour }) => [carId, colour]));
  const planned: { carId: number; kind: WorkKind; plan: WorkPlan; colour: string; write: Write | null }[] =
    [];
  for (const { carId, kind } of input.cars) {
    const colour = paintsCar(kind) ? (colourOf.get(carId) ?? '') : '';
    const { plan, wishes } = await carPlan(session, { carId, kind });
    planned.push({
      carId,
      kind,
      plan,
      colour: colour || (wishes.colour ?? ''),
      write: colour !== '' && paintsCar(kind) ? await planInColour(session, { carId, kind, colour }) : null,
    });
  }
  const label = ids.length === 1 ? (cars[0]?.inventoryNumber ?? '') : `${ids.length} cars`;
  return session.act(`Put ${label} on the bench`, async trx => {
    const jobIds: number[] = [];
    for (const { carId, kind, plan, colour, write } of planned) {
      const { lines, aim, cost } = plan;
      const plannedCost = { minor: Math.round(cost.likely), currency };
      await write?.(trx);
      const job = { carId, kind, lines, aim, colour, plannedCost, seasonId: input.seasonId };
      jobIds.push(await insertJob(trx, job, session.at()));
    }
    await updateCars(
      trx,
      ids.map(id => ({ id, changes: { status: 'on the bench' as const } })),
      session.at(),
    );
    return { ids: jobIds };
  });
});

/** Steps with those of other cars that are done at once with them; the same one twice counts once. */
const together = ({ stepId, also }: { stepId: number; also: readonly number[] }): number[] => [
  ...new Set([stepId, ...also]),
];
const onCars = (count: number): string => (count === 1 ? '' : ` on ${count} cars`);

/**
 * Ticks a step off, leaves it out or takes that back, on several cars at once where that is asked for; one
 * action. A clock that runs on it stops; what then runs by itself is called when it is done.
 */
const setStep = needsCollection.input(inputs.setJobStep).handler(async ({ context, input }) => {
  const { session, db } = context;
  const jobs = await listJobs(db);
  const found = findSteps(jobs, together(input));
  const now = session.at();
  const done = input.state === 'done';
  const label = `${done ? 'Did' : 'Changed'} a step${onCars(found.length)}: ${found[0]!.step.name}`;
  await session.act(label, async trx => {
    await stopClocks(
      trx,
      jobs,
      found.map(({ step }) => step),
      now,
    );
    for (const { job, step } of found) {
      if (job.state !== 'open')
        await setJobState(trx, job.id, 'open', job.startedAt === null ? { startedAt: now } : {});
      const waits = done && step.waiting.likely > 0;
      const isItself = step.id === input.stepId;
      await setJobStep(trx, step.id, {
        state: input.state,
        note: (isItself ? input.note : undefined) ?? step.note,
        spoiled: (isItself ? input.spoiled : undefined) ?? step.spoiled,
        doneAt: done ? now : null,
        waitsUntil: waits ? new Date(Date.parse(now) + step.waiting.likely * 60_000).toISOString() : null,
      });
    }
  });
});

/** Starts the clock on steps; several cars in one step at once share its time. */
const start = needsCollection.input(inputs.jobSteps).handler(async ({ context, input }) => {
  const { session, db } = context;
  const found = findSteps(await listJobs(db), input.stepIds);
  for (const { step } of found)
    if (step.runningSince !== null) throw refused(`The clock runs already on “${step.name}”.`);
  const now = session.at();
  await session.act(`Started the clock on ${found[0]!.step.name}`, async trx => {
    for (const { job, step } of found) {
      await startTime(trx, step.id, now, found.length);
      if (job.state !== 'open')
        await setJobState(trx, job.id, 'open', job.startedAt === null ? { startedAt: now } : {});
    }
  });
});

const stop = needsCollection.input(inputs.jobSteps).handler(async ({ context, input }) => {
  const { session, db } = context;
  const jobs = await listJobs(db);
  const steps = findSteps(jobs, input.stepIds).map(({ step }) => step);
  await session.act(`Stopped the clock on ${steps[0]!.name}`, trx =>
    stopClocks(trx, jobs, steps, session.at()),
  );
});

const addMaterial = needsCollection.input(inputs.addMaterial).handler(async ({ context, input }) => {
  const { session, db } = context;
  findJob(await listJobs(db), input.jobId);
  const usedOn = await session.today();
  await session.act(`Used ${input.name}`, trx => insertMaterial(trx, { ...input, usedOn }));
});

/**
 * Writes down a part that was fitted: from the shelf, which then has fewer, from a donor, or bought for it.
 */
const addPart = needsCollection.input(inputs.addPart).handler(async ({ context, input }) => {
  const { session, db } = context;
  const job = findJob(await listJobs(db), input.jobId);
  if (input.shelfId !== null) {
    const part = (await listParts(db)).find(one => one.id === input.shelfId);
    if (!part) throw notFound('part', input.shelfId);
    if (part.inStock < input.quantity)
      throw refused(`There are only ${part.inStock} of ${part.name} on the shelf.`);
  }
  if (input.donorCarId !== null) {
    if (input.donorCarId === job.carId) throw refused('A car cannot be its own donor.');
    const [donor] = await listCars(db, { ids: [input.donorCarId] });
    if (!donor) throw notFound('car', input.donorCarId);
  }
  const usedOn = await session.today();
  await session.act(`Fitted ${input.name}`, trx => insertUsedPart(trx, { ...input, usedOn }));
});

/**
 * Pauses a job, goes on with it, or gives it up with a reason; a car that was given up comes off the bench, in
 * the finish in which the steps that are done leave it.
 */
const change = needsCollection.input(inputs.changeJob).handler(async ({ context, input }) => {
  const { session, db } = context;
  const jobs = await listJobs(db);
  const job = findJob(jobs, input.id);
  const reason = input.reason.trim();
  if (input.state === 'given up' && reason === '') throw refused('Say why the job is given up.');
  const now = session.at();
  const labels = { open: 'Resumed a job', paused: 'Paused a job', 'given up': 'Gave up a job' };
  await session.act(labels[input.state], async trx => {
    if (input.state !== 'open') await stopClocks(trx, jobs, job.steps, now);
    await setJobState(trx, job.id, input.state, {
      reason,
      ...(input.state === 'given up' && { endedAt: now }),
      ...(input.state === 'open' && job.startedAt === null && { startedAt: now }),
    });
    if (input.state !== 'given up') return;
    const { finishState } = await findCar(trx, job.carId);
    const done = job.steps.flatMap(({ step, state }) => (state === 'done' ? [step] : []));
    const left = finishLeft(job.kind, done, finishState);
    await updateCars(trx, [{ id: job.carId, changes: { status: 'kept', finishState: left } }], now);
  });
});

/** Takes back what was noted as used; a part from the shelf goes back there. */
const removeUse = needsCollection.input(inputs.removeUse).handler(async ({ context, input }) => {
  const { session, db } = context;
  const job = findJob(await listJobs(db), input.jobId);
  const use = job.uses.find(
    one => one.id === input.useId && (one.part === null) === (input.is === 'material'),
  );
  if (!use) throw notFound(input.is, input.useId);
  await session.act(`Removed ${use.name} from a job`, trx =>
    removeUseRow(trx, job.id, { id: input.useId, is: input.is }),
  );
});

/** Puts the jobs that are not over into this order. */
const reorder = needsCollection.input(inputs.orderJobs).handler(async ({ context, input }) => {
  const { session, db } = context;
  const jobs = await listJobs(db);
  for (const id of input.ids) findJob(jobs, id);
  await session.act('Reordered the bench', trx => orderJobs(trx, input.ids));
});

/** Writes down notes of a job and who does it. */
const note = needsCollection.input(inputs.noteJob).handler(async ({ context, input }) => {
  const { session, db } = context;
  const job = findJob(await listJobs(db), input.id);
  const { notes, who } = input;
  await session.act('Changed the notes of a job', trx =>
    setJobDetails(trx, job.id, { ...(notes !== undefined && { notes }), ...(who !== undefined && { who }) }),
  );
});

/** Ticks off what was looked at before closing, or takes that back. */
const look = needsCollection.input(inputs.lookAt).handler(async ({ context, input }) => {
  const { session, db } = context;
  const job = (await jobViews(session)).find(({ id }) => id === input.jobId);
  if (!job) throw notFound('job', input.jobId);
  findJob(await listJobs(db), job.id);
  const item = job.lookList.find(({ key }) => key === input.key);
  if (!item) throw refused('That is not on the list of what to look at.');
  const others = job.lookedAt.filter(key => key !== input.key);
  await session.act(`${input.seen ? 'Looked at' : 'To look at again'}: ${item.text}`, trx =>
    setJobDetails(trx, job.id, { lookedAt: input.seen ? [...others, input.key] : others }),
  );
});

/** Notes that the calls of steps that ran by themselves were heard. */
const heard = needsCollection.input(inputs.jobSteps).handler(async ({ context, input }) => {
  const { session, db } = context;
  const [first] = findSteps(await listJobs(db), input.stepIds);
  await session.act(`Dismissed the call of a step: ${first!.step.name}`, trx =>
    setHeard(trx, input.stepIds, session.at()),
  );
});

/**
 * Adds time to a step by hand, such as for a clock that was left running; cars that it was done to at once
 * share it.
 */
const enterTime = needsCollection.input(inputs.enterTime).handler(async ({ context, input }) => {
  const { session, db } = context;
  const found = findSteps(await listJobs(db), together(input));
  const label = `Added ${input.minutes} min to ${found[0]!.step.name}${onCars(found.length)}`;
  await session.act(label, async trx => {
    for (const { step } of found)
      await insertEnteredTime(trx, step.id, session.at(), input.minutes * 60, found.length);
  });
});

/** Adds photographs to the car of a job, at the step where they were taken; one action. */
const addPhotos = needsCollection.input(inputs.addJobPhotos).handler(async ({ context, input, signal }) => {
  const { session, db } = context;
  const job = findJob(await listJobs(db), input.jobId);
  const step = job.steps.find(({ id }) => id === input.stepId);
  if (input.stepId !== null && !step) throw notFound('step', input.stepId);
  const { stored, refused } = await storeFiles(session, input.files, signal);
  const what = stored.length === 1 ? 'a photograph' : `${stored.length} photographs`;
  await session.act(`Added ${what} to a job`, async trx => {
    for (const { photo } of stored) {
      const photoId = await addPhoto(trx, photo, {
        carId: job.carId,
        caption: step?.name ?? '',
        state: input.moment,
        at: session.at(),
      });
      await insertJobPhoto(trx, { jobId: job.id, stepId: input.stepId, photoId, moment: input.moment });
    }
  });
  return { added: stored.length, refused };
});

/** The cars that are kept for their parts. */
const donors = needsCollection.handler(async ({ context }): Promise<DonorView[]> => {
  const cars = await ownedOf(
    context.session,
    (await listCars(context.db)).filter(({ status }) => status === 'donor'),
  );
  return (await carRows(context.session, cars)).map(({ id, inventoryNumber, casting }) => ({
    id,
    inventoryNumber,
    casting,
  }));
});

const calls = needsCollection.handler(({ context }): Promise<CallView[]> => listCalls(context.db));

export const bench = {
  list,
  calls,
  donors,
  add,
  setStep,
  start,
  stop,
  addMaterial,
  addPart,
  removeUse,
  change,
  reorder,
  note,
  look,
  heard,
  enterTime,
  addPhotos,
};
