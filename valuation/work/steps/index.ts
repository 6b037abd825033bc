import { currencyDecimals } from '../../money.ts';
import type { Currency, ThreePoint, WorkStep } from '../../types.ts';
import { closingSteps } from './closing.ts';
import { finishSteps } from './finish.ts';
import { openingSteps } from './opening.ts';
import { partSteps } from './parts.ts';

/** Where the figures of the starting steps come from, shown wherever they are. */
export const startingStepsLabel =
  'Starting points of the project: common practice, no source. Edit them to your own experience.';

const inCents: readonly WorkStep[] = [...openingSteps, ...finishSteps, ...partSteps, ...closingSteps];

/**
 * The project's own starting steps, in the order of the work: common practice, no source. Meant to be edited.
 * Times are minutes, amounts whole minor units of `currency`; where a currency has no decimals, its units are
 * taken as cents are. Throws RangeError when `currency` is no ISO 4217 code.
 */
export const startingSteps = (currency: Currency): readonly WorkStep[] => {
  const scale = 10 ** Math.max(0, currencyDecimals(currency) - 2);
  if (scale === 1) return inCents;
  const scaled = ({ low, likely, high }: ThreePoint): ThreePoint => ({
    low: low * scale,
    likely: likely * scale,
    high: high * scale,
  });
  return inCents.map(step => ({
    ...step,
    materials: step.materials.map(({ name, kind, cost }) => ({ name, kind, cost: scaled(cost) })),
    buys: step.buys && { ...step.buys, cost: scaled(step.buys.cost) },
  }));
};
