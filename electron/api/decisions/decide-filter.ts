import type { z } from 'zod';
import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { adviceOf, rarityOf } from '../cars/listed-cars.ts';
import type { decideFilter } from '../inputs.ts';
import type { DecideCars } from './decide-cars.ts';

export type DecideFilter = z.output<typeof decideFilter>;

const passesDecided = (list: DecideCars, car: BriefCar, word: DecideFilter['decided']): boolean => {
  if (word === null) return true;
  const choice = list.choiceOf(car.id);
  if (word === 'undecided') return choice === null;
  return choice !== null && (word === 'decided' || choice !== adviceOf(list, car));
};

/** True for a car that passes all of the filter but its recommendation. An ungraded car may be below any grade. */
export const passesButAdvice =
  (list: DecideCars, { lot, finish, below, not, decided }: DecideFilter) =>
  (car: BriefCar): boolean => {
    const rarity = not.length === 0 ? null : rarityOf(list, car);
    return (
      (lot === null || car.lotId === lot) &&
      (finish.length === 0 || finish.includes(car.finishState)) &&
      (below === null || car.grade === null || car.grade < below) &&
      (rarity === null || !not.includes(rarity)) &&
      passesDecided(list, car, decided)
    );
  };

/** True for a car whose recommendation the filter asks for. */
export const passesAdvice =
  (list: DecideCars, { recommendation }: DecideFilter) =>
  (car: BriefCar): boolean => {
    if (recommendation.length === 0) return true;
    const advice = adviceOf(list, car);
    return advice !== null && recommendation.includes(advice);
  };

/** True for a car that the filter shows. */
export const passes = (list: DecideCars, filter: DecideFilter) => {
  const butAdvice = passesButAdvice(list, filter);
  const advice = passesAdvice(list, filter);
  return (car: BriefCar): boolean => butAdvice(car) && advice(car);
};
