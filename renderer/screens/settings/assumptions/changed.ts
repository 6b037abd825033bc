/** How many single figures and words differ between two plain values of the same make. */
export const countChanges = (before: unknown, after: unknown): number => {
  if (Object.is(before, after)) return 0;
  if (typeof before !== 'object' || typeof after !== 'object' || before === null || after === null) return 1;
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
  let count = 0;
  for (const key of keys)
    count += countChanges(Reflect.get(before, key) as unknown, Reflect.get(after, key) as unknown);
  return count;
};
