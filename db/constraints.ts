/**
 * What may be in a collection only once, by the column that the database names first where it is there twice.
 */
const uniqueColumns = {
  'inventory-number': 'car.inventory_number',
  'lot-name': 'lot.name',
  'casting-name': 'casting.series_id',
  'variation-features': 'variation.release_id',
  'release-name': 'release.casting_id',
  'part-name': 'part.name',
  'disposal-of-car': 'disposal.car_id',
} as const;

export type UniqueThing = keyof typeof uniqueColumns;

/** Which rule of the tables a row broke. */
export type BrokenRule =
  /** There is one like it; `thing` is null where the database names a column that no owner enters. */
  | { kind: 'not-unique'; thing: UniqueThing | null }
  /** Something else refers to it, or what it refers to is gone. */
  | { kind: 'reference' }
  /** A value that the column does not take. */
  | { kind: 'value' };

const things = Object.entries(uniqueColumns) as [UniqueThing, string][];

/** Which rule of the tables an error tells of; undefined where the error is another. */
export const brokenRule = (error: Error): BrokenRule | undefined => {
  const code = 'code' in error ? String(error.code) : '';
  if (code === 'SQLITE_CONSTRAINT_UNIQUE') {
    // SQLite lists the columns: "UNIQUE constraint failed: release.casting_id, release.name, …".
    const [first] = error.message.replace(/^.*: /, '').split(', ');
    return { kind: 'not-unique', thing: things.find(([, column]) => column === first)?.[0] ?? null };
  }
  if (code === 'SQLITE_CONSTRAINT_FOREIGNKEY') return { kind: 'reference' };
  return code.startsWith('SQLITE_CONSTRAINT') ? { kind: 'value' } : undefined;
};
