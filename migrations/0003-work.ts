import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';

const finishStates = "'original', 'touched up', 'restored', 'customised', 'stripped'";
const workKinds = "'conserve', 'restore', 'customise', 'donor'";
const originalities = "'original', 'period replacement', 'reproduction'";
/** Minutes as low, likely and high, in their order. */
const minutes = (name: string) =>
  `${name}_low INTEGER NOT NULL DEFAULT 0, ${name}_likely INTEGER NOT NULL DEFAULT 0, ${name}_high INTEGER NOT NULL DEFAULT 0`;

/**
 * The work on cars and its record: the owner's step libraries; the steps, closure and wishes of a plan; seasons; jobs with their steps,
 * times, materials, parts and photographs; what was done to a car and what it wears since; later events. Parts of a casting in their order with
 * what to look at; spare parts by part, origin and grade. And for paper and lists: saved views, report definitions, reports that were made, sets of
 * castings, and the lot with which a car was sold.
 */
const statements = [
  `CREATE TABLE step_library (
    id INTEGER PRIMARY KEY, version INTEGER NOT NULL UNIQUE, body TEXT NOT NULL, note TEXT NOT NULL DEFAULT '', made_at TEXT NOT NULL
  ) STRICT`,
  `CREATE TABLE plan_step (
    id INTEGER PRIMARY KEY, plan_id INTEGER NOT NULL REFERENCES restoration_plan(id) ON DELETE CASCADE,
    position INTEGER NOT NULL, step TEXT NOT NULL DEFAULT '', name TEXT NOT NULL, part TEXT NOT NULL DEFAULT '',
    ${minutes('hands')}, ${minutes('waiting')}, hazards TEXT NOT NULL DEFAULT '[]', why TEXT NOT NULL DEFAULT '{}',
    spoil_permille INTEGER NOT NULL DEFAULT 0, spoiled_share_permille INTEGER NOT NULL DEFAULT 1000,
    materials TEXT NOT NULL DEFAULT '[]', note TEXT NOT NULL DEFAULT ''
  ) STRICT`,
  'CREATE INDEX plan_step_plan ON plan_step(plan_id, position)',
  `ALTER TABLE restoration_plan ADD COLUMN closure TEXT CHECK (closure IN ('screw', 'rivet', 'glue', 'as made'))`,
  "ALTER TABLE restoration_plan ADD COLUMN wishes TEXT NOT NULL DEFAULT '{}'",
  'ALTER TABLE restoration_plan ADD COLUMN library_version INTEGER',
  `CREATE TABLE plan_template (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, kind TEXT NOT NULL CHECK (kind IN (${workKinds})),
    body TEXT NOT NULL, from_car_id INTEGER REFERENCES car(id) ON DELETE SET NULL, made_at TEXT NOT NULL
  ) STRICT`,

  `CREATE TABLE season (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, made_on TEXT NOT NULL, closed_on TEXT,
    current INTEGER NOT NULL DEFAULT 0 CHECK (current IN (0, 1)),
    minutes INTEGER CHECK (minutes >= 0), cash_minor INTEGER CHECK (cash_minor >= 0), currency TEXT NOT NULL,
    per_casting INTEGER CHECK (per_casting > 0), parts TEXT NOT NULL DEFAULT '{}',
    expected_minor INTEGER, expected_low_minor INTEGER, expected_high_minor INTEGER, notes TEXT NOT NULL DEFAULT ''
  ) STRICT`,
  'CREATE UNIQUE INDEX season_current ON season(current) WHERE current = 1',
  `CREATE TABLE season_car (
    id INTEGER PRIMARY KEY, season_id INTEGER NOT NULL REFERENCES season(id) ON DELETE CASCADE,
    car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE, position INTEGER NOT NULL,
    kind TEXT NOT NULL DEFAULT 'restore' CHECK (kind IN (${workKinds})),
    expected_minor INTEGER, cost_minor INTEGER, minutes INTEGER, found_minor INTEGER, after_minor INTEGER,
    colour TEXT NOT NULL DEFAULT '', UNIQUE (season_id, car_id)
  ) STRICT`,
  'CREATE INDEX season_car_car ON season_car(car_id)',

  `CREATE TABLE job (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE,
    season_id INTEGER REFERENCES season(id) ON DELETE SET NULL, kind TEXT NOT NULL CHECK (kind IN (${workKinds})),
    state TEXT NOT NULL DEFAULT 'waiting' CHECK (state IN ('waiting', 'open', 'paused', 'finished', 'given up')),
    position INTEGER NOT NULL DEFAULT 0, added_at TEXT NOT NULL, started_at TEXT, ended_at TEXT,
    reason TEXT NOT NULL DEFAULT '', plan TEXT NOT NULL DEFAULT '{}', who TEXT NOT NULL DEFAULT '', notes TEXT NOT NULL DEFAULT ''
  ) STRICT`,
  'CREATE INDEX job_car ON job(car_id)',
  "CREATE UNIQUE INDEX job_of_car ON job(car_id) WHERE state IN ('waiting', 'open', 'paused')",
  `CREATE TABLE job_step (
    id INTEGER PRIMARY KEY, job_id INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE, position INTEGER NOT NULL,
    step TEXT NOT NULL DEFAULT '', name TEXT NOT NULL, part TEXT NOT NULL DEFAULT '',
    state TEXT NOT NULL DEFAULT 'to do' CHECK (state IN ('to do', 'done', 'left out')),
    ${minutes('hands')}, ${minutes('waiting')}, hazards TEXT NOT NULL DEFAULT '[]', why TEXT NOT NULL DEFAULT '{}',
    waits_until TEXT, done_at TEXT, spoiled INTEGER NOT NULL DEFAULT 0 CHECK (spoiled IN (0, 1)), note TEXT NOT NULL DEFAULT ''
  ) STRICT`,
  'CREATE INDEX job_step_job ON job_step(job_id, position)',
  `CREATE TABLE job_time (
    id INTEGER PRIMARY KEY, step_id INTEGER NOT NULL REFERENCES job_step(id) ON DELETE CASCADE,
    started_at TEXT NOT NULL, ended_at TEXT, seconds INTEGER CHECK (seconds >= 0), shared_by INTEGER NOT NULL DEFAULT 1 CHECK (shared_by > 0)
  ) STRICT`,
  'CREATE INDEX job_time_step ON job_time(step_id)',
  `CREATE TABLE job_material (
    id INTEGER PRIMARY KEY, job_id INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE,
    step_id INTEGER REFERENCES job_step(id) ON DELETE SET NULL, used_on TEXT NOT NULL, name TEXT NOT NULL,
    minor INTEGER NOT NULL CHECK (minor >= 0), currency TEXT NOT NULL, expense_id INTEGER REFERENCES expense(id) ON DELETE SET NULL
  ) STRICT`,
  `CREATE TABLE job_part (
    id INTEGER PRIMARY KEY, job_id INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE,
    step_id INTEGER REFERENCES job_step(id) ON DELETE SET NULL, used_on TEXT NOT NULL, name TEXT NOT NULL,
    part TEXT NOT NULL DEFAULT '', originality TEXT NOT NULL CHECK (originality IN (${originalities})),
    part_id INTEGER REFERENCES part(id), donor_car_id INTEGER REFERENCES car(id) ON DELETE SET NULL,
    quantity INTEGER NOT NULL DEFAULT 1 CHECK (quantity > 0), minor INTEGER NOT NULL DEFAULT 0 CHECK (minor >= 0), currency TEXT NOT NULL,
    expense_id INTEGER REFERENCES expense(id) ON DELETE SET NULL
  ) STRICT`,
  'CREATE INDEX job_part_donor ON job_part(donor_car_id)',
  `CREATE TABLE job_photo (
    id INTEGER PRIMARY KEY, job_id INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE,
    step_id INTEGER REFERENCES job_step(id) ON DELETE SET NULL, photo_id INTEGER NOT NULL UNIQUE REFERENCES photo(id) ON DELETE CASCADE,
    moment TEXT NOT NULL DEFAULT 'during' CHECK (moment IN ('before', 'during', 'after'))
  ) STRICT`,

  `CREATE TABLE finished_work (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE,
    job_id INTEGER UNIQUE REFERENCES job(id) ON DELETE SET NULL, check_id INTEGER REFERENCES condition_check(id) ON DELETE SET NULL,
    finished_on TEXT NOT NULL, kind TEXT NOT NULL CHECK (kind IN (${workKinds})),
    finish_state TEXT NOT NULL CHECK (finish_state IN (${finishStates})),
    finish_before TEXT NOT NULL CHECK (finish_before IN (${finishStates})), grade_before_half INTEGER CHECK (grade_before_half BETWEEN 2 AND 20),
    colour TEXT NOT NULL DEFAULT '', body_finish TEXT NOT NULL DEFAULT '', base_paint TEXT NOT NULL DEFAULT '', roof TEXT NOT NULL DEFAULT '',
    closure TEXT NOT NULL DEFAULT '' CHECK (closure IN ('', 'screw', 'rivet', 'glue', 'as made', 'not opened')),
    bearings TEXT NOT NULL DEFAULT '', axles TEXT NOT NULL DEFAULT '',
    fidelity TEXT CHECK (fidelity IN ('to specification', 'with deviations', 'custom')), departures TEXT NOT NULL DEFAULT '[]',
    left_as_was TEXT NOT NULL DEFAULT '', minutes INTEGER CHECK (minutes >= 0), materials TEXT NOT NULL DEFAULT '', parts TEXT NOT NULL DEFAULT '',
    who TEXT NOT NULL DEFAULT '', mark TEXT NOT NULL DEFAULT '', notes TEXT NOT NULL DEFAULT ''
  ) STRICT`,
  'CREATE INDEX finished_work_car ON finished_work(car_id, finished_on)',
  `CREATE TABLE car_event (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE, happened_on TEXT NOT NULL,
    cause TEXT NOT NULL, note TEXT NOT NULL DEFAULT '', check_id INTEGER REFERENCES condition_check(id) ON DELETE SET NULL,
    before_half INTEGER CHECK (before_half BETWEEN 2 AND 20), after_half INTEGER CHECK (after_half BETWEEN 2 AND 20),
    worth_before_minor INTEGER, worth_after_minor INTEGER, currency TEXT
  ) STRICT`,
  'CREATE INDEX car_event_car ON car_event(car_id, happened_on)',

  // What a car wears now, apart from what its variation wore; empty where it wears what it was made in.
  "ALTER TABLE car ADD COLUMN worn_colour TEXT NOT NULL DEFAULT '' COLLATE NOCASE",
  "ALTER TABLE car ADD COLUMN worn_finish TEXT NOT NULL DEFAULT '' COLLATE NOCASE",
  "ALTER TABLE car ADD COLUMN restorer_mark TEXT NOT NULL DEFAULT ''",
  'ALTER TABLE casting_part ADD COLUMN position INTEGER NOT NULL DEFAULT 0',
  "ALTER TABLE casting_part ADD COLUMN look_at TEXT NOT NULL DEFAULT ''",
  "ALTER TABLE casting ADD COLUMN assembly TEXT NOT NULL DEFAULT ''",
  `ALTER TABLE casting ADD COLUMN bearings TEXT NOT NULL DEFAULT '' CHECK (bearings IN ('', 'open', 'captive'))`,
  "ALTER TABLE variation ADD COLUMN base_words TEXT NOT NULL DEFAULT ''",
  "ALTER TABLE variation ADD COLUMN wheel_sizes TEXT NOT NULL DEFAULT ''",
  "ALTER TABLE part ADD COLUMN part TEXT NOT NULL DEFAULT ''",
  `ALTER TABLE part ADD COLUMN originality TEXT NOT NULL DEFAULT '' CHECK (originality IN ('', ${originalities}))`,
  'ALTER TABLE part ADD COLUMN grade_half INTEGER CHECK (grade_half BETWEEN 2 AND 20)',
  'ALTER TABLE part ADD COLUMN casting_id INTEGER REFERENCES casting(id) ON DELETE SET NULL',
  'ALTER TABLE part ADD COLUMN donor_car_id INTEGER REFERENCES car(id) ON DELETE SET NULL',

  `CREATE TABLE saved_view (
    id INTEGER PRIMARY KEY, list TEXT NOT NULL, name TEXT NOT NULL COLLATE NOCASE, position INTEGER NOT NULL DEFAULT 0, body TEXT NOT NULL,
    made_at TEXT NOT NULL, UNIQUE (list, name)
  ) STRICT`,
  `CREATE TABLE report_definition (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, kind TEXT NOT NULL, body TEXT NOT NULL, made_at TEXT NOT NULL
  ) STRICT`,
  `CREATE TABLE report_kept (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL, kind TEXT NOT NULL, definition_id INTEGER REFERENCES report_definition(id) ON DELETE SET NULL,
    effective_on TEXT NOT NULL, made_at TEXT NOT NULL, total_minor INTEGER, currency TEXT, cars INTEGER, bytes INTEGER NOT NULL,
    sha256 TEXT NOT NULL, body TEXT NOT NULL DEFAULT '{}'
  ) STRICT`,
  `CREATE TABLE casting_set (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, notes TEXT NOT NULL DEFAULT '', made_at TEXT NOT NULL
  ) STRICT`,
  `CREATE TABLE casting_set_member (
    id INTEGER PRIMARY KEY, set_id INTEGER NOT NULL REFERENCES casting_set(id) ON DELETE CASCADE, position INTEGER NOT NULL DEFAULT 0,
    casting_id INTEGER REFERENCES casting(id) ON DELETE CASCADE, release_id INTEGER REFERENCES release(id) ON DELETE CASCADE,
    variation_id INTEGER REFERENCES variation(id) ON DELETE CASCADE,
    CHECK ((casting_id IS NOT NULL) + (release_id IS NOT NULL) + (variation_id IS NOT NULL) = 1),
    UNIQUE (set_id, casting_id, release_id, variation_id)
  ) STRICT`,
  'ALTER TABLE disposal ADD COLUMN lot_id INTEGER REFERENCES lot(id) ON DELETE SET NULL',
];

export const up: Migration['up'] = async db => {
  for (const statement of statements) await sql.raw(statement).execute(db);
};
