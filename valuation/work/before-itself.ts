/** The first of the steps that would come before itself, by what has to come before what; undefined where none would. */
export const beforeItself = <Step extends { id: string; after: readonly string[] }>(
  steps: readonly Step[],
): Step | undefined => {
  const places = new Map(steps.map(step => [step.id, step.after]));
  return steps.find(({ id }) => {
    const seen = new Set<string>();
    const before = [...(places.get(id) ?? [])];
    for (let next = before.pop(); next !== undefined; next = before.pop()) {
      if (next === id) return true;
      if (seen.has(next)) continue;
      seen.add(next);
      before.push(...(places.get(next) ?? []));
    }
    return false;
  });
};
