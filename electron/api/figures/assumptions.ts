import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { latestAssumptions } from '../../../db/records/worth/assumptions.ts';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import type { AssumptionSet } from '../../../valuation/types.ts';
import { memo } from '../session/memo.ts';
import { assumptionsSchema, type SavedAssumptions } from './assumptions-schema.ts';
import { stepsInForce } from './steps.ts';

/**
 * The assumptions in force, with the row that keeps them; id and version are null and 0 for
 * the starting points.
 */
export interface AssumptionsInForce {
  id: number | null;
  version: number;
  note: string;
  madeAt: string | null;
  body: AssumptionSet;
  /** True where a stored version could not be read by this version and the starting points stand in. */
  unreadable: boolean;
}

/**
 * A saved set with what it leaves out. Who changed the standard plan before plans were made from cars goes on
 * with it; for others a plan is made from each car.
 */
const completed = (saved: SavedAssumptions, starting: AssumptionSet): AssumptionSet => {
  const same = JSON.stringify(saved.standardPlan) === JSON.stringify(starting.standardPlan);
  const work = saved.work ?? { ...starting.work, plansFrom: same ? 'car' : 'standard' };
  const packagingGain = saved.packagingGain ?? starting.packagingGain ?? 0;
  return { ...saved, packagingGain, work: { ...work, steps: starting.work.steps ?? [] } };
};

/** The owner's newest assumptions, or the project's starting points. */
export const assumptionsInForce = memo<AssumptionsInForce>(async ({ db, from }) => {
  const usual = defaultAssumptions(await readReportingCurrency(db));
  const starting = { ...usual, work: { ...usual.work, steps: (await from(stepsInForce)).steps } };
  const stored = await latestAssumptions(db);
  if (!stored) return { id: null, version: 0, note: '', madeAt: null, body: starting, unreadable: false };
  const { id, version, note, madeAt } = stored;
  const read = assumptionsSchema.safeParse(stored.body);
  return {
    id,
    version,
    note,
    madeAt,
    body: read.data ? completed(read.data, starting) : starting,
    unreadable: !read.success,
  };
});
