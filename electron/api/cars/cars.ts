import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import {
  insertCars,
  nextInventoryNumbers,
  removeCars,
  replaceCandidates,
  updateCars,
} from '../../../db/records/cars/cars-write.ts';
import { listDisposals } from '../../../db/records/cars/disposals.ts';
import { findLot } from '../../../db/records/lots/lots.ts';
import { loadMatcher } from '../../../db/reference/match.ts';
import { marketToday } from '../figures/market.ts';
import { refuseSeen } from '../figures/owned.ts';
import { reshareLot } from '../figures/shares.ts';
import * as inputs from '../inputs.ts';
import { followOwnSales } from '../reference/own-sales.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { CarPage, CarRow } from '../views.ts';
import { carEvents } from './car-events.ts';
import { carList } from './car-list.ts';
import { carPage } from './car-page.ts';
import { editLabel, readPatch } from './car-patches.ts';
import { carRows } from './car-rows.ts';
import { finishWork } from './finish-work.ts';
import { recordEvent } from './record-event.ts';
import { soldCars } from './sold-cars.ts';

const list = needsCollection.input(inputs.listCars).handler(async ({ context, input }): Promise<CarRow[]> => {
  const { session, db } = context;
  const narrowed =
    input.lotId !== undefined || input.castingId !== undefined || input.variationId !== undefined;
  const cars = await listCars(db, { ...input, includeSold: narrowed ? input.includeSold : true });
  const rows = await carRows(session, cars);
  return input.includeSold ? rows : rows.filter(row => row.status !== 'sold');
});

const get = needsCollection
  .input(inputs.byId)
  .handler(({ context, input }): Promise<CarPage> => carPage(context.session, input.id));

/** A car about to be added, before its first patch. */
const blank = (lotId: number | null): CarRecord => ({
  id: 0,
  inventoryNumber: '',
  lotId,
  castingId: null,
  releaseId: null,
  variationId: null,
  asWritten: {},
  grade: null,
  finishState: 'original',
  status: 'kept',
  location: '',
  notes: '',
  wornColour: '',
  wornFinish: '',
  restorerMark: '',
  cost: null,
  costFixed: false,
  ownWorth: null,
  boughtOn: null,
  seller: '',
  unread: [],
});

const create = needsCollection
  .input(inputs.createCars)
  .handler(async ({ context, input }): Promise<{ ids: number[] }> => {
    const { session, db } = context;
    const lot = input.lotId === null ? undefined : await findLot(db, input.lotId);
    if (input.lotId !== null && !lot) throw notFound('lot', input.lotId);
    const index = await referenceIndex(session);
    const match = await loadMatcher(db);
    const fitted = await marketToday(session);
    const read = input.cars.map(patch => readPatch(index, match, blank(input.lotId), patch));
    const number = read.length === 1 ? 'a car' : `${read.length} cars`;
    const ids = await session.act(lot ? `Added ${number} to ${lot.name}` : `Added ${number}`, async trx => {
      const given = read.flatMap(({ changes }) => changes.inventoryNumber ?? []);
      const free = await nextInventoryNumbers(trx, read.length - given.length, input.lotId, given);
      const cars = read.map(({ changes }) => ({
        lotId: input.lotId,
        ...changes,
        inventoryNumber: changes.inventoryNumber ?? free.shift() ?? '',
      }));
      const added = await insertCars(trx, cars, session.at());
      for (const [i, id] of added.entries()) {
        const candidates = read[i]?.candidates ?? [];
        if (candidates.length > 0) await replaceCandidates(trx, id, candidates);
      }
      const lots = new Set(cars.map(car => car.lotId).filter(id => id !== null && id !== undefined));
      for (const id of lots) await reshareLot(trx, fitted, id);
      return added;
    });
    return { ids };
  });

/** So many cars are answered as rows with an edit. */
const mostAnswered = 200;

const update = needsCollection
  .input(inputs.updateCars)
  .handler(async ({ context, input }): Promise<{ rows: CarRow[] }> => {
    const { session, db } = context;
    const ids = [...new Set(input.changes.map(change => change.id))];
    const before = new Map((await listCars(db, { ids })).map(car => [car.id, car]));
    const gone = ids.find(id => !before.has(id));
    if (gone !== undefined) throw notFound('car', gone);
    const sold = new Set((await listDisposals(db, ids)).map(disposal => disposal.carId));
    for (const lotId of new Set(input.changes.map(change => change.patch.lotId)))
      if (typeof lotId === 'number' && !(await findLot(db, lotId))) throw notFound('lot', lotId);
    const index = await referenceIndex(session);
    const match = await loadMatcher(db);
    const current = new Map(before);
    const updates = new Map<number, Partial<CarRecord>>();
    const candidates = new Map<number, number[]>();
    for (const { id, patch } of input.changes) {
      const car = current.get(id);
      if (!car) continue;
      if (patch.status !== undefined && patch.status !== 'sold' && sold.has(id))
        throw refused(
          `${car.inventoryNumber} has been sold. Undo that sale to have it back in the collection.`,
        );
      if (patch.status === 'sold') await refuseSeen(session, car);
      const read = readPatch(index, match, car, patch);
      current.set(id, { ...car, ...read.changes });
      updates.set(id, { ...updates.get(id), ...read.changes });
      if (read.candidates) candidates.set(id, read.candidates);
    }
    const moved = [...current.values()].filter(car => car.lotId !== before.get(car.id)?.lotId);
    const lots = new Set(moved.flatMap(car => [car.lotId, before.get(car.id)?.lotId ?? null]));
    for (const car of moved) updates.set(car.id, { ...updates.get(car.id), cost: null, costFixed: false });
    const fitted = await marketToday(session);
    const patches = input.changes.map(change => change.patch);
    const label = input.label || editLabel([...before.values()], patches);
    await session.act(label, async trx => {
      const at = session.at();
      await updateCars(
        trx,
        [...updates].map(([id, changes]) => ({ id, changes })),
        at,
      );
      for (const [id, list] of candidates) await replaceCandidates(trx, id, list);
      for (const id of lots) if (id !== null) await reshareLot(trx, fitted, id);
      await followOwnSales(
        trx,
        ids.filter(id => sold.has(id)),
      );
    });
    // Lists read many cars again by themselves.
    if (ids.length > mostAnswered) return { rows: [] };
    const touched = await listCars(db, { ids });
    for (const lotId of lots)
      if (lotId !== null)
        for (const car of await listCars(db, { lotId })) if (!before.has(car.id)) touched.push(car);
    return { rows: await carRows(session, touched) };
  });

const remove = needsCollection.input(inputs.byIds).handler(async ({ context, input }) => {
  const { session, db } = context;
  const cars = await listCars(db, { ids: input.ids });
  if (cars.length === 0) return;
  const fitted = await marketToday(session);
  const what = cars.length === 1 ? (cars[0]?.inventoryNumber ?? '') : `${cars.length} cars`;
  await session.act(`Removed ${what}`, async trx => {
    await removeCars(
      trx,
      cars.map(car => car.id),
    );
    for (const lotId of new Set(cars.map(car => car.lotId)))
      if (lotId !== null) await reshareLot(trx, fitted, lotId);
  });
});

export const cars = {
  list,
  get,
  create,
  update,
  remove,
  ...carList,
  ...carEvents,
  ...soldCars,
  finishWork,
  recordEvent,
};
