import { listCars } from '../../../db/records/cars.ts';
import { removeDecision } from '../../../db/records/decisions.ts';
import {
  readPlans,
  removePlan as removePlanRow,
  savePlan as savePlanRows,
} from '../../../db/records/plans.ts';
import type { Range } from '../../../valuation/index.ts';
import { labelLocale } from '../../../valuation/wording/action-label.ts';
import { optionWords } from '../../../valuation/wording/option-words.ts';
import { findCar } from '../cars/find-car.ts';
import { rangeOf } from '../figures/season-range.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import type { DecideOverview, DecideRow, SeasonChoice } from '../views.ts';
import { chooseSeasonFrom } from './choose-season.ts';
import { decideOverview, decideRows } from './decision-rows.ts';
import { lookUp } from './look-up.ts';
import { recordDecisions } from './record-decisions.ts';
import { setValueOfAnHour, valueOfAnHour } from './value-of-an-hour.ts';

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

const overview = needsCollection.handler(
  ({ context }): Promise<DecideOverview> => decideOverview(context.session),
);

/** Keeps what the owner decided, beside what was recommended then. Overruling a guard needs a reason. */
const record = needsCollection.input(inputs.recordDecision).handler(async ({ context, input }) => {
  const car = await findCar(context.db, input.carId);
  const { infinitive } = optionWords(input.choice, labelLocale);
  await recordDecisions(context.session, [input], `Decided to ${infinitive} ${car.inventoryNumber}`);
});

/** The same for many cars, as one action. */
const recordAll = needsCollection.input(inputs.recordDecisions).handler(async ({ context, input }) => {
  const { decisions: all } = input;
  await recordDecisions(context.session, all, `Decided ${all.length} ${all.length === 1 ? 'car' : 'cars'}`);
});

const clear = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const car = await findCar(context.db, input.id);
  await context.session.act(`Took back the decision on ${car.inventoryNumber}`, trx =>
    removeDecision(trx, car.id),
  );
});

/**
 * What to do this season, of all that can be done with each of the cars: what gains most within what there
 * is, a range for the whole, and what would come next.
 */
const season = needsCollection
  .input(inputs.chooseSeason)
  .handler(async ({ context, input, signal }): Promise<SeasonChoice> => {
    const cars = await listCars(context.db, { ids: [...input.carIds, ...input.must] });
    return chooseSeasonFrom(context.session, cars, input, signal);
  });

/**
 * What the work on these cars is expected to gain in all, with the range of that; null where none is known.
 */
const range = needsCollection
  .input(inputs.seasonRange)
  .handler(({ context, input }): Promise<Range | null> => rangeOf(context.session, input.cars));

export const decisions = {
  list,
  overview,
  lookUp,
  savePlan,
  removePlan,
  record,
  recordAll,
  clear,
  season,
  range,
  valueOfAnHour,
  setValueOfAnHour,
};
