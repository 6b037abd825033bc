import type { z } from 'zod';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { readPlans } from '../../../db/records/plans/plans.ts';
import {
  type SeasonCar,
  type SeasonLimits,
  type SeasonOption,
  seasonRange,
  usualOffer,
} from '../../../valuation/index.ts';
import { figuresById } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import type { chooseSeason as wishes } from '../inputs.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { SeasonChoice, SeasonOffer } from '../views.ts';
import { chooseAside } from './choose-aside.ts';
import type { DecideCars } from './decide-cars.ts';
import { isOffered } from './decide-facts.ts';

const plain = (offers: readonly SeasonOffer[]): SeasonOption[] =>
  offers.map(({ passes: _, guarded: __, ...one }) => one);

/**
 * What to do this season: of all that can be done with each of the cars, what together is expected to gain
 * most within the hours, cash, parts and places that there are. Only what passes the owner's floors counts,
 * and nothing that a guard stands against; a car that is on the bench already waits for no season. A car that must be in is there by what its owner says is to be
 * done with it; where nothing is said by its own plan, where it has none by what passes, and where nothing
 * does by what does best of all that can be done with it. Rejects with RangeError where the cars that must be in go beyond the limits, and as the
 * session does when it is cancelled.
 */
export const chooseSeasonFrom = async (
  session: Session,
  { cars: among, isOnBench }: Pick<DecideCars, 'cars' | 'isOnBench'>,
  wanted: z.output<typeof wishes>,
  signal?: AbortSignal,
): Promise<SeasonChoice> => {
  const { db } = openOf(session).read;
  const by = new Map(wanted.by.map(({ carId, option }) => [carId, option]));
  const must = new Set([...wanted.must, ...by.keys()]);
  const mustNot = new Set(wanted.mustNot);
  const plans = await readPlans(db, [...must]);
  const figures = await figuresById(
    session,
    among.map(({ id }) => id),
  );
  const against: number[] = [];
  // Cars that are alike share their offers, and so what is told of them to the worker.
  const told = new Map<number | undefined, SeasonOption[]>();
  const optionsOf = (id: number, counted: readonly SeasonOffer[]) => {
    const place = figures.placeOf(id);
    const options = told.get(place) ?? plain(counted);
    told.set(place, options);
    return options;
  };
  const weighedOf = figures.column(({ weighed }) => weighed);
  const cars = among.flatMap(({ id, castingId, inventoryNumber }): SeasonCar[] => {
    const isMust = must.has(id);
    if (mustNot.has(id)) {
      if (isMust) throw refused(`${inventoryNumber} cannot be both chosen and left out.`);
      return [];
    }
    if (isOnBench(id) && !isMust) return [];
    const { offers = [], plan = null } = weighedOf(id) ?? {};
    let counted = offers.filter(isOffered);
    if (isMust) {
      const wish = by.get(id) ?? (plans.has(id) ? plan?.option : undefined);
      if (wish !== undefined) counted = offers.filter(({ option }) => option === wish);
      else if (counted.length === 0) {
        const own = figures.of(id);
        if (own) counted = [usualOffer(offers, { ...own, own: null })].flatMap(one => one ?? []);
      }
      if (counted.length === 0)
        throw refused(
          `There is not enough evidence of what ${inventoryNumber} is worth, so it cannot be included in the season.`,
        );
      if (!counted.some(isOffered)) against.push(id);
    }
    if (counted.length === 0) return [];
    return [{ id, castingId, must: isMust, options: isMust ? plain(counted) : optionsOf(id, counted) }];
  });
  const limits: SeasonLimits = {
    parts: wanted.parts,
    ...(wanted.hours !== null && { hours: wanted.hours }),
    ...(wanted.cash !== null && { cash: wanted.cash }),
    ...(wanted.cars !== null && { cars: wanted.cars }),
    ...(wanted.perCasting !== null && { perCasting: wanted.perCasting }),
  };
  const chosen = await chooseAside({ cars, limits }, session.options.workers?.choose, signal);
  const taken = await listCars(db, { ids: chosen.taken.map(({ id }) => id) });
  const byId = new Map((await readSubjects(db, taken)).map(subject => [subject.id, subject]));
  const range = seasonRange(
    await marketToday(session),
    chosen.taken.flatMap(({ id, option }) => {
      const subject = byId.get(id);
      return subject ? [{ subject, option }] : [];
    }),
  );
  return { ...chosen, range, against };
};
