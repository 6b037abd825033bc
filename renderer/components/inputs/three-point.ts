import type { ThreePoint } from '../../../valuation/types.ts';

/** The figures of a three-point estimate, in their order. */
export const points = ['low', 'likely', 'high'] as const satisfies readonly (keyof ThreePoint)[];

/** Sets one figure; the others give way, so that low, likely and high still rise. */
export const withPoint = (
  { low, likely, high }: ThreePoint,
  point: keyof ThreePoint,
  value: number,
): ThreePoint => {
  switch (point) {
    case 'low':
      return { low: value, likely: Math.max(likely, value), high: Math.max(high, value) };
    case 'likely':
      return { low: Math.min(low, value), likely: value, high: Math.max(high, value) };
    case 'high':
      return { low: Math.min(low, value), likely: Math.min(likely, value), high: value };
  }
};
