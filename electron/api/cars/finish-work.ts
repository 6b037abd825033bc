import { insertFinishedWork } from '../../../db/records/bench/finished-work.ts';
import { type Job, listJobs, setJobState } from '../../../db/records/bench/jobs.ts';
import { updateCars } from '../../../db/records/cars/cars-write.ts';
import { carChecks, saveCheck } from '../../../db/records/cars/condition-checks.ts';
import { insertExpense } from '../../../db/records/cars/disposals.ts';
import { removePlan } from '../../../db/records/plans/plans.ts';
import { paintsCar } from '../../../valuation/words.ts';
import { countSpan } from '../../../valuation/work/count-span.ts';
import {
  finishedDepartures,
  finishedFidelity,
  sameColour,
} from '../../../valuation/work/finished-departures.ts';
import { wasOpened } from '../../../valuation/work/was-opened.ts';
import { refuseSeen } from '../figures/owned.ts';
import * as inputs from '../inputs.ts';
import { followOwnSales } from '../reference/own-sales.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import { findCar } from './find-car.ts';
import { stopClocks } from './stop-clocks.ts';

/** The minutes that were counted on a job, with those of clocks that still run; null where none were. */
const minutesOf = (job: Job | undefined, now: string): number | null => {
  let seconds = 0;
  for (const step of job?.steps ?? [])
    seconds +=
      step.seconds +
      (step.runningSince === null ? 0 : Math.round((countSpan(step.runningSince, now) ?? 0) / step.sharedBy));
  return seconds > 0 ? Math.round(seconds / 60) : null;
};

/**
 * Records finished work as one action: the check by part, the record with every departure that follows from
 * it, the finish state and what the car wears now, its grade, its costs and what was used on its job as
 * expenses; the job ends and a plan that was carried out goes. One undo brings all back.
 */
export const finishWork = needsCollection
  .input(inputs.finishWork)
  .handler(async ({ context, input }): Promise<{ workId: number }> => {
    const { session, db } = context;
    const car = await findCar(db, input.carId);
    if (car.status === 'sold') throw refused(`${car.inventoryNumber} has been sold. Undo that sale first.`);
    await refuseSeen(session, car);
    const paints = input.kind === 'restore' || input.kind === 'customise';
    if (paints && input.finishState === 'original')
      throw refused('A car that was painted no longer has its original finish: say what it has now.');
    const index = await referenceIndex(session);
    const made =
      (car.variationId === null ? undefined : index.variations.get(car.variationId)?.features.colour) ?? '';
    const newest = (await carChecks(db, car.id)).every(check => check.checkedOn <= input.finishedOn);
    const jobs = input.jobId === null ? [] : await listJobs(db);
    const job = jobs.find(one => one.id === input.jobId);
    if (input.jobId !== null && !job) throw notFound('job', input.jobId);
    if (job && job.carId !== car.id) throw refused('That job is about another car.');
    if (job && (job.state === 'finished' || job.state === 'given up')) throw refused('That job is over.');
    const done = job?.steps.flatMap(({ step, state }) => (state === 'done' ? [step] : [])) ?? [];
    const departures = finishedDepartures({ ...input, opened: wasOpened(done) }, made);
    const wearsAnother = input.colour !== '' && !sameColour(input.colour, made);
    return session.act(`Finished the work on ${car.inventoryNumber}`, async trx => {
      const checkId = await saveCheck(trx, car.id, {
        id: null,
        checkedOn: input.finishedOn,
        grade: input.grade,
        notes: '',
        parts: input.parts,
      });
      const workId = await insertFinishedWork(trx, {
        carId: car.id,
        jobId: input.jobId,
        checkId,
        finishedOn: input.finishedOn,
        kind: input.kind,
        finishState: input.finishState,
        finishBefore: car.finishState,
        gradeBefore: car.grade,
        colour: input.colour,
        bodyFinish: input.bodyFinish,
        basePaint: input.basePaint,
        roof: input.roof,
        closure: input.closure,
        bearings: input.bearings,
        axles: input.axles,
        fidelity: finishedFidelity(input, departures),
        departures,
        leftAsWas: input.leftAsWas,
        minutes: input.minutes ?? minutesOf(job, session.at()),
        materials: input.materials,
        parts: input.partsUsed,
        who: input.who,
        mark: input.mark,
        notes: input.notes,
      });
      if (job) {
        await stopClocks(trx, jobs, job.steps, session.at());
        await setJobState(trx, job.id, 'finished', { endedAt: session.at() });
        for (const { name, usedOn, minor, currency } of job.uses)
          if (minor > 0)
            await insertExpense(trx, { carId: car.id, spentOn: usedOn, what: name, minor, currency });
      }
      for (const cost of input.costs)
        await insertExpense(trx, { carId: car.id, spentOn: input.finishedOn, ...cost });
      await updateCars(
        trx,
        [
          {
            id: car.id,
            changes: {
              ...(newest && {
                finishState: input.finishState,
                ...(input.grade !== null && { grade: input.grade }),
                ...(input.colour !== '' && { wornColour: wearsAnother ? input.colour : '' }),
                // New paint takes the place of the old, also where nobody says what it is.
                ...((input.bodyFinish !== '' || (paintsCar(input.kind) && input.colour !== '')) && {
                  wornFinish: input.bodyFinish,
                }),
                ...(input.mark !== '' && { restorerMark: input.mark }),
              }),
              ...(car.status === 'on the bench' && { status: 'kept' as const }),
            },
          },
        ],
        session.at(),
      );
      if (paints) await removePlan(trx, car.id);
      await followOwnSales(trx, [car.id]);
      return { workId };
    });
  });
