import { removeDecision } from '../../../db/records/decisions/decisions.ts';
import {
  readPlans,
  removePlan as removePlanRow,
  savePlan as savePlanRows,
} from '../../../db/records/plans/plans.ts';
import type { Range } from '../../../valuation/index.ts';
import { labelLocale } from '../../../valuation/wording/action-label.ts';
import { optionWords } from '../../../valuation/wording/values/option-words.ts';
import { findCar } from '../cars/find-car.ts';
import { rangeOf } from '../figures/season-range.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import type { DecideRow, SeasonChoice } from '../views.ts';
import { chooseSeasonFrom } from './choose-season.ts';
import { decideCars } from './decide-cars.ts';
import { passes } from './decide-filter.ts';
import { decideList } from './decide-list.ts';
import { decideRows } from './decision-rows.ts';
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
    const { session } = context;
    const list = await decideCars(session);
    const { filter } = input;
    const asked = new Set([...input.carIds, ...input.must, ...input.by.map(({ carId }) => carId)]);
    const isShown = filter ? passes(list, filter) : () => false;
    const among = list.cars.filter(car => asked.has(car.id) || isShown(car));
    return chooseSeasonFrom(session, { cars: among, isOnBench: list.isOnBench }, input, signal);
  });

/**
 * What the work on these cars is expected to gain in all, with the range of that; null where none is known.
 */
const range = needsCollection
  .input(inputs.seasonRange)
  .handler(({ context, input }): Promise<Range | null> => rangeOf(context.session, input.cars));

export const decisions = {
  list,
  ...decideList,
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
