import type { AssumptionSet, Currency } from '../../../../valuation/types.ts';

/** What a part of the assumptions needs: the draft as it stands, and a way to change some of it. */
export interface PartOfDraft {
  draft: AssumptionSet;
  set: (change: Partial<AssumptionSet>) => void;
  currency: Currency;
}

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

/**
 * A changed grade carries along those above or below that it passes, so that a better grade is
 * never worth less.
 */
export const withGrade = (multipliers: readonly number[], grade: number, value: number): number[] =>
  multipliers.map((before, index) => {
    if (index === grade - 1) return value;
    return index < grade - 1 ? Math.min(before, value) : Math.max(before, value);
  });
