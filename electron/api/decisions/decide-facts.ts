import type { BriefCar } from '../../../db/records/brief-cars.ts';
import type { FittedMarket } from '../../../valuation/index.ts';
import { type Recommendation, recommendations } from '../../../valuation/words.ts';
import { valueBounds } from '../cars/car-facts.ts';
import { adviceOf } from '../cars/listed-cars.ts';
import type { CarFigures } from '../figures/figures.ts';
import type { DecideFacts, SeasonOffer } from '../views.ts';
import type { DecideCars } from './decide-cars.ts';
import { type DecideFilter, passesAdvice, passesButAdvice } from './decide-filter.ts';

/** Whether the best set may have it of its own accord: it passes the owner's floors, and no guard is against it. */
export const isOffered = ({ passes, guarded }: SeasonOffer): boolean => passes && !guarded;

const offersOf = ({ figuresOf }: DecideCars, { id }: BriefCar) => figuresOf(id)?.weighed.offers ?? [];

/** The scarce parts that anything takes that can be done with the cars. */
const partsOf = ({ cars, figuresOf }: DecideCars): string[] => {
  const parts = new Set<string>();
  // Cars that are alike share their figures.
  const seen = new Set<CarFigures>();
  for (const { id } of cars) {
    const figures = figuresOf(id);
    if (!figures || seen.has(figures)) continue;
    seen.add(figures);
    for (const offer of figures.weighed.offers) for (const name in offer.parts) parts.add(name);
  }
  return [...parts].sort();
};

/** What the cars of a filter come to, and how many each recommendation would show. */
export const decideFacts = (
  list: DecideCars,
  filter: DecideFilter,
  { assumptions: { decision }, reportingCurrency }: FittedMarket,
): DecideFacts => {
  const butAdvice = passesButAdvice(list, filter);
  const advice = passesAdvice(list, filter);
  const counts = new Map<Recommendation, number>();
  const listed: BriefCar[] = [];
  const lotIds = new Set<number | null>();
  let lacking = 0;
  for (const car of list.cars) {
    lotIds.add(car.lotId);
    const advised = adviceOf(list, car);
    if (!list.figuresOf(car.id)?.weighed.shown) lacking += 1;
    if (!butAdvice(car)) continue;
    if (advised !== null) counts.set(advised, (counts.get(advised) ?? 0) + 1);
    if (advice(car)) listed.push(car);
  }
  return {
    currency: reportingCurrency,
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
    parts: partsOf(list),
    offered: listed.filter(car => offersOf(list, car).some(isOffered)).length,
  };
};
