import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';

/** On what terms a lot that was seen is bid for, so that they are there when it is bought. */
const statements = [
  "ALTER TABLE lot ADD COLUMN bid TEXT NOT NULL DEFAULT '' CHECK (bid = '' OR json_valid(bid))",
];

export const up: Migration['up'] = async db => {
  for (const statement of statements) await sql.raw(statement).execute(db);
};
