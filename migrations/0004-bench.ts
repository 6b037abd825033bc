import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * What seasons and the bench remember: which cars of a season must be in it and which are kept out of it; what has been looked at before a car is
 * closed; when the call of a step that ran by itself was heard. And what lists need that are read again by other words.
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

  // Whose words filled which field, so that another answer reaches the rows that were read by it; from whom a car was bought.
  "ALTER TABLE car ADD COLUMN heard TEXT NOT NULL DEFAULT '[]'",
  "ALTER TABLE sale_record ADD COLUMN heard TEXT NOT NULL DEFAULT '[]'",
  "ALTER TABLE car ADD COLUMN seller TEXT NOT NULL DEFAULT ''",
  // What a lot cost was said of it as a whole, or is the sum of what is known of its cars.
  "ALTER TABLE lot ADD COLUMN price_from TEXT NOT NULL DEFAULT 'lot' CHECK (price_from IN ('lot', 'cars'))",
  `CREATE TABLE settled_variation (
    id INTEGER PRIMARY KEY, casting_id INTEGER NOT NULL REFERENCES casting(id) ON DELETE CASCADE,
    variation_id INTEGER NOT NULL REFERENCES variation(id) ON DELETE CASCADE, seen TEXT NOT NULL, settled_at TEXT NOT NULL,
    UNIQUE (casting_id, seen)
  ) STRICT`,
  'CREATE INDEX settled_variation_variation ON settled_variation(variation_id)',

  // What was paid for a lot, or for a car bought alone, that its owner leaves out of estimates, and why.
  ...['lot', 'car'].flatMap(table => [
    `ALTER TABLE ${table} ADD COLUMN purchase_left_out INTEGER NOT NULL DEFAULT 0 CHECK (purchase_left_out IN (0, 1))`,
    `ALTER TABLE ${table} ADD COLUMN purchase_left_out_why TEXT NOT NULL DEFAULT ''`,
  ]),
];

export const up: Migration['up'] = async db => {
  for (const statement of statements) await sql.raw(statement).execute(db);
};
