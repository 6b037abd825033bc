import { setImmediate } from 'node:timers/promises';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { type Valuation, valueCar, type Worth } from '../../../valuation/index.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { OnProgress } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import type { ValuationList } from '../views.ts';
import { marketOn, marketToday } from './market.ts';
import { ownedOf } from './owned.ts';

const rangeOf = (worth: Worth | null) => worth && { low: worth.low, mid: worth.mid, high: worth.high };

const worthsOf = ({ asFound, restored, originalFinish, evidence }: Valuation) => ({
  asFound: rangeOf(asFound),
  restored: rangeOf(restored),
  originalFinish: rangeOf(originalFinish),
  evidence: {
    sales: evidence.sales,
    credibility: evidence.credibility,
    ...(evidence.kinds && { kinds: evidence.kinds }),
  },
});

/**
 * Values every car of the owner's, on the effective date or another; other calls are answered in between.
 */
export const valueCars = async (
  session: Session,
  on: string | undefined,
  onProgress: OnProgress,
  signal: AbortSignal,
): Promise<ValuationList> => {
  const { db } = openOf(session).read;
  const today = await session.today();
  const fitted = on === undefined || on === today ? await marketToday(session) : await marketOn(session, on);
  const index = await referenceIndex(session);
  const cars = await ownedOf(session, await listCars(db));
  const subjects = await readSubjects(db, cars);
  const valued: ValuationList['cars'] = [];
  for (const [place, car] of cars.entries()) {
    const subject = subjects[place];
    if (!subject) throw new Error(`Car ${car.id} was read without its parts`);
    if (place % 200 === 0) {
      onProgress(place, cars.length, 'Valuing the cars');
      await setImmediate();
      signal.throwIfAborted();
    }
    valued.push({
      inventoryNumber: car.inventoryNumber,
      casting: car.castingId === null ? null : (index.castings.get(car.castingId)?.name ?? null),
      variation: car.variationId === null ? null : (index.variations.get(car.variationId)?.label ?? null),
      grade: car.grade,
      wornColour: car.wornColour,
      finishState: car.finishState,
      ...worthsOf(valueCar(fitted, subject)),
    });
  }
  return { on: on ?? today, currency: await readReportingCurrency(db), cars: valued };
};
