import type { Database } from 'better-sqlite3';

/**
 * The tables in an order in which every row that another points at already exists, by the schema's own
 * foreign keys. Throws RangeError where tables point at each other in a ring.
 */
export const inOrderOfReference = <T extends string>(sqlite: Database, tables: readonly T[]): T[] => {
  const targets = sqlite.prepare<[string], { table: string }>(
    'SELECT "table" FROM pragma_foreign_key_list(?)',
  );
  const pointsAt = new Map(
    tables.map(table => [table, new Set(targets.all(table).map(one => one.table))] as const),
  );
  const ordered: T[] = [];
  while (ordered.length < tables.length) {
    const left = tables.filter(table => !ordered.includes(table));
    const next = left.filter(
      table => !left.some(other => other !== table && pointsAt.get(table)?.has(other)),
    );
    if (next.length === 0) throw new RangeError(`these tables point at each other: ${left.join(', ')}`);
    ordered.push(...next);
  }
  return ordered;
};
