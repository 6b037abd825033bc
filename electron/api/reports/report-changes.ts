import { z } from 'zod';
import { listCars } from '../../../db/records/cars/cars.ts';
import { keptBefore } from '../../../db/records/collection/report-definitions.ts';
import { changesBetween } from '../../../reports/model/changes.ts';
import type { ReportChanges, SaidOfCar, WhyGone } from '../../../reports/types.ts';
import { carStatuses, finishStates } from '../../../valuation/words.ts';
import type { makeReport } from '../inputs.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

type ReportWanted = z.output<typeof makeReport>;

/** What makes two reports comparable: the same cars were asked for, told in the same way. */
const scopeOf = ({ lotId, carIds, includeSold, withoutValues, basis }: ReportWanted): string =>
  JSON.stringify([lotId ?? null, carIds ?? null, includeSold, withoutValues || basis]);

const body = z.object({
  cars: z.array(
    z.tuple([
      z.int(),
      z.string(),
      z.string(),
      z.number().nullable(),
      z.enum(finishStates),
      z.enum(carStatuses),
      z.number().nullable(),
    ]),
  ),
});

/** What a report says of its cars, as it is noted where the report is saved. */
export const saidBody = (wanted: ReportWanted, said: readonly SaidOfCar[]): string =>
  JSON.stringify({
    scope: scopeOf(wanted),
    cars: said.map(({ id, number, name, grade, finishState, status, value }) => [
      id,
      number,
      name,
      grade,
      finishState,
      status,
      value,
    ]),
  });

const saidBefore = (written: string): SaidOfCar[] =>
  body.parse(JSON.parse(written)).cars.map(([id, number, name, grade, finishState, status, value]) => ({
    id,
    number,
    name,
    grade: grade as SaidOfCar['grade'],
    finishState,
    status,
    value,
  }));

/** What is otherwise than in the newest report of the same cars that was saved for an earlier day. */
export const changesOf = async (
  session: Session,
  wanted: ReportWanted,
  { on, currency, said }: { on: string; currency: string; said: readonly SaidOfCar[] },
): Promise<ReportChanges> => {
  const { db } = openOf(session).read;
  const kept = await keptBefore(db, { scope: scopeOf(wanted), on });
  if (!kept) return { since: null, added: [], gone: [], changed: [], slightly: 0 };
  const earlier = saidBefore(kept.body);
  const here = new Set(said.map(car => car.id));
  const ids = earlier.map(car => car.id).filter(id => !here.has(id));
  const statusOf = new Map((await listCars(db, { ids })).map(car => [car.id, car.status]));
  const whyGone = ({ id }: SaidOfCar): WhyGone => {
    const status = statusOf.get(id);
    return status === undefined ? 'removed' : status === 'sold' ? 'sold' : 'not among these cars';
  };
  const withValues = !wanted.withoutValues && kept.currency === currency;
  return {
    since: {
      name: kept.name,
      on: kept.effectiveOn,
      total: kept.total,
      currency: kept.currency,
      cars: earlier.length,
    },
    ...changesBetween(earlier, said, { withValues, whyGone }),
  };
};
