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
  return row => {
    if (!insert) {
      columns = Object.keys(row);
      insert = sqlite.prepare(
        `INSERT INTO "${table}" (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`,
      );
    }
    return Number(insert.run(columns.map(column => row[column])).lastInsertRowid);
  };
};
