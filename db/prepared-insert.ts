import type { Database, Statement } from 'better-sqlite3';
import type { Schema } from './schema.ts';

/**
 * A statement that inserts rows of one table, prepared for the columns of the first and used for all: for
 * thousands of rows inside an action. The rows come from the table's own mapper, so that they all have the
 * same columns. Returns the new id.
 */
export const preparedInsert = (
  sqlite: Database,
  table: keyof Schema,
): ((row: Record<string, string | number | null>) => number) => {
  let columns: string[] = [];
  let insert: Statement | null = null;
  /** The values of one row, filled again for each. */
  let values: (string | number | null | undefined)[] = [];
  return row => {
    if (!insert) {
      columns = Object.keys(row);
      values = columns.map(() => null);
      insert = sqlite.prepare(
        `INSERT INTO "${table}" (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`,
      );
    }
    for (let i = 0; i < columns.length; i++) values[i] = row[columns[i] as string];
    return Number(insert.run(values).lastInsertRowid);
  };
};
