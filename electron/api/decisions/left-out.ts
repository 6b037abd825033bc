import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { mostGain } from '../../../valuation/index.ts';
import type { LeftOut, SeasonOffer } from '../views.ts';
import type { DecideCars } from './decide-cars.ts';
import { isOffered } from './decide-facts.ts';

/** The best that could be done with a car that is not in a season, and why it is not; null where nothing gains. */
export const whyLeftOut = (
  offers: readonly SeasonOffer[],
  { isExcluded, isOnBench }: { isExcluded: boolean; isOnBench: boolean },
): Omit<LeftOut, 'weighed'> | null => {
  const offered = mostGain(offers.filter(isOffered));
  const free = mostGain(offers.filter(({ guarded }) => !guarded));
  const offer = offered ?? (free && free.gain > 0 ? free : mostGain(offers));
  if (!offer || offer.gain <= 0) return null;
  if (isExcluded) return { offer, why: 'never' };
  if (isOnBench) return { offer, why: 'on the bench' };
  return { offer, why: offered ? 'no room' : offer.guarded ? 'guarded' : 'under the floors' };
};

/** The cars that would gain by something and are not in, those that would gain most first. */
export const leftOutOf = (
  { figures, isOnBench }: DecideCars,
  cars: readonly BriefCar[],
  { taken, never }: { taken: readonly number[]; never: readonly number[] },
): ({ id: number } & Omit<LeftOut, 'weighed'>)[] => {
  const offersOf = figures.column(({ weighed }) => weighed.offers);
  const [isIn, isExcluded] = [new Set(taken), new Set(never)];
  return cars
    .flatMap(({ id }) => {
      if (isIn.has(id)) return [];
      const standing = { isExcluded: isExcluded.has(id), isOnBench: isOnBench(id) };
      const why = whyLeftOut(offersOf(id) ?? [], standing);
      return why ? [{ id, ...why }] : [];
    })
    .sort((a, b) => b.offer.gain - a.offer.gain);
};
