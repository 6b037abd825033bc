import type { Minor, Worth } from '../types.ts';
import { worthOfLogs } from '../worth/car-worths.ts';
import type { ConsideredOption } from './decision-options.ts';
import { costWithMid } from './plan-cost.ts';
import { type Floors, type OptionScore, recommend, scoreOption } from './recommend-car.ts';

/** The same worth with another median, its spread in logs unchanged. */
export const worthWithMid = (worth: Worth, mid: number): Worth =>
  worthOfLogs({ ...worth, logMean: Math.log(mid) });

/** Amounts beyond this are not looked for. */
const ceiling = 2 ** 50;

/**
 * Least whole number from `from` at which `holds`, which must go on holding above it; null where it
 * does not by `most`.
 */
const leastThat = (holds: (x: number) => boolean, from: number, guess: number): number | null => {
  let low = from - 1;
  let high = Math.max(from, guess);
  for (let step = 1; !holds(high); step *= 2) {
    low = high;
    high += step;
    if (high > ceiling) return null;
  }
  for (let step = 1; low === from - 1 && high > from; step *= 2) {
    const probe = Math.max(from, high - step);
    if (holds(probe)) high = probe;
    else low = probe;
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
};

/**
 * Break-even of an option against all others: the least median worth after it, in whole minor units, at which
 * it is recommended, and the least median cost at which it no longer is, its other figures unchanged (a worth
 * keeps its spread in logs, a cost its shape). So it pays "only if it brings restoredWorth or more, or costs
 * under cost". Found by halving, since a higher worth or a lower cost never speaks against an option; exact
 * to the minor unit. `restoredWorth` is null where no worth would do. 0 where no cost is low enough.
 */
export const breakEven = (
  option: ConsideredOption,
  others: readonly OptionScore[],
  floors: Floors,
): { restoredWorth: Minor | null; cost: Minor | null } => {
  const chosen = (changed: ConsideredOption) =>
    recommend([...others, scoreOption(changed, floors)].sort(inOrder)).recommended.option === option.option;
  const restoredWorth = leastThat(
    mid => chosen({ ...option, after: worthWithMid(option.after, mid) }),
    1,
    option.after.mid,
  );
  const cost = leastThat(
    mid => !chosen({ ...option, cost: costWithMid(option.cost, mid) }),
    0,
    Math.round(option.cost.mid),
  );
  return { restoredWorth, cost };
};

const order = ['conserve', 'restore', 'customise', 'donor'];
const inOrder = (a: OptionScore, b: OptionScore) => order.indexOf(a.option) - order.indexOf(b.option);
