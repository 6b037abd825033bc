import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import type { AssumptionSet, Currency } from '../../../valuation/index.ts';
import { type Recommendation, recommendations } from '../../../valuation/words.ts';
import { valueBounds } from '../cars/car-facts.ts';
import type { DecideFacts, SeasonOffer } from '../views.ts';
import type { DecideCars } from './decide-cars.ts';
import { type DecideFilter, passesAdvice, passesButAdvice } from './decide-filter.ts';

/** Whether the best set may have it of its own accord: it passes the owner's floors, and no guard is against it. */
export const isOffered = ({ passes, guarded }: SeasonOffer): boolean => passes && !guarded;

/** What the cars of a filter come to, and how many each recommendation would show. */
export const decideFacts = (
  list: DecideCars,
  filter: DecideFilter,
  { decision, currency }: { decision: AssumptionSet['decision']; currency: Currency },
): DecideFacts => {
  const butAdvice = passesButAdvice(list, filter);
  const advice = passesAdvice(list, filter);
  const counts = new Map<Recommendation, number>();
  const listed: BriefCar[] = [];
  const lotIds = new Set<number | null>();
  const parts = new Set<string>();
  const isLacking = list.figures.column(({ weighed }) => weighed.shown === null);
  const isOpen = list.figures.column(({ weighed }) => weighed.offers.some(isOffered));
  const partsOf = list.figures.column(({ weighed }) =>
    weighed.offers.flatMap(offer => Object.keys(offer.parts)),
  );
  let [lacking, offered] = [0, 0];
  for (const car of list.cars) {
    lotIds.add(car.lotId);
    for (const name of partsOf(car.id) ?? []) parts.add(name);
    if (isLacking(car.id) ?? true) lacking += 1;
    if (!butAdvice(car)) continue;
    const recommendation = list.recommendationOf(car.id);
    if (recommendation) counts.set(recommendation, (counts.get(recommendation) ?? 0) + 1);
    if (!advice(car)) continue;
    listed.push(car);
    if (isOpen(car.id) && !list.isOnBench(car.id)) offered += 1;
  }
  return {
    workingOut: list.workingOut,
    currency,
    leastGain: decision.leastGain,
    leastProbability: decision.leastProbability,
    cars: list.cars.length,
    lacking,
    listed: listed.length,
    recommended: recommendations.flatMap(value => {
      const cars = counts.get(value);
      return cars === undefined ? [] : [{ value, cars }];
    }),
    lots: [...list.lots.values()]
      .filter(({ id }) => lotIds.has(id))
      .map(({ id, name }) => ({ id, name }))
      .sort((a, b) => a.name.localeCompare(b.name)),
    values: valueBounds(list, listed),
    parts: [...parts].sort(),
    offered,
  };
};
