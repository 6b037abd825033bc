import { listFinishedWork } from '../../../db/records/bench/finished-work.ts';
import { type Job, listJobs } from '../../../db/records/bench/jobs.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { carChecks } from '../../../db/records/cars/condition-checks.ts';
import { readReportingCurrency, readSetting, writeSetting } from '../../../db/records/collection/settings.ts';
import { addSteps, listSteps } from '../../../db/records/plans/step-library.ts';
import { addAssumptions } from '../../../db/records/worth/assumptions.ts';
import {
  type AssumptionSet,
  type DoneStep,
  type FinishState,
  type Grade,
  type Learned,
  type LearnedStep,
  learnSteps,
  learnWorkmanship,
  type WorkStep,
  withLearned,
} from '../../../valuation/index.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import { stepsInForce, stepsOfVersion } from '../figures/steps.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { LearnedView } from '../views.ts';
import { doneByStep, doneJobs } from './done-beside-planned.ts';

type Workmanship = AssumptionSet['work']['workmanship'];

/** The note of a version that was learned: what is learned next begins at the version before. */
const learnedNote = 'Learned from your own jobs';
/** What the spread of the grades was before it was learned, and what it was learned to be. */
const setting = 'learned-workmanship';

/**
 * The steps from which is learned: the newest version that its owner wrote, else the starting steps; so that
 * no job counts twice.
 */
const baseSteps = async (session: Session): Promise<readonly WorkStep[]> => {
  const { db } = openOf(session).read;
  const written = (await listSteps(db)).find(({ note }) => note !== learnedNote);
  return (await stepsOfVersion(db, written?.version ?? 0)) ?? (await stepsInForce(session)).steps;
};

const baseWorkmanship = async (session: Session, now: Workmanship): Promise<Workmanship> => {
  const text = await readSetting(openOf(session).read.db, setting);
  if (text === undefined) return now;
  const { before, after } = JSON.parse(text) as { before: Workmanship; after: Workmanship };
  return JSON.stringify(after) === JSON.stringify(now) ? before : now;
};

/**
 * The steps that were done, with what was counted; a step with time that cannot be counted tells nothing of
 * time.
 */
const doneSteps = (jobs: readonly Job[], currency: string): DoneStep[] =>
  jobs.flatMap(({ steps, uses }) =>
    steps
      .filter(({ state }) => state === 'done')
      .map(step => {
        const used = uses.filter(
          use => use.stepId === step.id && use.part === null && use.currency === currency,
        );
        return {
          id: step.step,
          minutes: step.seconds > 0 && step.uncounted === 0 ? step.seconds / 60 : null,
          cost: used.length > 0 ? used.reduce((sum, { minor }) => sum + minor, 0) : null,
          spoiled: step.spoiled,
        };
      }),
  );

const learn = async (session: Session) => {
  const { db } = openOf(session).read;
  const jobs = (await listJobs(db)).filter(({ state }) => state === 'finished');
  const currency = await readReportingCurrency(db);
  const steps = learnSteps(await baseSteps(session), doneSteps(jobs, currency));
  const works = await listFinishedWork(
    db,
    jobs.map(({ carId }) => carId),
  );
  const ended: { aim: number; reached: number }[] = [];
  const reachedBy = new Map<number, { reached: Grade | null; finishState: FinishState }>();
  for (const { id, carId, aim, kind } of jobs) {
    const work = works.get(carId)?.find(({ jobId }) => jobId === id);
    if (!work) continue;
    const reached = (await carChecks(db, carId)).find(check => check.id === work.checkId)?.grade ?? null;
    reachedBy.set(id, { reached, finishState: work.finishState });
    if (reached !== null && aim !== null && (kind === 'restore' || kind === 'customise'))
      ended.push({ aim, reached });
  }
  const { body } = await assumptionsInForce(session);
  const workmanship = learnWorkmanship(await baseWorkmanship(session, body.work.workmanship), ended);
  return { jobs, steps, workmanship: workmanship ?? null, body, reachedBy, currency };
};

/** Steps of which what was learned is not in force yet. */
const newOnes = (learned: readonly LearnedStep[], inForce: readonly WorkStep[]): LearnedStep[] => {
  const after = new Map(withLearned(inForce, learned).map(step => [step.id, step]));
  const figures = ({ hands, spoilChance }: WorkStep) => JSON.stringify([hands, spoilChance]);
  return learned.filter(({ id, cost }) => {
    const step = inForce.find(one => one.id === id);
    if (!step) return false;
    const spent = step.materials.reduce((sum, one) => sum + one.cost.likely, 0);
    return (
      figures(after.get(id)!) !== figures(step) ||
      (cost !== undefined && Math.abs(cost.after.likely - spent) > 1)
    );
  });
};

/** What the owner's own jobs say of the steps and of the grade that work ends in, beside what is in force. */
export const learned = needsCollection.handler(async ({ context: { session } }): Promise<LearnedView> => {
  const { jobs, steps, workmanship, body, reachedBy, currency } = await learn(session);
  const { db } = openOf(session).read;
  const cars = new Map(
    (jobs.length === 0 ? [] : await listCars(db, { ids: [...new Set(jobs.map(({ carId }) => carId))] })).map(
      car => [car.id, car],
    ),
  );
  const endOf = ({ id, carId }: Job) => {
    const car = cars.get(carId);
    const { reached = null, finishState = car?.finishState ?? 'original' } = reachedBy.get(id) ?? {};
    return { inventoryNumber: car?.inventoryNumber ?? '', finishState, reached };
  };
  const { steps: inForce } = await stepsInForce(session);
  const isNew = (found: Learned<Workmanship>) =>
    JSON.stringify(found.after) !== JSON.stringify(body.work.workmanship);
  return {
    jobs: jobs.length,
    planned:
      jobs.reduce((sum, job) => sum + job.steps.reduce((all, { hands }) => all + hands.likely, 0), 0) / 60,
    taken:
      jobs.reduce((sum, job) => sum + job.steps.reduce((all, { seconds }) => all + seconds, 0), 0) / 3600,
    byJob: doneJobs(jobs, endOf, currency),
    byStep: doneByStep(jobs, inForce, currency),
    steps: newOnes(steps, inForce),
    workmanship: workmanship && isNew(workmanship) ? workmanship : null,
  };
});

/** Takes over what was learned of the given steps, and of the grades, as new versions; one action. */
export const acceptLearned = needsCollection
  .input(inputs.acceptLearned)
  .handler(async ({ context: { session }, input }) => {
    const { steps, workmanship, body } = await learn(session);
    const wanted = steps.filter(({ id }) => input.stepIds.includes(id));
    if (wanted.length < input.stepIds.length) throw refused('Your jobs say nothing of one of these steps.');
    if (wanted.length === 0 && !input.workmanship) throw refused('Choose at least one figure to use.');
    const { steps: inForce } = await stepsInForce(session);
    // From the base, so that a job counts once however often it is taken over.
    const base = new Map(withLearned(await baseSteps(session), wanted).map(step => [step.id, step]));
    const next = inForce.map(step =>
      wanted.some(({ id }) => id === step.id) ? (base.get(step.id) ?? step) : step,
    );
    const at = session.at();
    await session.act('Used what your own jobs say', async trx => {
      if (wanted.length > 0) await addSteps(trx, next, learnedNote, at);
      if (!input.workmanship || !workmanship) return;
      const { steps: _, ...work } = body.work;
      const changed = { ...body, work: { ...work, workmanship: workmanship.after } };
      await addAssumptions(trx, changed, learnedNote, at);
      await writeSetting(
        trx,
        setting,
        JSON.stringify({ before: workmanship.before, after: workmanship.after }),
      );
    });
  });
