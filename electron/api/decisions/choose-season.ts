import type { z } from 'zod';
import { readSubjects } from '../../../db/engine/subjects.ts';
import type { CarRecord } from '../../../db/records/cars.ts';
import { recommendCar, type SeasonCar, type SeasonLimits, seasonRange } from '../../../valuation/index.ts';
import { offersOf } from '../figures/decision-summary.ts';
import { marketToday } from '../figures/market.ts';
import type { chooseSeason as wishes } from '../inputs.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { SeasonChoice } from '../views.ts';
import { chooseAside } from './choose-aside.ts';

/**
 * What to do this season: of all that can be done with each of the cars, what together is expected to gain
 * most within the hours, cash, parts and places that there are. Only what passes the owner's floors counts,
 * and nothing that a guard stands against. A car that must be in is there by what its owner says is to be
 * done with it; where nothing is said, by what passes, and where nothing does, or it has a plan of its own,
 * by its plan. Rejects with RangeError where the cars that must be in go beyond the limits, and as the
 * session does when it is cancelled.
 */
export const chooseSeasonFrom = async (
  session: Session,
  records: CarRecord[],
  wanted: z.output<typeof wishes>,
  signal?: AbortSignal,
): Promise<SeasonChoice> => {
  const fitted = await marketToday(session);
  const subjects = await readSubjects(openOf(session).read.db, records);
  const by = new Map(wanted.by.map(({ carId, option }) => [carId, option]));
  const must = new Set([...wanted.must, ...by.keys()]);
  const mustNot = new Set(wanted.mustNot);
  const numberOf = (id: number) => records.find(car => car.id === id)?.inventoryNumber ?? '';
  const against: number[] = [];
  const cars = subjects.flatMap((subject): SeasonCar[] => {
    const { id, castingId } = subject;
    const isMust = must.has(id);
    if (mustNot.has(id)) {
      if (isMust) throw refused(`${numberOf(id)} cannot be both chosen and left out.`);
      return [];
    }
    const recommended = recommendCar(fitted, subject);
    const offers = offersOf(fitted, subject, recommended);
    let counted = offers.filter(({ passes, guarded }) => passes && !guarded);
    if (isMust) {
      const wish = by.get(id);
      const planned = recommended.plan?.option;
      if (wish !== undefined || subject.plan || counted.length === 0)
        counted = offers.filter(({ option }) => option === (wish ?? planned));
      if (counted.length === 0)
        throw refused(
          `There is not enough evidence of what ${numberOf(id)} is worth, so it cannot be included in the season.`,
        );
      if (!counted.some(({ passes, guarded }) => passes && !guarded)) against.push(id);
    }
    if (counted.length === 0) return [];
    return [
      { id, castingId, must: isMust, options: counted.map(({ passes: _, guarded: __, ...one }) => one) },
    ];
  });
  const limits: SeasonLimits = {
    parts: wanted.parts,
    ...(wanted.hours !== null && { hours: wanted.hours }),
    ...(wanted.cash !== null && { cash: wanted.cash }),
    ...(wanted.cars !== null && { cars: wanted.cars }),
    ...(wanted.perCasting !== null && { perCasting: wanted.perCasting }),
  };
  const chosen = await chooseAside({ cars, limits }, session.options.workers?.choose, signal);
  const byId = new Map(subjects.map(subject => [subject.id, subject]));
  const range = seasonRange(
    fitted,
    chosen.taken.map(({ id, option }) => ({ subject: byId.get(id)!, option })),
  );
  return { ...chosen, range, against };
};
