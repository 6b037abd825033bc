import { expect, it } from 'vitest';
import { readPurchases } from '../../../../db/engine/purchases.ts';
import { listCars } from '../../../../db/records/cars/cars.ts';
import { carRows } from '../../../../electron/api/cars/car-rows.ts';
import { homeView } from '../../../../electron/api/collection/home.ts';
import { decideCars, weighedByIds } from '../../../../electron/api/decisions/decide-cars.ts';
import { decideFacts } from '../../../../electron/api/decisions/decide-facts.ts';
import { decidePoints } from '../../../../electron/api/decisions/decide-points.ts';
import { marketToday, rawMarket } from '../../../../electron/api/figures/market.ts';
import { lotRows } from '../../../../electron/api/lots/lot-rows.ts';
import { createCache } from '../../../../electron/api/session/cache.ts';
import type { Session } from '../../../../electron/api/session/session.ts';
import { everything as anyCar } from '../../../../renderer/screens/decide/filter/filter.ts';
import { type Api, addReference, newCollectionService } from '../../../helpers/api.ts';

const everything = async (session: Session) => {
  const { db } = session.collection!.read;
  const toDecide = await decideCars(session);
  return {
    home: await homeView(session),
    cars: await carRows(session, await listCars(db)),
    decide: await weighedByIds(
      session,
      toDecide.cars.map(({ id }) => id),
    ),
    decideFacts: decideFacts(toDecide, anyCar, {
      decision: (await marketToday(session)).assumptions.decision,
      currency: 'USD',
    }),
    points: decidePoints(toDecide, toDecide.cars, new Set(), 'USD'),
    lots: await lotRows(session),
    market: await rawMarket(session),
  };
};

/** What the session answers, having heard of each action, and what one answers that knows of nothing yet. */
const compare = async (session: Session, what: string) => {
  const held = await everything(session);
  const fresh = await everything({ ...session, collection: session.collection, cache: createCache() });
  expect(held, what).toEqual(fresh);
  expect(held.market.purchases, what).toEqual(await readPurchases(session.collection!.read.db));
};

const collectionOf = async (api: Api) => {
  const { variations, dovetail, oxbow } = await addReference(api);
  const lot = async (name: string, boughtOn: string, price: number) =>
    (await api.lots.create({ name, boughtOn, currency: 'USD', costs: [{ kind: 'price', minor: price }] })).id;
  const lots = [await lot('Attic', '2025-02-03', 20_000), await lot('Fair', '2025-09-12', 9_000)];
  const kinds = Object.values(variations);
  const ids: number[] = [];
  for (const [place, lotId] of lots.entries())
    ids.push(
      ...(
        await api.cars.create({
          lotId,
          cars: kinds.map((variationId, i) => ({ variationId, grade: 3 + place + i / 2 })),
        })
      ).ids,
    );
  ids.push(
    ...(
      await api.cars.create({
        lotId: null,
        cars: [
          { castingId: dovetail, grade: 6 },
          { asWritten: { casting: 'Marlow', colour: 'ember' }, grade: 5 },
          { castingId: oxbow, asWritten: { colour: 'Ember' } },
        ],
      })
    ).ids,
  );
  return { variations, dovetail, lots, ids };
};

it('answers after every action, undone and done again, as if it had remembered nothing', async () => {
  const { session, api } = await newCollectionService();
  const { variations, dovetail, lots, ids } = await collectionOf(api);
  const id = (place: number) => ids[place]!;
  const actions: Record<string, () => Promise<unknown>> = {
    'a grade': () => api.cars.update({ changes: [{ id: id(0), patch: { grade: 9 } }] }),
    'another lot': () => api.cars.update({ changes: [{ id: id(1), patch: { lotId: lots[1]! } }] }),
    'a finish': () => api.cars.update({ changes: [{ id: id(2), patch: { finishState: 'restored' } }] }),
    'a check': () =>
      api.cars.saveCheck({
        carId: id(3),
        checkedOn: '2025-02-04',
        grade: 4,
        parts: [{ part: 'glazing', grade: null, originality: 'missing' }],
      }),
    'a plan': () =>
      api.decisions.savePlan({ carId: id(4), targetGrade: 9, hours: { low: 1, likely: 2, high: 3 } }),
    'a variation': () =>
      api.cars.update({ changes: [{ id: id(12), patch: { variationId: variations.plumGt } }] }),
    'cars gone': () => api.cars.remove({ ids: [id(5), id(13)] }),
    'a car more': () => api.cars.create({ lotId: lots[0]!, cars: [{ variationId: variations.mossBar }] }),
    'an own value': () =>
      api.cars.update({
        changes: [{ id: id(6), patch: { ownWorth: { low: 900, mid: 1000, high: 1200 } } }],
      }),
    'a sale record': () =>
      api.sales.create({
        soldOn: '2026-01-05',
        price: 9000,
        currency: 'USD',
        castingId: dovetail,
        variationId: variations.emberTwin,
        grade: 8,
        source: 'auction',
      }),
    'a lot gone': () => api.lots.remove({ id: lots[1]! }),
    'a colour': () => api.reference.saveColour({ name: 'Ember', swatch: '#aa3322' }),
  };
  await compare(session, 'at first');
  for (const [what, act] of Object.entries(actions)) {
    await act();
    await compare(session, what);
    await api.collection.undo();
    await compare(session, `${what}, undone`);
    await api.collection.redo();
  }
  await compare(session, 'done again');
  for (let i = 0; i < 4; i++) await api.collection.undo();
  await compare(session, 'several undone');
});
