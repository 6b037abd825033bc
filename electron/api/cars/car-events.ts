import { updateCars } from '../../../db/records/cars/cars-write.ts';
import { carChecks, saveCheck as saveCheckRows } from '../../../db/records/cars/condition-checks.ts';
import {
  findExpense,
  insertDisposal,
  insertExpense,
  listDisposals,
  removeDisposal,
  removeExpense as removeExpenseRow,
} from '../../../db/records/cars/disposals.ts';
import { refuseSeen } from '../figures/owned.ts';
import * as inputs from '../inputs.ts';
import { followOwnSales } from '../reference/own-sales.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import { findCar } from './find-car.ts';

/** Keeps a check; where it is the car's newest, the car takes its overall grade. */
const saveCheck = needsCollection.input(inputs.saveCheck).handler(async ({ context, input }) => {
  const { session, db } = context;
  const car = await findCar(db, input.carId);
  const checks = await carChecks(db, car.id);
  if (input.checkId !== null && !checks.some(check => check.id === input.checkId))
    throw notFound('condition check', input.checkId);
  const others = checks.filter(check => check.id !== input.checkId);
  const newest = others.every(check => check.checkedOn <= input.checkedOn);
  await session.act(`Checked the condition of ${car.inventoryNumber}`, async trx => {
    await saveCheckRows(trx, car.id, { ...input, id: input.checkId });
    if (newest && input.grade !== null && input.grade !== car.grade)
      await updateCars(trx, [{ id: car.id, changes: { grade: input.grade } }], session.at());
    await followOwnSales(trx, [car.id]);
  });
});

/**
 * Sells a car: its disposal, the sale record of the owner's own that follows from it, and its
 * status are one action.
 */
const dispose = needsCollection.input(inputs.dispose).handler(async ({ context, input }) => {
  const { session, db } = context;
  const car = await findCar(db, input.carId);
  if ((await listDisposals(db, [car.id])).length > 0)
    throw refused(`${car.inventoryNumber} has been sold already. Undo that sale first.`);
  await refuseSeen(session, car);
  await session.act(`Sold ${car.inventoryNumber}`, async trx => {
    await insertDisposal(trx, input);
    await updateCars(trx, [{ id: car.id, changes: { status: 'sold' } }], session.at());
    await followOwnSales(trx, [car.id]);
  });
});

const undispose = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const { session, db } = context;
  const car = await findCar(db, input.id);
  if (car.status !== 'sold' && (await listDisposals(db, [car.id])).length === 0)
    throw refused(`${car.inventoryNumber} has not been sold.`);
  await session.act(`Undid the sale of ${car.inventoryNumber}`, async trx => {
    await removeDisposal(trx, car.id);
    await updateCars(trx, [{ id: car.id, changes: { status: 'kept' } }], session.at());
  });
});

const addExpense = needsCollection.input(inputs.expense).handler(async ({ context, input }) => {
  const car = await findCar(context.db, input.carId);
  await context.session.act(`Added an expense of ${car.inventoryNumber}`, trx => insertExpense(trx, input));
});

const removeExpense = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const expense = await findExpense(context.db, input.id);
  if (!expense) throw notFound('expense', input.id);
  const car = await findCar(context.db, expense.carId);
  await context.session.act(`Removed an expense of ${car.inventoryNumber}`, trx =>
    removeExpenseRow(trx, input.id),
  );
});

export const carEvents = { saveCheck, dispose, undispose, addExpense, removeExpense };
