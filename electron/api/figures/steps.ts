import type { Kysely } from 'kysely';
import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { latestSteps, listSteps } from '../../../db/records/plans/step-library.ts';
import type { Schema } from '../../../db/schema.ts';
import type { WorkStep } from '../../../valuation/types.ts';
import { startingSteps, startingStepsLabel } from '../../../valuation/work/steps/index.ts';
import { workSteps } from '../inputs.ts';
import { memo } from '../session/memo.ts';
import type { StepsView } from '../views.ts';

/**
 * The owner's newest steps, or the project's starting steps, also where a stored version cannot be read by
 * this version of the program.
 */
export const stepsInForce = memo<StepsView>(async ({ db }) => {
  const stored = await latestSteps(db);
  const read = stored && workSteps.safeParse(stored.body);
  if (stored && read?.success)
    return {
      version: stored.version,
      label: 'Your own steps.',
      note: stored.note,
      madeAt: stored.madeAt,
      steps: read.data as WorkStep[],
    };
  return {
    version: 0,
    label: startingStepsLabel,
    note: stored ? `Version ${stored.version} cannot be read by this version of Playworn.` : '',
    madeAt: null,
    steps: startingSteps(await readReportingCurrency(db)),
  };
});

/** The steps of a version (0: the starting steps), or undefined where it is not there or cannot be read. */
export const stepsOfVersion = async (
  db: Kysely<Schema>,
  version: number,
): Promise<readonly WorkStep[] | undefined> => {
  if (version === 0) return startingSteps(await readReportingCurrency(db));
  const stored = (await listSteps(db)).find(one => one.version === version);
  const read = stored && workSteps.safeParse(stored.body);
  return read?.success ? (read.data as WorkStep[]) : undefined;
};
