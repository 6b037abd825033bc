import type { IsoDate } from '../../valuation/types.ts';
import type { DemoCar } from './cars/cars.ts';
import { lotPlans } from './cars/lots.ts';
import type { SnapshotDay } from './content.ts';
import { demoDate } from './dates.ts';

const months = 24;

/** Month ends of the two years up to the demo's today, today itself included. */
export const snapshotDates: IsoDate[] = Array.from({ length: months + 1 }, (_, i) => {
  const [year, month] = demoDate.split('-').map(Number);
  return new Date(Date.UTC(year!, month! - (months - i), 0)).toISOString().slice(0, 10);
});

/** Which cars were there on each of those days, and how they stood then. */
export const makeSnapshots = (cars: DemoCar[]): SnapshotDay[] =>
  snapshotDates.map(on => ({
    on,
    cars: cars
      .filter(car => lotPlans[car.lot - 1]!.boughtOn <= on && (car.soldOn === null || car.soldOn > on))
      .map(car => {
        const then = car.restoredOn !== null && car.restoredOn > on ? car.arrived : car.now;
        return {
          carId: car.id,
          grade: then.grade,
          finishState: then.finishState,
          parts: then.parts.map(({ part, grade, originality }) => ({ part, grade, originality })),
        };
      }),
  }));
