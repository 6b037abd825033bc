import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Which cars and sale records have texts that wait for their meaning, found without looking at all the others. */
const statements = [
  "CREATE INDEX car_waiting ON car(id) WHERE unread != '[]'",
  "CREATE INDEX sale_record_waiting ON sale_record(id) WHERE unread != '[]'",
];

export const up: Migration['up'] = async db => {
  for (const statement of statements) await sql.raw(statement).execute(db);
};
