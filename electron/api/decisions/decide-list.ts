import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { advisesAnything } from '../../../valuation/words.ts';
import { adviceOf } from '../cars/listed-cars.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { inOrder, placeIn, windowOf } from '../session/list-order.ts';
import type { Session } from '../session/session.ts';
import type {
  ChosenDecisions,
  DecideFacts,
  DecidePoints,
  DecisionSummary,
  LeftOutCars,
  ListOrder,
  ListWindow,
} from '../views.ts';
import { decideCars, weighedByIds } from './decide-cars.ts';
import { decideFacts } from './decide-facts.ts';
import { type DecideFilter, passes } from './decide-filter.ts';
import { decideSortValues } from './decide-order.ts';
import { decidePoints } from './decide-points.ts';
import { leftOutOf } from './left-out.ts';

/** The cars that are shown, in brief and in their order. */
export const carsToDecide = async (
  session: Session,
  { filter, order }: { filter: DecideFilter; order: ListOrder },
  figures: true | 'may be of before' = true,
): Promise<readonly BriefCar[]> => {
  const list = await decideCars(session, figures);
  return inOrder(
    session,
    {
      name: 'decide',
      at: list.at,
      isOfBefore: list.workingOut !== null,
      items: list.cars,
      sortsBy: decideSortValues(list, order.locale),
      filter: JSON.stringify(filter),
      passes: passes(list, filter),
    },
    order,
  );
};

const window = needsCollection.input(inputs.decideWindow).handler(
  async ({ context: { session }, input }): Promise<ListWindow<DecisionSummary>> =>
    windowOf(
      await carsToDecide(session, input, 'may be of before'),
      input,
      ids => weighedByIds(session, ids),
      ({ car }) => car.id,
    ),
);

const place = needsCollection
  .input(inputs.decidePlace)
  .handler(
    async ({ context, input }): Promise<number | null> =>
      placeIn(await carsToDecide(context.session, input, 'may be of before'), input.id),
  );

/** What a range of the list holds. */
const chosen = needsCollection
  .input(inputs.decideRange)
  .handler(async ({ context, input }): Promise<ChosenDecisions> => {
    const list = await decideCars(context.session, 'may be of before');
    const shown = await carsToDecide(context.session, input, 'may be of before');
    const cars = shown.slice(input.from, input.from + input.count);
    return { cars: cars.length, advised: cars.filter(car => advisesAnything(adviceOf(list, car))).length };
  });

/** Cars with their decisions in short, in the order in which they are asked for. */
const weighed = needsCollection
  .input(inputs.weighedCars)
  .handler(({ context, input }): Promise<DecisionSummary[]> => weighedByIds(context.session, input.ids));

/** What the cars come to, and how many each recommendation would show. */
const facts = needsCollection.input(inputs.decideFilter).handler(
  async ({ context: { session, db }, input }): Promise<DecideFacts> =>
    decideFacts(await decideCars(session, 'may be of before'), input, {
      decision: (await assumptionsInForce(session)).body.decision,
      currency: await readReportingCurrency(db),
    }),
);

/** The points of the chart: every car that is shown, or so many that stand for all. */
const points = needsCollection
  .input(inputs.decidePoints)
  .handler(async ({ context: { session, db }, input }): Promise<DecidePoints> => {
    const list = await decideCars(session, 'may be of before');
    const cars = list.cars.filter(passes(list, input.filter));
    return decidePoints(list, cars, new Set(input.also), await readReportingCurrency(db));
  });

/** So many of the cars that a season leaves out are told. */
const mostLeftOut = 30;

/** The cars that would gain and are not in a season, those that would gain most first. */
const leftOut = needsCollection
  .input(inputs.leftOut)
  .handler(async ({ context: { session }, input }): Promise<LeftOutCars> => {
    const list = await decideCars(session, 'may be of before');
    const all = leftOutOf(list, list.cars.filter(passes(list, input.filter)), input);
    const most = all.slice(0, mostLeftOut);
    const cars = await weighedByIds(
      session,
      most.map(({ id }) => id),
    );
    const byId = new Map(cars.map(one => [one.car.id, one]));
    return {
      cars: all.length,
      most: most.flatMap(({ id, offer, why }) => {
        const car = byId.get(id);
        return car ? [{ weighed: car, offer, why }] : [];
      }),
    };
  });

export const decideList = { window, place, chosen, weighed, facts, points, leftOut };
