import { readSubjects } from '../../../db/engine/subjects.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { type Range, seasonRange } from '../../../valuation/index.ts';
import type { WorkKind } from '../../../valuation/words.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { marketToday } from './market.ts';

/**
 * What the work on these cars is expected to gain over leaving them in all, with the 80 % range of that, by
 * what their values share; null where none of them has a value.
 */
export const rangeOf = async (
  session: Session,
  cars: readonly { carId: number; option: WorkKind }[],
): Promise<Range | null> => {
  const { db } = openOf(session).read;
  const records = await listCars(db, { ids: cars.map(({ carId }) => carId) });
  const subjects = new Map((await readSubjects(db, records)).map(subject => [subject.id, subject]));
  const taken = cars.flatMap(({ carId, option }) => {
    const subject = subjects.get(carId);
    return subject ? [{ subject, option }] : [];
  });
  const range = seasonRange(await marketToday(session), taken);
  return range.low === range.high && range.mid === 0 ? null : range;
};
