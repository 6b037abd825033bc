/** A changed grade carries along those above or below that it passes, so that a better grade is never worth less. */
export const withGrade = (multipliers: readonly number[], grade: number, value: number): number[] =>
  multipliers.map((before, index) => {
    if (index === grade - 1) return value;
    return index < grade - 1 ? Math.min(before, value) : Math.max(before, value);
  });
