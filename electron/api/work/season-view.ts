import { listFinishedWork } from '../../../db/records/bench/finished-work.ts';
import { carsOnBench } from '../../../db/records/bench/jobs.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { listDisposals, listExpenses } from '../../../db/records/cars/disposals.ts';
import type { Season } from '../../../db/records/decisions/seasons.ts';
import type { IsoDate, Minor } from '../../../valuation/index.ts';
import { booksOf } from '../figures/books.ts';
import { carFigures } from '../figures/figures.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { SeasonView } from '../views.ts';

/** A sum, or null as soon as one of its amounts is not known. */
const sumOf = (amounts: (Minor | null)[]): Minor | null =>
  amounts.reduce<Minor | null>((sum, one) => (sum === null || one === null ? null : sum + one), 0);

/**
 * Seasons with the numbers of their cars, what was finished of each since the season was made, and what it
 * brought beside what was expected.
 */
export const seasonView = async (session: Session, seasons: Season[]): Promise<SeasonView[]> => {
  const { db } = openOf(session).read;
  const ids = [...new Set(seasons.flatMap(({ cars }) => cars.map(({ carId }) => carId)))];
  if (ids.length === 0) return seasons.map(season => ({ ...season, cars: [] }));
  const cars = new Map((await listCars(db, { ids })).map(car => [car.id, car]));
  const finished = await listFinishedWork(db, ids);
  const running = await carsOnBench(db);
  const done = ids.filter(id => finished.has(id));
  const figures = await carFigures(
    session,
    done.flatMap(id => cars.get(id) ?? []),
  );
  const spending = Map.groupBy(await listExpenses(db, done), expense => expense.carId);
  const sales = new Map((await listDisposals(db, done)).map(sale => [sale.carId, sale]));
  const books = await booksOf(session);
  const index = await referenceIndex(session);

  const broughtBy = (season: Season, carId: number, found: Minor | null, since: IsoDate) => {
    if (season.currency !== books.currency) return { spent: null, now: null, brought: null };
    const spent = sumOf(
      (spending.get(carId) ?? [])
        .filter(({ spentOn }) => spentOn >= since)
        .map(({ minor, currency, spentOn }) => books.convert(minor, currency, spentOn)),
    );
    const sale = sales.get(carId);
    const now = sale
      ? books.convert(sale.proceeds - sale.fees, sale.currency, sale.soldOn)
      : (figures.get(carId)?.worths.asFound?.mid ?? null);
    const brought = found === null || now === null || spent === null ? null : now - found - spent;
    return { spent, now, brought };
  };
  return seasons.map(season => ({
    ...season,
    cars: season.cars.map(car => {
      const work = finished.get(car.carId)?.find(({ finishedOn }) => finishedOn >= season.madeOn);
      return {
        ...car,
        inventoryNumber: cars.get(car.carId)?.inventoryNumber ?? '',
        swatch: car.colour === '' ? null : index.swatchOf(car.colour),
        finishedOn: work?.finishedOn ?? null,
        hoursTaken: work?.minutes == null ? null : work.minutes / 60,
        onBench: running.has(car.carId),
        ...(work
          ? broughtBy(season, car.carId, car.found, season.madeOn)
          : { spent: null, now: null, brought: null }),
      };
    }),
  }));
};
