import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { optionRank, standingRank } from '../../../valuation/words.ts';
import { carSortValues, shortNameOf } from '../cars/car-order.ts';
import { adviceOf } from '../cars/listed-cars.ts';
import type { SortValue } from '../session/list-order.ts';
import type { DecideCars } from './decide-cars.ts';

/** What each column of the list of decisions sorts by; what it shares with the list of cars as that does. */
export const decideSortValues = (list: DecideCars, locale: string) => {
  const ofCars = carSortValues(list, locale);
  const { figures } = list;
  const cost = figures.column(({ weighed }) => weighed.shown?.cost.mid);
  const gain = figures.column(({ weighed }) => weighed.shown?.expectedGain);
  const probability = figures.column(({ weighed }) => weighed.shown?.probability);
  const columns: Record<string, (car: BriefCar) => SortValue> = {
    season: car => standingRank(list.standingOf(car.id)),
    car: car => shortNameOf(list, car) ?? 'Unidentified',
    cost: car => cost(car.id) ?? null,
    gain: car => gain(car.id) ?? null,
    probability: car => probability(car.id) ?? null,
    recommendation: car => optionRank(adviceOf(list, car)),
    decided: car => optionRank(list.choiceOf(car.id)),
  };
  return (columnId: string) => columns[columnId] ?? ofCars(columnId);
};
