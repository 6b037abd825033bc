import { inventoryNumbers } from '../../../db/records/cars.ts';
import { listFinishedWork } from '../../../db/records/finished-work.ts';
import { listJobs } from '../../../db/records/jobs.ts';
import {
  listTemplates,
  removeTemplate as removeTemplateRow,
  saveTemplate as saveTemplateRow,
} from '../../../db/records/plan-templates.ts';
import { readMadeOf, readPlans, savePlan } from '../../../db/records/plans.ts';
import { type PlanWishes, restorationPlanOf } from '../../../valuation/index.ts';
import { carPlan } from '../cars/car-plan.ts';
import { findCar } from '../cars/find-car.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { notFound } from '../session/errors.ts';
import type { CarPlanView, PlanSource } from '../views.ts';
import { asDone } from './as-done.ts';

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
  const { carId, kind, notes } = input;
  const car = await findCar(db, carId);
  const known = (await readPlans(db, [carId])).has(carId);
  const { plan, wishes, libraryVersion } = await carPlan(session, {
    carId,
    kind,
    wishes: input.wishes as PlanWishes,
  });
  await session.act(`${known ? 'Changed' : 'Made'} the plan of ${car.inventoryNumber}`, trx =>
    savePlan(trx, {
      ...restorationPlanOf(plan),
      lines: restorationPlanOf(plan).lines.map(line => ({
        ...line,
        cost: {
          low: Math.round(line.cost.low),
          likely: Math.round(line.cost.likely),
          high: Math.round(line.cost.high),
        },
      })),
      carId,
      notes,
      made: { wishes, libraryVersion, lines: plan.lines },
    }),
  );
});

/** Templates, and the cars of which the work or the saved plan can be taken over. */
const sources = needsCollection.handler(async ({ context: { db } }): Promise<PlanSource[]> => {
  const templates = await listTemplates(db);
  const jobs = (await listJobs(db)).filter(({ state }) => state === 'finished');
  const works = await listFinishedWork(db);
  const planned = [...(await readPlans(db)).keys()].filter(id => !jobs.some(({ carId }) => carId === id));
  const numbers = await inventoryNumbers(db, [...new Set([...jobs.map(({ carId }) => carId), ...planned])]);
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
export const plans = { view, save, sources, saveTemplate, removeTemplate };
