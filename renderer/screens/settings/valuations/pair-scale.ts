import type { DiagnosticsView } from '../../../../electron/api/views.ts';

export type PastPair = DiagnosticsView['pairs'][number];

/** Places an amount on a log axis that holds every pair, as a share of its length. */
export const pairScale = (pairs: readonly PastPair[]): ((minor: number) => number) => {
  const amounts = pairs.flatMap(({ low, high, realised }) => [low, high, realised]).filter(n => n > 0);
  const low = Math.log(Math.min(...amounts)) - 0.1;
  const high = Math.log(Math.max(...amounts)) + 0.1;
  return minor => Math.min(1, Math.max(0, (Math.log(Math.max(1, minor)) - low) / (high - low)));
};

export const isInside = ({ low, high, realised }: PastPair): boolean => realised >= low && realised <= high;

/** "+12 %", "−3 %", "±0 %". */
export const signedPercent = (share: number): string => {
  const percent = Math.round(share * 100);
  if (percent === 0) return '±0 %';
  return `${percent > 0 ? '+' : '−'}${Math.abs(percent)} %`;
};
