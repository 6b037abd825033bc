import { setImmediate } from 'node:timers/promises';
import type { z } from 'zod';
import { type CarRecord, listCars } from '../../db/cars.ts';
import { readSubjects } from '../../db/subjects.ts';
import {
  betaPert,
  type FittedMarket,
  type RestorationPlan,
  type Subject,
  standardPlan,
} from '../../valuation/index.ts';
import { carRows } from './car-rows.ts';
import type { listDecisions } from './inputs.ts';
import { marketToday } from './market.ts';
import { openOf } from './open-collection.ts';
import type { Session } from './session.ts';
import type { CarRow, DecideRow } from './views.ts';
import { wholeDecision } from './whole-decisions.ts';

/** What a car's plan takes of the owner: expected hours at the bench and cash, and the scarce parts by name. */
export const planUse = (plan: RestorationPlan): Pick<DecideRow, 'hours' | 'cash' | 'parts'> => {
  const mean = ({ low, likely, high }: RestorationPlan['hours']) => betaPert(low, likely, high).mean;
  const parts: Record<string, number> = {};
  for (const line of plan.lines)
    if (line.part !== undefined) parts[line.part] = (parts[line.part] ?? 0) + (line.quantity ?? 1);
  return {
    hours: mean(plan.hours),
    cash: Math.round(plan.lines.reduce((sum, line) => sum + mean(line.cost), 0)),
    parts,
  };
};

/** The plan by which a car is judged: the owner's own, or the standard one. */
export const planOf = (fitted: FittedMarket, subject: Subject): RestorationPlan =>
  subject.plan ?? standardPlan(subject, fitted.assumptions);

/** The cars that may be worked on, narrowed as asked; sold cars are no longer to be decided. */
const candidates = (
  rows: CarRow[],
  { lotId, finishStates, belowGrade, excludeRarities }: z.output<typeof listDecisions>,
): CarRow[] =>
  rows.filter(
    row =>
      row.status !== 'sold' &&
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
  const { db } = openOf(session);
  const cars = await listCars(db);
  const rows = candidates(await carRows(session, db, cars, true), filter);
  const byId = new Map<number, CarRecord>(cars.map(car => [car.id, car]));
  const wanted = rows.flatMap(row => byId.get(row.id) ?? []);
  const subjects = await readSubjects(db, wanted, wanted.length === cars.length);
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
      decision: wholeDecision(fitted, subject),
      ...planUse(planOf(fitted, subject)),
    });
  }
  return decided;
};
