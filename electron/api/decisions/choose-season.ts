import type { z } from 'zod';
import { readSubjects } from '../../../db/engine/subjects.ts';
import type { CarRecord } from '../../../db/records/cars.ts';
import {
  type CarLimits,
  type OptionSummary,
  recommendCar,
  type SeasonCar,
  type SeasonOption,
  type Subject,
  seasonRange,
} from '../../../valuation/index.ts';
import { planOf, planUse } from '../figures/decision-summary.ts';
import { marketToday } from '../figures/market.ts';
import type { chooseCars as wishes } from '../inputs.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { SeasonChoice } from '../views.ts';
import { chooseAside } from './choose-aside.ts';

/**
 * What to do this season: of all that can be done with each of the cars, what together is expected to gain
 * most within the hours, cash and parts that there are. Only what passes the owner's floors counts, and
 * nothing that a guard stands against. A car that must be in is there by what passes; where nothing does, and
 * where its owner has planned it, by its plan. Rejects as `chooseFrom` does.
 */
export const chooseSeasonFrom = async (
  session: Session,
  records: CarRecord[],
  wanted: z.output<typeof wishes>,
  signal?: AbortSignal,
): Promise<SeasonChoice> => {
  const fitted = await marketToday(session);
  const subjects = await readSubjects(openOf(session).read.db, records);
  const must = new Set(wanted.must);
  const mustNot = new Set(wanted.mustNot);
  const numberOf = (id: number) => records.find(car => car.id === id)?.inventoryNumber ?? '';
  const against: number[] = [];
  const use = (subject: Subject, { option, cost, hours }: OptionSummary) => {
    const plan = planOf(fitted, subject);
    if (plan.kind === option) return planUse(plan);
    return { hours, cash: cost.mid, parts: {} };
  };
  const cars = subjects.flatMap((subject): SeasonCar[] => {
    const { id, castingId } = subject;
    if (mustNot.has(id)) {
      if (must.has(id)) throw refused(`${numberOf(id)} cannot be both chosen and left out.`);
      return [];
    }
    const { plan, options } = recommendCar(fitted, subject);
    if (must.has(id) && !plan)
      throw refused(
        `There is not enough evidence of what ${numberOf(id)} is worth, so it cannot be planned in.`,
      );
    let counted = options.filter(({ guarded, passes }) => passes && !guarded);
    if (must.has(id) && plan && (subject.plan || counted.length === 0)) {
      if (plan.guarded || !plan.passes) against.push(id);
      counted = [plan];
    }
    if (counted.length === 0) return [];
    return [
      {
        id,
        castingId,
        must: must.has(id),
        options: counted.map(
          (one): SeasonOption => ({
            option: one.option as SeasonOption['option'],
            gain: one.expectedGain,
            ...use(subject, one),
          }),
        ),
      },
    ];
  });
  const limits: CarLimits = {
    parts: wanted.parts,
    ...(wanted.hours !== null && { hours: wanted.hours }),
    ...(wanted.cash !== null && { cash: wanted.cash }),
    ...(wanted.perCasting !== null && { perCasting: wanted.perCasting }),
  };
  const { gapLeft: _, ...chosen } = await chooseAside(
    { cars, limits },
    session.options.workers?.choose,
    signal,
  );
  const byId = new Map(subjects.map(subject => [subject.id, subject]));
  const range = seasonRange(
    fitted,
    chosen.taken.map(({ id, option }) => ({ subject: byId.get(id)!, option })),
  );
  return { ...chosen, range, against };
};
