import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * What seasons and the bench remember: which cars of a season must be in it and which are kept out of it; what has been looked at before a car is
 * closed; when the call of a step that ran by itself was heard.
 */
const statements = [
  "ALTER TABLE season_car ADD COLUMN standing TEXT NOT NULL DEFAULT 'in' CHECK (standing IN ('in', 'must'))",
  `CREATE TABLE season_excluded (
    id INTEGER PRIMARY KEY, season_id INTEGER NOT NULL REFERENCES season(id) ON DELETE CASCADE,
    car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE, UNIQUE (season_id, car_id)
  ) STRICT`,
  'CREATE INDEX season_excluded_car ON season_excluded(car_id)',
  "ALTER TABLE job ADD COLUMN looked_at TEXT NOT NULL DEFAULT '[]'",
  'ALTER TABLE job_step ADD COLUMN heard_at TEXT',
];

export const up: Migration['up'] = async db => {
  for (const statement of statements) await sql.raw(statement).execute(db);
};
