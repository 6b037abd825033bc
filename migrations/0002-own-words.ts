import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * What an owner's texts mean, once asked; names that wait for the reference and what was settled of them; what the owner believes
 * that cars bring; texts that were not understood, saved beside the car or the sale that they belong to as a JSON array of
 * {column, text}; and the day on which a single car was bought.
 */
const statements = [
  `CREATE TABLE word (
    id INTEGER PRIMARY KEY, column_name TEXT NOT NULL DEFAULT '*' COLLATE NOCASE, text TEXT NOT NULL COLLATE NOCASE,
    field TEXT NOT NULL, meaning TEXT NOT NULL DEFAULT '', added_at TEXT NOT NULL, UNIQUE (column_name, text, field)
  ) STRICT`,
  `CREATE TABLE settled_name (
    id INTEGER PRIMARY KEY, text TEXT NOT NULL UNIQUE COLLATE NOCASE,
    means TEXT NOT NULL CHECK (means IN ('casting', 'release', 'not a car')),
    casting_id INTEGER REFERENCES casting(id) ON DELETE CASCADE, release_id INTEGER REFERENCES release(id) ON DELETE CASCADE,
    settled_at TEXT NOT NULL
  ) STRICT`,
  `CREATE TABLE parted_names (
    id INTEGER PRIMARY KEY, one TEXT NOT NULL COLLATE NOCASE, other TEXT NOT NULL COLLATE NOCASE, UNIQUE (one, other)
  ) STRICT`,
  `CREATE TABLE belief (
    id INTEGER PRIMARY KEY, series_id INTEGER REFERENCES series(id) ON DELETE CASCADE,
    casting_id INTEGER REFERENCES casting(id) ON DELETE CASCADE, variation_id INTEGER REFERENCES variation(id) ON DELETE CASCADE,
    grade_half INTEGER NOT NULL CHECK (grade_half BETWEEN 2 AND 20),
    finish_state TEXT NOT NULL DEFAULT 'original'
      CHECK (finish_state IN ('original', 'touched up', 'restored', 'customised', 'stripped')),
    low_minor INTEGER NOT NULL CHECK (low_minor > 0), high_minor INTEGER NOT NULL CHECK (high_minor >= low_minor),
    currency TEXT NOT NULL, believed_on TEXT NOT NULL, note TEXT NOT NULL DEFAULT '',
    CHECK ((series_id IS NOT NULL) + (casting_id IS NOT NULL) + (variation_id IS NOT NULL) = 1)
  ) STRICT`,
  'ALTER TABLE car ADD COLUMN bought_on TEXT',
  "ALTER TABLE car ADD COLUMN unread TEXT NOT NULL DEFAULT '[]'",
  "ALTER TABLE sale_record ADD COLUMN unread TEXT NOT NULL DEFAULT '[]'",
];

export const up: Migration['up'] = async db => {
  for (const statement of statements) await sql.raw(statement).execute(db);
};
