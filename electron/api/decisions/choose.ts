import type { z } from 'zod';
import { readSubjects } from '../../../db/engine/subjects.ts';
import type { CarRecord } from '../../../db/records/cars.ts';
import { type CarCandidate, type CarLimits, cashStep, recommendCar } from '../../../valuation/index.ts';
import { planOf, planUse } from '../figures/decision-summary.ts';
import { marketToday } from '../figures/market.ts';
import type { chooseCars } from '../inputs.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { Portfolio } from '../views.ts';
import { chooseAside } from './choose-aside.ts';

/**
 * Which of the cars to work on, each by its own plan or the standard one, within the hours, cash and parts
 * that there are. A car whose plan a guard stands against is left out unless it must be in.
 */
export const chooseFrom = async (
  session: Session,
  cars: CarRecord[],
  wanted: z.output<typeof chooseCars>,
  signal?: AbortSignal,
): Promise<Portfolio> => {
  const fitted = await marketToday(session);
  const subjects = await readSubjects(openOf(session).read.db, cars);
  const must = new Set(wanted.must);
  const mustNot = new Set(wanted.mustNot);
  const both = cars.find(car => must.has(car.id) && mustNot.has(car.id));
  if (both) throw refused(`${both.inventoryNumber} cannot be both chosen and left out.`);
  const unknown = subjects.find(subject => must.has(subject.id) && !recommendCar(fitted, subject).plan);
  if (unknown) {
    const number = cars.find(car => car.id === unknown.id)?.inventoryNumber ?? '';
    throw refused(`There is not enough evidence of what ${number} is worth, so it cannot be planned in.`);
  }
  const candidates: CarCandidate[] = subjects.flatMap(subject => {
    const { plan } = recommendCar(fitted, subject);
    if (!plan || (plan.guarded && !must.has(subject.id))) return [];
    return [
      {
        id: subject.id,
        gain: plan.expectedGain,
        castingId: subject.castingId,
        ...planUse(planOf(fitted, subject)),
        must: must.has(subject.id),
        mustNot: mustNot.has(subject.id),
      },
    ];
  });
  const limits: CarLimits = {
    parts: wanted.parts,
    ...(wanted.hours !== null && { hours: wanted.hours }),
    ...(wanted.cash !== null && { cash: wanted.cash }),
    ...(wanted.perCasting !== null && { perCasting: wanted.perCasting }),
  };
  const { chosen, gain, used, worthOfOneMore } = await chooseAside(
    { candidates, limits, cashUnit: cashStep(fitted.reportingCurrency) },
    session.options.workers?.choose,
    signal,
  );
  const round = (value: number | null) => (value === null ? null : Math.round(value));
  return {
    chosen,
    gain,
    used,
    worthOfOneMore: {
      hours: round(worthOfOneMore.hours),
      cash: round(worthOfOneMore.cash),
      parts: Object.fromEntries(
        Object.entries(worthOfOneMore.parts).map(([part, value]) => [part, Math.round(value)]),
      ),
    },
  };
};
