import type { z } from 'zod';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { saveDecision } from '../../../db/records/decisions/decisions.ts';
import { recommendCar } from '../../../valuation/index.ts';
import { marketToday } from '../figures/market.ts';
import type { recordDecision } from '../inputs.ts';
import { notFound, refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

/**
 * Keeps decisions beside what was recommended then, as one action under `label`. Refused as a whole where a
 * car is not there or is named twice, and where a guard is overruled without a reason.
 */
export const recordDecisions = async (
  session: Session,
  decisions: z.output<typeof recordDecision>[],
  label: string,
): Promise<void> => {
  const unreasoned = decisions.find(({ overruled, reason }) => overruled.length > 0 && reason.trim() === '');
  if (unreasoned) throw refused('Overruling a caution needs a reason; it stays with the decision.', 'reason');
  const ids = [...new Set(decisions.map(({ carId }) => carId))];
  if (ids.length < decisions.length) throw refused('A car can be decided only once at a time.');
  const { db } = openOf(session).read;
  const cars = await listCars(db, { ids });
  const known = new Set(cars.map(car => car.id));
  const missing = ids.find(id => !known.has(id));
  if (missing !== undefined) throw notFound('car', missing);
  const fitted = await marketToday(session);
  const recommended = new Map(
    (await readSubjects(db, cars)).map(subject => [subject.id, recommendCar(fitted, subject).recommendation]),
  );
  const today = await session.today();
  await session.act(label, async trx => {
    for (const decision of decisions)
      await saveDecision(trx, {
        ...decision,
        decidedOn: today,
        recommended: recommended.get(decision.carId) ?? 'not-enough-evidence',
      });
  });
};
