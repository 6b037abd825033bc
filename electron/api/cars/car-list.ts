import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { inOrder, windowOf } from '../session/list-order.ts';
import type { Session } from '../session/session.ts';
import type { CarRow, CarsFacts, ChosenCars, ListOrder, ListWindow } from '../views.ts';
import { carFacts } from './car-facts.ts';
import { type CarListFilter, keptOutBy, needsFigures } from './car-filter.ts';
import { carSortValues, ordersByFigures } from './car-order.ts';
import { carRows } from './car-rows.ts';
import { listedCars } from './listed-cars.ts';

/** The cars that are shown, in brief and in their order. */
export const shownCars = async (
  session: Session,
  { filter, order, wall }: { filter: CarListFilter; order: ListOrder; wall: boolean },
  figures: true | 'may be of before' = true,
): Promise<readonly BriefCar[]> => {
  const list = await listedCars(session, {
    figures: needsFigures(filter) || ordersByFigures.includes(order.sort?.columnId ?? '') ? figures : false,
    texts: filter.text.trim() !== '',
  });
  const sortsBy = carSortValues(list, order.locale);
  const outBy = keptOutBy(list, filter);
  const all = { name: 'cars', at: list.at, isOfBefore: list.workingOut !== null, items: list.cars, sortsBy };
  const byNumber = { ...order, sort: { columnId: 'number', descending: false } };
  return inOrder(
    session,
    {
      ...all,
      ...(wall && {
        name: 'wall',
        items: await inOrder(session, { ...all, filter: '', passes: () => true }, byNumber),
      }),
      filter: JSON.stringify(filter),
      passes: car => outBy(car) === null,
    },
    order,
  );
};

const window = needsCollection
  .input(inputs.carWindow)
  .handler(async ({ context, input }): Promise<ListWindow<CarRow>> => {
    const { session, db } = context;
    return windowOf(
      await shownCars(session, input, 'may be of before'),
      input,
      async ids => carRows(session, await listCars(db, { ids })),
      ({ id }) => id,
    );
  });

/** What is chosen of the list, for a change of all of it at once. */
const chosen = needsCollection
  .input(inputs.chooseCars)
  .handler(async ({ context, input }): Promise<ChosenCars> => {
    const shown = await shownCars(context.session, input, 'may be of before');
    const { of } = input;
    const ids = 'ids' in of ? new Set(of.ids) : null;
    const cars =
      'ids' in of ? shown.filter(({ id }) => ids?.has(id)) : shown.slice(of.from, of.from + of.count);
    const here = cars.filter(({ isSold }) => !isSold);
    const only = here.length === 1 ? here[0] : cars.length === 1 ? cars[0] : undefined;
    return {
      ids: cars.map(({ id }) => id),
      sold: cars.filter(({ isSold }) => isSold).map(({ id }) => id),
      only: only?.inventoryNumber ?? null,
    };
  });

/** What the list comes to, and how many cars each choice of its filter would show. */
const facts = needsCollection
  .input(inputs.carListFilter)
  .handler(
    async ({ context, input }): Promise<CarsFacts> =>
      carFacts(
        await listedCars(context.session, { figures: 'may be of before', texts: input.text.trim() !== '' }),
        input,
      ),
  );

export const carList = { window, chosen, facts };
