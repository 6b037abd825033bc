import type { Transaction } from 'kysely';
import { readSubjects } from '../../../db/engine/subjects.ts';
import {
  insertEnteredTime,
  insertJobPhoto,
  setHeard,
  setJobDetails,
} from '../../../db/records/bench/job-details.ts';
import { insertUsedPart } from '../../../db/records/bench/job-uses.ts';
import {
  insertJob,
  type Job,
  type JobStep,
  listJobs,
  setJobState,
  setJobStep,
  startTime,
  stopTime,
} from '../../../db/records/bench/jobs.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { readMadeOf } from '../../../db/records/plans/plans.ts';
import type { Schema } from '../../../db/schema.ts';
import { defaultAssumptions, planFromCar } from '../../../valuation/index.ts';
import { countSpan } from '../../../valuation/work/count-span.ts';
import { instant } from '../dates.ts';

const currency = 'USD';
const later = (at: string, minutes: number): string =>
  new Date(Date.parse(at) + minutes * 60_000).toISOString();

/** What was done at a step: the sessions of its clock in minutes, and what is written beside it. */
interface Done {
  sessions: number[];
  note?: string;
}

/** What is told of steps; of any other that is done, one session of the time that was planned. */
const told: Record<string, Done> = {
  'take-apart': { sessions: [11], note: 'The glazing sits behind the interior, which comes out first.' },
  // Half an hour, tea, half an hour.
  strip: { sessions: [30, 30], note: 'Came off in one go, but for the sills.' },
  'pick-clean': { sessions: [26, 18] },
};
/** Two evenings at the bench, each up to the step that ended it. */
const evenings = [
  { on: '2026-10-24', last: 'strip' },
  { on: '2026-10-25', last: 'pick-clean' },
];

/** Work at a step as the clock and the ticks would have it; returns when it ended. */
const doStep = async (
  trx: Transaction<Schema>,
  step: JobStep,
  { sessions, note = '' }: Done,
  begun: string,
): Promise<string> => {
  let at = begun;
  for (const minutes of sessions) {
    const end = later(at, minutes);
    await startTime(trx, step.id, at, 1);
    await stopTime(trx, step.id, end, countSpan(at, end));
    at = later(end, 8);
  }
  const doneAt = later(at, -7);
  const waitsUntil = step.waiting.likely > 0 ? later(doneAt, step.waiting.likely) : null;
  await setJobStep(trx, step.id, { state: 'done', note, spoiled: false, doneAt, waitsUntil });
  // Its call was heard long ago, whatever the clock says when the demo is made.
  if (waitsUntil !== null) await setHeard(trx, [step.id], later(waitsUntil, 3));
  return later(doneAt, 2);
};

/** The car that the owner is at: two evenings' work, its photograph of before, and a part from a donor. */
const workOn = async (trx: Transaction<Schema>, job: Job, donorCarId: number | null): Promise<void> => {
  await setJobState(trx, job.id, 'open', { startedAt: instant(evenings[0]!.on) });
  let next = 0;
  for (const { on, last } of evenings) {
    let at = instant(on);
    const end = job.steps.findIndex(({ step }) => step === last);
    for (; next <= end; next++) {
      const step = job.steps[next]!;
      at = await doStep(trx, step, told[step.step] ?? { sessions: [step.hands.likely] }, at);
    }
  }
  const first = job.steps[0];
  const photo = await trx
    .selectFrom('photo')
    .select('id')
    .where('car_id', '=', job.carId)
    .orderBy('position')
    .executeTakeFirst();
  if (photo && first)
    await insertJobPhoto(trx, { jobId: job.id, stepId: first.id, photoId: photo.id, moment: 'before' });
  if (donorCarId !== null)
    await insertUsedPart(trx, {
      jobId: job.id,
      stepId: job.steps.find(({ step }) => step === 'pull-wheels')?.id ?? null,
      usedOn: evenings[1]!.on,
      name: 'Both pairs of wheels',
      part: 'wheels',
      originality: 'original',
      shelfId: null,
      donorCarId,
      quantity: 1,
      minor: 0,
      currency,
    });
  await setJobDetails(trx, job.id, { who: 'E. Tarrow', notes: 'The old wheels stay in the bag with it.' });
};

/** One that waits for something: looked at, and put aside with the reason. */
const putAside = async (trx: Transaction<Schema>, job: Job): Promise<void> => {
  const at = instant('2026-10-27');
  await setJobState(trx, job.id, 'paused', { startedAt: at, reason: 'Waiting for dry weather' });
  const first = job.steps[0];
  if (!first) return;
  await insertEnteredTime(trx, first.id, later(at, 12), 12 * 60, 1);
  await setJobStep(trx, first.id, {
    state: 'done',
    note: '',
    spoiled: false,
    doneAt: later(at, 12),
    waitsUntil: null,
  });
};

/**
 * Puts the demo's cars of the bench there, each with the steps that its plan would have: the first half done,
 * the second put aside, the others waiting for their turn. To be called when all other rows are written.
 */
export const fillBench = async (trx: Transaction<Schema>): Promise<void> => {
  const cars = await listCars(trx);
  const onBench = cars.filter(({ status }) => status === 'on the bench');
  for (const subject of await readSubjects(trx, onBench)) {
    const wishes = (await readMadeOf(trx, subject.id))?.wishes ?? {};
    const { lines, aim, cost } = planFromCar(subject, defaultAssumptions(currency), 'restore', wishes);
    const plannedCost = { minor: Math.round(cost.likely), currency };
    await insertJob(
      trx,
      { carId: subject.id, kind: 'restore', lines, aim, plannedCost, seasonId: null },
      instant('2026-10-18'),
    );
  }
  const [open, paused] = await listJobs(trx);
  const donor = cars.find(({ status }) => status === 'donor');
  if (open) await workOn(trx, open, donor?.id ?? null);
  if (paused) await putAside(trx, paused);
};
