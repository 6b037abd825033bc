import { listFinishedWork } from '../../../db/records/bench/finished-work.ts';
import { listJobs } from '../../../db/records/bench/jobs.ts';
import { inventoryNumbers } from '../../../db/records/cars/cars.ts';
import { readCarePlans, removeCarePlan } from '../../../db/records/plans/care-plans.ts';
import {
  listTemplates,
  removeTemplate as removeTemplateRow,
  saveTemplate as saveTemplateRow,
} from '../../../db/records/plans/plan-templates.ts';
import { readMadeOf, readPlans, removePlan } from '../../../db/records/plans/plans.ts';
import type { PlanWishes } from '../../../valuation/index.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { optionWords } from '../../../valuation/wording/values/option-words.ts';
import { paintsCar, type WorkKind } from '../../../valuation/words.ts';
import { carPlan } from '../cars/car-plan.ts';
import { findCar } from '../cars/find-car.ts';
import { planToSave } from '../cars/save-plan.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { notFound } from '../session/errors.ts';
import type { CarPlanView, PlanSource } from '../views.ts';
import { asDone } from './as-done.ts';

/** “of”, or “to conserve” where a car has plans of several kinds. */
const kindWords = (kind: WorkKind): string =>
  paintsCar(kind) ? 'of ' : `to ${optionWords(kind, plainLocale).infinitive} `;

const view = needsCollection.input(inputs.carPlan).handler(
  ({ context, input: { carId, kind, wishes } }): Promise<CarPlanView> =>
    carPlan(context.session, {
      carId,
      ...(kind && { kind }),
      ...(wishes && { wishes: wishes as PlanWishes }),
    }),
);

/** Saves a plan as the car's own, with the version of the steps that it is made of. */
const save = needsCollection.input(inputs.saveWorkPlan).handler(async ({ context, input }) => {
  const { session, db } = context;
  const { carId, kind } = input;
  const car = await findCar(db, carId);
  const known = paintsCar(kind)
    ? (await readPlans(db, [carId])).has(carId)
    : (await readCarePlans(db, [carId])).get(carId)?.some(plan => plan.kind === kind);
  const write = await planToSave(session, { ...input, wishes: input.wishes as PlanWishes });
  await session.act(`${known ? 'Changed' : 'Made'} the plan ${kindWords(kind)}${car.inventoryNumber}`, write);
});

/** Goes back to the plan that is made from the car. */
const remove = needsCollection.input(inputs.removeWorkPlan).handler(async ({ context, input }) => {
  const { carId, kind } = input;
  const car = await findCar(context.db, carId);
  await context.session.act(`Removed the plan ${kindWords(kind)}${car.inventoryNumber}`, trx =>
    paintsCar(kind) ? removePlan(trx, carId) : removeCarePlan(trx, carId, kind),
  );
});

/** Templates, and the cars of which the work or the saved plan can be taken over. */
const sources = needsCollection.handler(async ({ context: { db } }): Promise<PlanSource[]> => {
  const templates = await listTemplates(db);
  const jobs = (await listJobs(db)).filter(({ state }) => state === 'finished');
  const works = await listFinishedWork(db);
  const planned = [...(await readPlans(db)).keys()].filter(id => !jobs.some(({ carId }) => carId === id));
  const numbers = await inventoryNumbers(db, [...new Set([...jobs.map(({ carId }) => carId), ...planned])]);
  const care = [...(await readCarePlans(db)).values()].flat();
  const ofCare = await inventoryNumbers(
    db,
    care.map(({ carId }) => carId),
  );
  const plans = await Promise.all(planned.map(async carId => ({ carId, made: await readMadeOf(db, carId) })));
  return [
    ...templates.map(({ id, name, kind, wishes }) => ({ id, carId: null, name, kind, wishes })),
    ...jobs.map(job => ({
      id: null,
      carId: job.carId,
      name: `As ${numbers.get(job.carId) ?? ''} was done`,
      kind: job.kind,
      wishes: asDone(
        job,
        works.get(job.carId)?.find(({ jobId }) => jobId === job.id),
      ),
    })),
    ...plans.flatMap(({ carId, made }) =>
      made
        ? [
            {
              id: null,
              carId,
              name: `As ${numbers.get(carId) ?? ''} is planned`,
              kind: made.kind,
              wishes: made.wishes,
            },
          ]
        : [],
    ),
    ...care.map(({ carId, kind, wishes }) => ({
      id: null,
      carId,
      name: `As it is planned to ${optionWords(kind, plainLocale).infinitive} ${ofCare.get(carId) ?? ''}`,
      kind,
      wishes,
    })),
  ];
});

const saveTemplate = needsCollection.input(inputs.saveTemplate).handler(async ({ context, input }) => {
  const { session } = context;
  await session.act(`Saved the plan template ${input.name}`, trx =>
    saveTemplateRow(trx, { ...input, wishes: input.wishes as PlanWishes }, session.at()),
  );
});

const removeTemplate = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const template = (await listTemplates(context.db)).find(({ id }) => id === input.id);
  if (!template) throw notFound('template', input.id);
  await context.session.act(`Removed the plan template ${template.name}`, trx =>
    removeTemplateRow(trx, input.id),
  );
});

/** Plans of cars, made of steps. */
export const plans = { view, save, remove, sources, saveTemplate, removeTemplate };
