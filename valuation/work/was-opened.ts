/** Steps after which a car is open: its posts were drilled or ground, or an earlier repair was undone. */
const opening: ReadonlySet<string> = new Set(['drill-posts', 'grind-posts', 'undo-closure']);

/** True where a car was opened, by the ids of the steps that are done. */
export const wasOpened = (done: readonly string[]): boolean => done.some(step => opening.has(step));
