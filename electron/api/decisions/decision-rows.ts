import { setImmediate } from 'node:timers/promises';
import type { z } from 'zod';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import { carRows } from '../cars/car-rows.ts';
import { planOf, planUse } from '../figures/decision-summary.ts';
import { wholeDecision } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import { ownedOf } from '../figures/owned.ts';
import type { listDecisions } from '../inputs.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CarRow, DecideRow } from '../views.ts';

/** The cars that may be worked on, narrowed as asked. */
const candidates = (
  rows: CarRow[],
  { lotId, finishStates, belowGrade, excludeRarities }: z.output<typeof listDecisions>,
): CarRow[] =>
  rows.filter(
    row =>
      (lotId === undefined || row.lotId === lotId) &&
      (finishStates === undefined || finishStates.includes(row.finishState)) &&
      (belowGrade === undefined || row.grade === null || row.grade < belowGrade) &&
      (excludeRarities === undefined || row.rarity === null || !excludeRarities.includes(row.rarity)),
  );

/** Every car to be decided with its whole decision, worked out while other calls are answered in between. */
export const decideRows = async (
  session: Session,
  filter: z.output<typeof listDecisions>,
  signal?: AbortSignal,
): Promise<DecideRow[]> => {
  const { db } = openOf(session).read;
  // What is sold is no longer to be decided, what was only seen not yet.
  const cars = await ownedOf(session, await listCars(db));
  const rows = candidates(await carRows(session, cars), filter);
  const byId = new Map<number, CarRecord>(cars.map(car => [car.id, car]));
  const wanted = rows.flatMap(row => byId.get(row.id) ?? []);
  const subjects = await readSubjects(db, wanted);
  const fitted = await marketToday(session);
  const decided: DecideRow[] = [];
  for (const [i, car] of rows.entries()) {
    const subject = subjects[i];
    if (!subject) continue;
    if (i % 50 === 49) {
      await setImmediate();
      signal?.throwIfAborted();
    }
    decided.push({
      car,
      decision: wholeDecision(session, fitted, subject),
      ...planUse(planOf(fitted, subject)),
    });
  }
  return decided;
};
