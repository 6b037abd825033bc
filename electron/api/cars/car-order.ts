import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { carColour, carTitle } from '../../../valuation/wording/cars/car-names.ts';
import { statusText } from '../../../valuation/wording/cars/status-text.ts';
import { recommendationWord } from '../../../valuation/wording/values/option-words.ts';
import type { SortValue } from '../session/list-order.ts';
import { adviceOf, gainOf, type ListedCars, statusOf } from './listed-cars.ts';

/** Orders for which all cars must have figures. */
export const ordersByFigures: readonly string[] = ['worth', 'found', 'recommendation', 'gain', 'expected'];

const noColour = { colour: '' };

const variationOf = ({ index }: ListedCars, { variationId }: BriefCar) =>
  variationId === null ? undefined : index.variations.get(variationId);

const releaseNameOf = (list: ListedCars, car: BriefCar): string | null =>
  variationOf(list, car)?.releaseName ??
  (car.releaseId === null ? undefined : list.index.releases.get(car.releaseId)?.name) ??
  car.written.release ??
  null;

const castingOf = ({ index }: ListedCars, { castingId }: BriefCar): string | null =>
  (castingId === null ? undefined : index.castings.get(castingId)?.name) ?? null;

/** The name a car was sold under, else its casting, else what was written of it; null where nothing was. */
export const shortNameOf = (list: ListedCars, car: BriefCar): string | null =>
  releaseNameOf(list, car) ?? castingOf(list, car) ?? (car.written.casting || null);

/** What each column of the list of cars, and each order of the wall, sorts by. */
export const carSortValues = (list: ListedCars, locale: string) => {
  const { lots, midOf } = list;
  const columns: Record<string, (car: BriefCar) => SortValue> = {
    number: car => car.inventoryNumber,
    photo: car => car.photos,
    name: car =>
      carTitle({
        releaseName: releaseNameOf(list, car),
        casting: castingOf(list, car),
        asWritten: car.written,
        inventoryNumber: car.inventoryNumber,
      }),
    colour: car =>
      carColour({
        features: variationOf(list, car)?.features ?? noColour,
        asWritten: car.written,
        wornColour: car.wornColour,
      }),
    grade: car => car.grade,
    finish: car => car.finishState,
    lot: car => (car.lotId === null ? null : (lots.get(car.lotId)?.name ?? null)),
    status: car => statusText(statusOf(list, car)),
    cost: car => car.cost,
    worth: car => midOf(car.id),
    found: car => (car.isSold ? null : midOf(car.id)),
    recommendation: car => {
      const advice = adviceOf(list, car);
      return advice && recommendationWord(advice, locale);
    },
    gain: car => gainOf(list, car),
    // The gain of the best option, also where it is to leave.
    expected: car => (car.isSold ? null : list.expectedGainOf(car.id)),
  };
  return (columnId: string) => columns[columnId];
};
