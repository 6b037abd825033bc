import { expect } from 'vitest';

/** Expects each figure to agree with the published one to the relative tolerance. */
export const expectRelative = (
  actual: number | readonly number[],
  published: number | readonly number[],
  tolerance: number,
): void => {
  const [left, right] = [[actual].flat(), [published].flat()];
  expect(left).toHaveLength(right.length);
  left.forEach((figure, i) => {
    const miss = Math.abs(figure / right[i]! - 1);
    expect(miss, `${figure} against the published ${right[i]}`).toBeLessThanOrEqual(tolerance);
  });
};
