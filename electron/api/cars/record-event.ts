import { readSubjects } from '../../../db/engine/subjects.ts';
import { insertCarEvent } from '../../../db/records/cars/car-events.ts';
import { updateCars } from '../../../db/records/cars/cars-write.ts';
import { carChecks, saveCheck } from '../../../db/records/cars/condition-checks.ts';
import { valueCar } from '../../../valuation/index.ts';
import { marketToday } from '../figures/market.ts';
import * as inputs from '../inputs.ts';
import { followOwnSales } from '../reference/own-sales.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import { findCar } from './find-car.ts';

/**
 * Writes down what happened to a car as one action: a condition check with the cause, and the event with the
 * condition and the value before and after it, both by today's market. The parts of the last check stay as
 * they were said.
 */
export const recordEvent = needsCollection.input(inputs.recordEvent).handler(async ({ context, input }) => {
  const { session, db } = context;
  const car = await findCar(db, input.carId);
  if (car.status === 'sold') throw refused(`${car.inventoryNumber} has been sold.`);
  const [subject] = await readSubjects(db, [car]);
  if (!subject) throw notFound('car', car.id);
  const checks = await carChecks(db, car.id);
  const newest = checks.every(check => check.checkedOn <= input.happenedOn);
  const fitted = await marketToday(session);
  const worthOf = (grade: typeof car.grade) =>
    valueCar(fitted, { ...subject, ownWorth: null, grade }).asFound?.mid ?? null;
  const before = car.grade;
  const cause = input.note === '' ? input.cause : `${input.cause}: ${input.note}`;
  await session.act(`Noted for ${car.inventoryNumber}: ${input.cause}`, async trx => {
    const checkId = await saveCheck(trx, car.id, {
      id: null,
      checkedOn: input.happenedOn,
      grade: input.grade,
      notes: cause,
      parts: checks[0]?.parts ?? [],
    });
    await insertCarEvent(trx, car.id, {
      happenedOn: input.happenedOn,
      cause: input.cause,
      note: input.note,
      checkId,
      before,
      after: input.grade,
      worthBefore: before === null ? null : worthOf(before),
      worthAfter: input.grade === null ? null : worthOf(input.grade),
      currency: fitted.reportingCurrency,
    });
    if (newest && input.grade !== null && input.grade !== car.grade)
      await updateCars(trx, [{ id: car.id, changes: { grade: input.grade } }], session.at());
    await followOwnSales(trx, [car.id]);
  });
});
