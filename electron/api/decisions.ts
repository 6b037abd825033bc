import { listCars } from '../../db/cars.ts';
import { removeDecision, saveDecision } from '../../db/decisions.ts';
import { readPlans, removePlan as removePlanRow, savePlan as savePlanRows } from '../../db/plans.ts';
import { readSubjects } from '../../db/subjects.ts';
import { decideCar, type Subject } from '../../valuation/index.ts';
import { findCar } from './car-events.ts';
import { chooseFrom } from './choose.ts';
import { needsCollection } from './context.ts';
import { decideRows } from './decision-rows.ts';
import { refused } from './errors.ts';
import * as inputs from './inputs.ts';
import { marketToday } from './market.ts';
import type { DecideRow, Portfolio } from './views.ts';

const list = needsCollection
  .input(inputs.listDecisions)
  .handler(({ context, input, signal }): Promise<DecideRow[]> => decideRows(context.session, input, signal));

const savePlan = needsCollection.input(inputs.savePlan).handler(async ({ context, input }) => {
  const car = await findCar(context.db, input.carId);
  const known = (await readPlans(context.db, [car.id])).has(car.id);
  await context.session.act(`${known ? 'Changed' : 'Made'} the plan of ${car.inventoryNumber}`, trx =>
    savePlanRows(trx, input),
  );
});

const removePlan = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const car = await findCar(context.db, input.id);
  await context.session.act(`Removed the plan of ${car.inventoryNumber}`, trx => removePlanRow(trx, car.id));
});

/** Keeps what the owner decided, beside what was recommended then. Overruling a guard needs a reason. */
const record = needsCollection.input(inputs.recordDecision).handler(async ({ context, input }) => {
  const { session, db } = context;
  const car = await findCar(db, input.carId);
  if (input.overruled.length > 0 && input.reason.trim() === '')
    throw refused('Overruling a caution needs a reason; it stays with the decision.', 'reason');
  const [subject] = (await readSubjects(db, [car], false)) as [Subject];
  const decision = decideCar(await marketToday(session), subject);
  const today = await session.today();
  await session.act(`Decided to ${verbs[input.choice]} ${car.inventoryNumber}`, trx =>
    saveDecision(trx, { ...input, decidedOn: today, recommended: decision.recommendation }),
  );
});

const verbs = {
  leave: 'leave',
  conserve: 'conserve',
  restore: 'restore',
  customise: 'customise',
  donor: 'use for parts',
} as const;

const clear = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const car = await findCar(context.db, input.id);
  await context.session.act(`Took back the decision on ${car.inventoryNumber}`, trx =>
    removeDecision(trx, car.id),
  );
});

const choose = needsCollection
  .input(inputs.chooseCars)
  .handler(async ({ context, input, signal }): Promise<Portfolio> => {
    const cars = await listCars(context.db, { ids: [...input.carIds, ...input.must] });
    return chooseFrom(context.session, cars, input, signal);
  });

export const decisions = { list, savePlan, removePlan, record, clear, choose };
