import type { Decision, Guard, Reason, TornadoBar } from '../../../valuation/index.ts';
import type { Option } from '../../../valuation/words.ts';

/**
 * What stands against an option, overruled before or not: choosing it all the same needs a reason each time.
 */
export const guardsAgainst = (decision: Pick<Decision, 'options'>, option: Option): Guard[] =>
  decision.options.find(result => result.option === option)?.guards ?? [];

/** The guards of all options, each once. */
export const guardsOf = (decision: Pick<Decision, 'options'>): Guard[] => {
  const all = decision.options.flatMap(option => option.guards);
  return all.filter((guard, place) => all.findIndex(other => other.kind === guard.kind) === place);
};

/**
 * The reason that names the price and the cost at which the recommendation turns; undefined where no
 * plan is weighed.
 */
export const breakEvenReason = ({ reasons }: Pick<Decision, 'reasons'>): Reason | undefined =>
  reasons.find(({ kind }) => kind === 'break-even');

/** The reasons without those that are shown apart: the break-even and the guards. */
export const otherReasons = ({ reasons }: Pick<Decision, 'reasons'>): Reason[] =>
  reasons.filter(({ kind }) => kind !== 'break-even' && kind !== 'guard');

/**
 * Places a gain on the tornado's axis, 0 … 100: the axis holds every bar, no gain, and the gain as expected.
 */
export const tornadoScale = (bars: readonly TornadoBar[], expected: number): ((gain: number) => number) => {
  const gains = [0, expected, ...bars.flatMap(bar => [bar.low, bar.high])];
  const low = Math.min(...gains);
  const high = Math.max(...gains);
  const air = (high - low) * 0.03 || 1;
  return gain => (100 * (gain - low + air)) / (high - low + 2 * air);
};
