import { readReportingCurrency } from '../../../db/records/settings.ts';
import { latestSteps } from '../../../db/records/step-library.ts';
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
