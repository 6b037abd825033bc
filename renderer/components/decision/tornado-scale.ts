import type { TornadoBar } from '../../../valuation/index.ts';

/** Places a gain on the tornado's axis, 0 … 100: the axis holds every bar, no gain, and the gain as expected. */
export const tornadoScale = (bars: readonly TornadoBar[], expected: number): ((gain: number) => number) => {
  const gains = [0, expected, ...bars.flatMap(bar => [bar.low, bar.high])];
  const low = Math.min(...gains);
  const high = Math.max(...gains);
  const air = (high - low) * 0.03 || 1;
  return gain => (100 * (gain - low + air)) / (high - low + 2 * air);
};
