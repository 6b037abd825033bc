import { inventoryNumbers } from '../../../db/records/cars.ts';
import { listFinishedWork } from '../../../db/records/finished-work.ts';
import type { Season } from '../../../db/records/seasons.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { SeasonView } from '../views.ts';

/** Seasons with the numbers of their cars, and what was finished of each since the season was made. */
export const seasonView = async (session: Session, seasons: Season[]): Promise<SeasonView[]> => {
  const { db } = openOf(session).read;
  const ids = [...new Set(seasons.flatMap(({ cars }) => cars.map(({ carId }) => carId)))];
  const numbers = await inventoryNumbers(db, ids);
  const finished = await listFinishedWork(db, ids);
  return seasons.map(season => ({
    ...season,
    cars: season.cars.map(car => {
      const work = finished.get(car.carId)?.find(({ finishedOn }) => finishedOn >= season.madeOn);
      return {
        ...car,
        inventoryNumber: numbers.get(car.carId) ?? '',
        finishedOn: work?.finishedOn ?? null,
        hoursTaken: work?.minutes == null ? null : work.minutes / 60,
      };
    }),
  }));
};
