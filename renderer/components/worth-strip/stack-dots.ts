/** Where a dot stands: its centre in pixels from the left, and its storey, 0 nearest the axis. */
export interface StackedDot<T> {
  dot: T;
  left: number;
  storey: number;
}

/**
 * Sets dots beneath an axis so that none covers another: each takes the lowest storey where it is free.
 * Positions are shares 0…1 of `width`; `size` is a dot's diameter with its air, in pixels.
 */
export const stackDots = <T extends { at: number }>(
  dots: readonly T[],
  width: number,
  size: number,
): StackedDot<T>[] => {
  const lastOfStorey: number[] = [];
  return [...dots]
    .sort((a, b) => a.at - b.at)
    .map(dot => {
      const left = dot.at * width;
      const free = lastOfStorey.findIndex(last => left - last >= size);
      const storey = free === -1 ? lastOfStorey.length : free;
      lastOfStorey[storey] = left;
      return { dot, left, storey };
    });
};
