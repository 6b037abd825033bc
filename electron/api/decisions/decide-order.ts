import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { optionRank, standingRank } from '../../../valuation/words.ts';
import { carSortValues, shortNameOf } from '../cars/car-order.ts';
import { adviceOf } from '../cars/listed-cars.ts';
import type { SortValue } from '../session/list-order.ts';
import type { DecideCars } from './decide-cars.ts';

/** What each column of the list of decisions sorts by; what it shares with the list of cars as that does. */
export const decideSortValues = (list: DecideCars, locale: string) => {
  const ofCars = carSortValues(list, locale);
  const shownOf = ({ id }: BriefCar) => list.figuresOf(id)?.weighed.shown ?? null;
  const columns: Record<string, (car: BriefCar) => SortValue> = {
    season: car => standingRank(list.standingOf(car.id)),
    car: car => shortNameOf(list, car) ?? 'Unidentified',
    cost: car => shownOf(car)?.cost.mid ?? null,
    gain: car => shownOf(car)?.expectedGain ?? null,
    probability: car => shownOf(car)?.probability ?? null,
    recommendation: car => optionRank(adviceOf(list, car)),
    decided: car => optionRank(list.choiceOf(car.id)),
  };
  return (columnId: string) => columns[columnId] ?? ofCars(columnId);
};
