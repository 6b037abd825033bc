import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * What a season of all that can be done remembers: for how many cars there is room. And plans of care, to conserve a car or to use it for its
 * parts, which a car may have beside its plan of painting.
 */
const statements = [
  'ALTER TABLE season ADD COLUMN most_cars INTEGER CHECK (most_cars > 0)',
  `CREATE TABLE care_plan (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE,
    kind TEXT NOT NULL CHECK (kind IN ('conserve', 'donor')),
    minutes_low INTEGER NOT NULL, minutes_likely INTEGER NOT NULL, minutes_high INTEGER NOT NULL,
    low_minor INTEGER NOT NULL, likely_minor INTEGER NOT NULL, high_minor INTEGER NOT NULL,
    spoil_permille INTEGER NOT NULL DEFAULT 0, spoiled_share_permille INTEGER NOT NULL DEFAULT 1000,
    wishes TEXT NOT NULL DEFAULT '{}', library_version INTEGER NOT NULL, lines TEXT NOT NULL DEFAULT '[]', notes TEXT NOT NULL DEFAULT '',
    UNIQUE (car_id, kind)
  ) STRICT`,
];

export const up: Migration['up'] = async db => {
  for (const statement of statements) await sql.raw(statement).execute(db);
};
