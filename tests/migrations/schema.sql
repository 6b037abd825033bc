CREATE INDEX car_casting ON car(casting_id);

CREATE INDEX car_event_car ON car_event(car_id, happened_on);

CREATE INDEX car_lot ON car(lot_id);

CREATE INDEX car_variation ON car(variation_id);

CREATE INDEX car_waiting ON car(id) WHERE unread != '[]';

CREATE INDEX change_row_change ON change_row(change_id);

CREATE INDEX change_row_row ON change_row(table_name, row_id);

CREATE INDEX condition_check_car ON condition_check(car_id, checked_on);

CREATE INDEX finished_work_car ON finished_work(car_id, finished_on);

CREATE INDEX job_car ON job(car_id);

CREATE UNIQUE INDEX job_of_car ON job(car_id) WHERE state IN ('waiting', 'open', 'paused');

CREATE INDEX job_part_donor ON job_part(donor_car_id);

CREATE INDEX job_step_job ON job_step(job_id, position);

CREATE INDEX job_time_step ON job_time(step_id);

CREATE INDEX photo_car ON photo(car_id, position);

CREATE INDEX photo_sha256 ON photo(sha256);

CREATE INDEX plan_step_plan ON plan_step(plan_id, position);

CREATE INDEX sale_record_casting ON sale_record(casting_id, sold_on);

CREATE INDEX sale_record_variation ON sale_record(variation_id, sold_on);

CREATE INDEX sale_record_waiting ON sale_record(id) WHERE unread != '[]';

CREATE INDEX season_car_car ON season_car(car_id);

CREATE UNIQUE INDEX season_current ON season(current) WHERE current = 1;

CREATE INDEX season_excluded_car ON season_excluded(car_id);

CREATE INDEX settled_variation_variation ON settled_variation(variation_id);

CREATE INDEX valuation_effective ON valuation(effective_on);

CREATE TABLE assumption_set (
    id INTEGER PRIMARY KEY, version INTEGER NOT NULL UNIQUE, body TEXT NOT NULL, note TEXT NOT NULL DEFAULT '',
    made_at TEXT NOT NULL
  ) STRICT;

CREATE TABLE belief (
    id INTEGER PRIMARY KEY, series_id INTEGER REFERENCES series(id) ON DELETE CASCADE,
    casting_id INTEGER REFERENCES casting(id) ON DELETE CASCADE, variation_id INTEGER REFERENCES variation(id) ON DELETE CASCADE,
    grade_half INTEGER NOT NULL CHECK (grade_half BETWEEN 2 AND 20),
    finish_state TEXT NOT NULL DEFAULT 'original'
      CHECK (finish_state IN ('original', 'touched up', 'restored', 'customised', 'stripped')),
    low_minor INTEGER NOT NULL CHECK (low_minor > 0), high_minor INTEGER NOT NULL CHECK (high_minor >= low_minor),
    currency TEXT NOT NULL, believed_on TEXT NOT NULL, note TEXT NOT NULL DEFAULT '',
    CHECK ((series_id IS NOT NULL) + (casting_id IS NOT NULL) + (variation_id IS NOT NULL) = 1)
  ) STRICT;

CREATE TABLE car (
    id INTEGER PRIMARY KEY, inventory_number TEXT NOT NULL UNIQUE COLLATE NOCASE,
    lot_id INTEGER REFERENCES lot(id), casting_id INTEGER REFERENCES casting(id), release_id INTEGER REFERENCES release(id),
    variation_id INTEGER REFERENCES variation(id),
    as_written TEXT NOT NULL DEFAULT '{}',
    grade_half INTEGER CHECK (grade_half BETWEEN 2 AND 20),
    finish_state TEXT NOT NULL DEFAULT 'original'
      CHECK (finish_state IN ('original', 'touched up', 'restored', 'customised', 'stripped')),
    status TEXT NOT NULL DEFAULT 'kept' CHECK (status IN ('kept', 'on the bench', 'donor', 'sold')),
    location TEXT NOT NULL DEFAULT '', notes TEXT NOT NULL DEFAULT '',
    cost_minor INTEGER CHECK (cost_minor >= 0), cost_fixed INTEGER NOT NULL DEFAULT 0 CHECK (cost_fixed IN (0, 1)),
    own_low_minor INTEGER, own_mid_minor INTEGER, own_high_minor INTEGER,
    created_at TEXT NOT NULL, updated_at TEXT NOT NULL
  , bought_on TEXT, unread TEXT NOT NULL DEFAULT '[]', worn_colour TEXT NOT NULL DEFAULT '' COLLATE NOCASE, worn_finish TEXT NOT NULL DEFAULT '' COLLATE NOCASE, restorer_mark TEXT NOT NULL DEFAULT '', heard TEXT NOT NULL DEFAULT '[]', seller TEXT NOT NULL DEFAULT '', purchase_left_out INTEGER NOT NULL DEFAULT 0 CHECK (purchase_left_out IN (0, 1)), purchase_left_out_why TEXT NOT NULL DEFAULT '') STRICT;

CREATE TABLE car_candidate (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE,
    variation_id INTEGER NOT NULL REFERENCES variation(id) ON DELETE CASCADE, UNIQUE (car_id, variation_id)
  ) STRICT;

CREATE TABLE car_event (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE, happened_on TEXT NOT NULL,
    cause TEXT NOT NULL, note TEXT NOT NULL DEFAULT '', check_id INTEGER REFERENCES condition_check(id) ON DELETE SET NULL,
    before_half INTEGER CHECK (before_half BETWEEN 2 AND 20), after_half INTEGER CHECK (after_half BETWEEN 2 AND 20),
    worth_before_minor INTEGER, worth_after_minor INTEGER, currency TEXT
  ) STRICT;

CREATE VIRTUAL TABLE car_search USING fts5(
    number, casting, release, variation, lot, location, notes, written, content='', contentless_delete=1, prefix='1 2 3', tokenize="unicode61 remove_diacritics 2"
  );

CREATE TABLE 'car_search_config'(k PRIMARY KEY, v) WITHOUT ROWID;

CREATE TABLE 'car_search_data'(id INTEGER PRIMARY KEY, block BLOB);

CREATE TABLE 'car_search_docsize'(id INTEGER PRIMARY KEY, sz BLOB, origin INTEGER);

CREATE TABLE 'car_search_idx'(segid, term, pgno, PRIMARY KEY(segid, term)) WITHOUT ROWID;

CREATE TABLE care_plan (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE,
    kind TEXT NOT NULL CHECK (kind IN ('conserve', 'donor')),
    minutes_low INTEGER NOT NULL, minutes_likely INTEGER NOT NULL, minutes_high INTEGER NOT NULL,
    low_minor INTEGER NOT NULL, likely_minor INTEGER NOT NULL, high_minor INTEGER NOT NULL,
    spoil_permille INTEGER NOT NULL DEFAULT 0, spoiled_share_permille INTEGER NOT NULL DEFAULT 1000,
    wishes TEXT NOT NULL DEFAULT '{}', library_version INTEGER NOT NULL, lines TEXT NOT NULL DEFAULT '[]', notes TEXT NOT NULL DEFAULT '',
    UNIQUE (car_id, kind)
  ) STRICT;

CREATE TABLE casting (
    id INTEGER PRIMARY KEY, series_id INTEGER NOT NULL REFERENCES series(id), name TEXT NOT NULL COLLATE NOCASE,
    body_type TEXT NOT NULL DEFAULT 'saloon', first_year INTEGER, length_mm REAL, materials TEXT NOT NULL DEFAULT '',
    markings TEXT NOT NULL DEFAULT '', notes TEXT NOT NULL DEFAULT '', assembly TEXT NOT NULL DEFAULT '', bearings TEXT NOT NULL DEFAULT '' CHECK (bearings IN ('', 'open', 'captive')), UNIQUE (series_id, name)
  ) STRICT;

CREATE TABLE casting_feature (
    id INTEGER PRIMARY KEY, casting_id INTEGER NOT NULL REFERENCES casting(id) ON DELETE CASCADE, feature TEXT NOT NULL,
    value TEXT NOT NULL COLLATE NOCASE, UNIQUE (casting_id, feature, value)
  ) STRICT;

CREATE TABLE casting_part (
    id INTEGER PRIMARY KEY, casting_id INTEGER NOT NULL REFERENCES casting(id) ON DELETE CASCADE, part TEXT NOT NULL,
    detail TEXT NOT NULL DEFAULT '', position INTEGER NOT NULL DEFAULT 0, look_at TEXT NOT NULL DEFAULT '', UNIQUE (casting_id, part)
  ) STRICT;

CREATE VIRTUAL TABLE casting_search USING fts5(
    name, releases, range, notes, content='', contentless_delete=1, prefix='1 2 3', tokenize="unicode61 remove_diacritics 2"
  );

CREATE TABLE 'casting_search_config'(k PRIMARY KEY, v) WITHOUT ROWID;

CREATE TABLE 'casting_search_data'(id INTEGER PRIMARY KEY, block BLOB);

CREATE TABLE 'casting_search_docsize'(id INTEGER PRIMARY KEY, sz BLOB, origin INTEGER);

CREATE TABLE 'casting_search_idx'(segid, term, pgno, PRIMARY KEY(segid, term)) WITHOUT ROWID;

CREATE TABLE casting_set (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, notes TEXT NOT NULL DEFAULT '', made_at TEXT NOT NULL
  ) STRICT;

CREATE TABLE casting_set_member (
    id INTEGER PRIMARY KEY, set_id INTEGER NOT NULL REFERENCES casting_set(id) ON DELETE CASCADE, position INTEGER NOT NULL DEFAULT 0,
    casting_id INTEGER REFERENCES casting(id) ON DELETE CASCADE, release_id INTEGER REFERENCES release(id) ON DELETE CASCADE,
    variation_id INTEGER REFERENCES variation(id) ON DELETE CASCADE,
    CHECK ((casting_id IS NOT NULL) + (release_id IS NOT NULL) + (variation_id IS NOT NULL) = 1),
    UNIQUE (set_id, casting_id, release_id, variation_id)
  ) STRICT;

CREATE TABLE change (
    id INTEGER PRIMARY KEY, label TEXT NOT NULL, made_at TEXT NOT NULL, undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1))
  ) STRICT;

CREATE TABLE change_row (
    id INTEGER PRIMARY KEY, change_id INTEGER NOT NULL REFERENCES change(id) ON DELETE CASCADE, table_name TEXT NOT NULL,
    row_id INTEGER NOT NULL, last_row_id INTEGER, before TEXT, after TEXT
  ) STRICT;

CREATE TABLE colour (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE,
    swatch TEXT NOT NULL CHECK (swatch GLOB '#[0-9a-f][0-9a-f][0-9a-f][0-9a-f][0-9a-f][0-9a-f]')
  ) STRICT;

CREATE TABLE condition_check (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE, checked_on TEXT NOT NULL,
    grade_half INTEGER CHECK (grade_half BETWEEN 2 AND 20), notes TEXT NOT NULL DEFAULT ''
  ) STRICT;

CREATE TABLE decision (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL UNIQUE REFERENCES car(id) ON DELETE CASCADE, decided_on TEXT NOT NULL,
    choice TEXT NOT NULL CHECK (choice IN ('leave', 'conserve', 'restore', 'customise', 'donor')),
    recommended TEXT NOT NULL, overruled TEXT NOT NULL DEFAULT '[]', reason TEXT NOT NULL DEFAULT ''
  ) STRICT;

CREATE TABLE disposal (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL UNIQUE REFERENCES car(id) ON DELETE CASCADE, sold_on TEXT NOT NULL,
    proceeds_minor INTEGER NOT NULL, fees_minor INTEGER NOT NULL DEFAULT 0, currency TEXT NOT NULL,
    buyer TEXT NOT NULL DEFAULT '', venue TEXT NOT NULL DEFAULT '', notes TEXT NOT NULL DEFAULT ''
  , lot_id INTEGER REFERENCES lot(id) ON DELETE SET NULL) STRICT;

CREATE TABLE exchange_rate (
    id INTEGER PRIMARY KEY, currency TEXT NOT NULL, on_date TEXT NOT NULL, rate_e9 INTEGER NOT NULL CHECK (rate_e9 > 0),
    UNIQUE (currency, on_date)
  ) STRICT;

CREATE TABLE expense (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE, spent_on TEXT NOT NULL,
    what TEXT NOT NULL, minor INTEGER NOT NULL, currency TEXT NOT NULL
  ) STRICT;

CREATE TABLE finished_work (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE,
    job_id INTEGER UNIQUE REFERENCES job(id) ON DELETE SET NULL, check_id INTEGER REFERENCES condition_check(id) ON DELETE SET NULL,
    finished_on TEXT NOT NULL, kind TEXT NOT NULL CHECK (kind IN ('conserve', 'restore', 'customise', 'donor')),
    finish_state TEXT NOT NULL CHECK (finish_state IN ('original', 'touched up', 'restored', 'customised', 'stripped')),
    finish_before TEXT NOT NULL CHECK (finish_before IN ('original', 'touched up', 'restored', 'customised', 'stripped')), grade_before_half INTEGER CHECK (grade_before_half BETWEEN 2 AND 20),
    colour TEXT NOT NULL DEFAULT '', body_finish TEXT NOT NULL DEFAULT '', base_paint TEXT NOT NULL DEFAULT '', roof TEXT NOT NULL DEFAULT '',
    closure TEXT NOT NULL DEFAULT '' CHECK (closure IN ('', 'screw', 'rivet', 'glue', 'as made', 'not opened')),
    bearings TEXT NOT NULL DEFAULT '', axles TEXT NOT NULL DEFAULT '',
    fidelity TEXT CHECK (fidelity IN ('to specification', 'with deviations', 'custom')), departures TEXT NOT NULL DEFAULT '[]',
    left_as_was TEXT NOT NULL DEFAULT '', minutes INTEGER CHECK (minutes >= 0), materials TEXT NOT NULL DEFAULT '', parts TEXT NOT NULL DEFAULT '',
    who TEXT NOT NULL DEFAULT '', mark TEXT NOT NULL DEFAULT '', notes TEXT NOT NULL DEFAULT ''
  ) STRICT;

CREATE TABLE job (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE,
    season_id INTEGER REFERENCES season(id) ON DELETE SET NULL, kind TEXT NOT NULL CHECK (kind IN ('conserve', 'restore', 'customise', 'donor')),
    state TEXT NOT NULL DEFAULT 'waiting' CHECK (state IN ('waiting', 'open', 'paused', 'finished', 'given up')),
    position INTEGER NOT NULL DEFAULT 0, added_at TEXT NOT NULL, started_at TEXT, ended_at TEXT,
    reason TEXT NOT NULL DEFAULT '', plan TEXT NOT NULL DEFAULT '{}', who TEXT NOT NULL DEFAULT '', notes TEXT NOT NULL DEFAULT ''
  , looked_at TEXT NOT NULL DEFAULT '[]') STRICT;

CREATE TABLE job_material (
    id INTEGER PRIMARY KEY, job_id INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE,
    step_id INTEGER REFERENCES job_step(id) ON DELETE SET NULL, used_on TEXT NOT NULL, name TEXT NOT NULL,
    minor INTEGER NOT NULL CHECK (minor >= 0), currency TEXT NOT NULL, expense_id INTEGER REFERENCES expense(id) ON DELETE SET NULL
  ) STRICT;

CREATE TABLE job_part (
    id INTEGER PRIMARY KEY, job_id INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE,
    step_id INTEGER REFERENCES job_step(id) ON DELETE SET NULL, used_on TEXT NOT NULL, name TEXT NOT NULL,
    part TEXT NOT NULL DEFAULT '', originality TEXT NOT NULL CHECK (originality IN ('original', 'period replacement', 'reproduction')),
    part_id INTEGER REFERENCES part(id), donor_car_id INTEGER REFERENCES car(id) ON DELETE SET NULL,
    quantity INTEGER NOT NULL DEFAULT 1 CHECK (quantity > 0), minor INTEGER NOT NULL DEFAULT 0 CHECK (minor >= 0), currency TEXT NOT NULL,
    expense_id INTEGER REFERENCES expense(id) ON DELETE SET NULL
  ) STRICT;

CREATE TABLE job_photo (
    id INTEGER PRIMARY KEY, job_id INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE,
    step_id INTEGER REFERENCES job_step(id) ON DELETE SET NULL, photo_id INTEGER NOT NULL UNIQUE REFERENCES photo(id) ON DELETE CASCADE,
    moment TEXT NOT NULL DEFAULT 'during' CHECK (moment IN ('before', 'during', 'after'))
  ) STRICT;

CREATE TABLE job_step (
    id INTEGER PRIMARY KEY, job_id INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE, position INTEGER NOT NULL,
    step TEXT NOT NULL DEFAULT '', name TEXT NOT NULL, part TEXT NOT NULL DEFAULT '',
    state TEXT NOT NULL DEFAULT 'to do' CHECK (state IN ('to do', 'done', 'left out')),
    hands_low INTEGER NOT NULL DEFAULT 0, hands_likely INTEGER NOT NULL DEFAULT 0, hands_high INTEGER NOT NULL DEFAULT 0, waiting_low INTEGER NOT NULL DEFAULT 0, waiting_likely INTEGER NOT NULL DEFAULT 0, waiting_high INTEGER NOT NULL DEFAULT 0, hazards TEXT NOT NULL DEFAULT '[]', why TEXT NOT NULL DEFAULT '{}',
    waits_until TEXT, done_at TEXT, spoiled INTEGER NOT NULL DEFAULT 0 CHECK (spoiled IN (0, 1)), note TEXT NOT NULL DEFAULT ''
  , heard_at TEXT) STRICT;

CREATE TABLE job_time (
    id INTEGER PRIMARY KEY, step_id INTEGER NOT NULL REFERENCES job_step(id) ON DELETE CASCADE,
    started_at TEXT NOT NULL, ended_at TEXT, seconds INTEGER CHECK (seconds >= 0), shared_by INTEGER NOT NULL DEFAULT 1 CHECK (shared_by > 0)
  ) STRICT;

CREATE TABLE lot (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, bought_on TEXT, seller TEXT NOT NULL DEFAULT '',
    currency TEXT NOT NULL, notes TEXT NOT NULL DEFAULT '', created_at TEXT NOT NULL
  , price_from TEXT NOT NULL DEFAULT 'lot' CHECK (price_from IN ('lot', 'cars')), purchase_left_out INTEGER NOT NULL DEFAULT 0 CHECK (purchase_left_out IN (0, 1)), purchase_left_out_why TEXT NOT NULL DEFAULT '', bid TEXT NOT NULL DEFAULT '' CHECK (bid = '' OR json_valid(bid))) STRICT;

CREATE TABLE lot_cost (
    id INTEGER PRIMARY KEY, lot_id INTEGER NOT NULL REFERENCES lot(id) ON DELETE CASCADE,
    kind TEXT NOT NULL CHECK (kind IN ('price', 'premium', 'tax', 'carriage', 'other')),
    minor INTEGER NOT NULL CHECK (minor >= 0), note TEXT NOT NULL DEFAULT '', UNIQUE (lot_id, kind, note)
  ) STRICT;

CREATE VIRTUAL TABLE lot_search USING fts5(
    name, seller, notes, content='', contentless_delete=1, prefix='1 2 3', tokenize="unicode61 remove_diacritics 2"
  );

CREATE TABLE 'lot_search_config'(k PRIMARY KEY, v) WITHOUT ROWID;

CREATE TABLE 'lot_search_data'(id INTEGER PRIMARY KEY, block BLOB);

CREATE TABLE 'lot_search_docsize'(id INTEGER PRIMARY KEY, sz BLOB, origin INTEGER);

CREATE TABLE 'lot_search_idx'(segid, term, pgno, PRIMARY KEY(segid, term)) WITHOUT ROWID;

CREATE TABLE maker (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, country TEXT, notes TEXT NOT NULL DEFAULT ''
  ) STRICT;

CREATE TABLE part (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, in_stock INTEGER NOT NULL DEFAULT 0,
    unit_minor INTEGER, currency TEXT, notes TEXT NOT NULL DEFAULT ''
  , part TEXT NOT NULL DEFAULT '', originality TEXT NOT NULL DEFAULT '' CHECK (originality IN ('', 'original', 'period replacement', 'reproduction')), grade_half INTEGER CHECK (grade_half BETWEEN 2 AND 20), casting_id INTEGER REFERENCES casting(id) ON DELETE SET NULL, donor_car_id INTEGER REFERENCES car(id) ON DELETE SET NULL) STRICT;

CREATE TABLE part_grade (
    id INTEGER PRIMARY KEY, check_id INTEGER NOT NULL REFERENCES condition_check(id) ON DELETE CASCADE,
    part TEXT NOT NULL, grade_half INTEGER CHECK (grade_half BETWEEN 2 AND 20),
    originality TEXT NOT NULL DEFAULT 'original'
      CHECK (originality IN ('original', 'period replacement', 'reproduction', 'missing')),
    note TEXT NOT NULL DEFAULT '', UNIQUE (check_id, part)
  ) STRICT;

CREATE TABLE parted_names (
    id INTEGER PRIMARY KEY, one TEXT NOT NULL COLLATE NOCASE, other TEXT NOT NULL COLLATE NOCASE, UNIQUE (one, other)
  ) STRICT;

CREATE TABLE photo (
    id INTEGER PRIMARY KEY, sha256 TEXT NOT NULL, format TEXT NOT NULL, bytes INTEGER NOT NULL, width INTEGER NOT NULL,
    height INTEGER NOT NULL, car_id INTEGER REFERENCES car(id) ON DELETE CASCADE,
    lot_id INTEGER REFERENCES lot(id) ON DELETE CASCADE, variation_id INTEGER REFERENCES variation(id) ON DELETE CASCADE,
    view TEXT NOT NULL DEFAULT '', caption TEXT NOT NULL DEFAULT '', state TEXT NOT NULL DEFAULT '',
    taken_on TEXT, position INTEGER NOT NULL DEFAULT 0, added_at TEXT NOT NULL
  ) STRICT;

CREATE TABLE plan_line (
    id INTEGER PRIMARY KEY, plan_id INTEGER NOT NULL REFERENCES restoration_plan(id) ON DELETE CASCADE,
    kind TEXT NOT NULL CHECK (kind IN ('part', 'material', 'tool', 'other')), name TEXT NOT NULL,
    low_minor INTEGER NOT NULL, likely_minor INTEGER NOT NULL, high_minor INTEGER NOT NULL,
    part_id INTEGER REFERENCES part(id), quantity INTEGER NOT NULL DEFAULT 1
  ) STRICT;

CREATE TABLE plan_step (
    id INTEGER PRIMARY KEY, plan_id INTEGER NOT NULL REFERENCES restoration_plan(id) ON DELETE CASCADE,
    position INTEGER NOT NULL, step TEXT NOT NULL DEFAULT '', name TEXT NOT NULL, part TEXT NOT NULL DEFAULT '',
    hands_low INTEGER NOT NULL DEFAULT 0, hands_likely INTEGER NOT NULL DEFAULT 0, hands_high INTEGER NOT NULL DEFAULT 0, waiting_low INTEGER NOT NULL DEFAULT 0, waiting_likely INTEGER NOT NULL DEFAULT 0, waiting_high INTEGER NOT NULL DEFAULT 0, hazards TEXT NOT NULL DEFAULT '[]', why TEXT NOT NULL DEFAULT '{}',
    spoil_permille INTEGER NOT NULL DEFAULT 0, spoiled_share_permille INTEGER NOT NULL DEFAULT 1000,
    materials TEXT NOT NULL DEFAULT '[]', note TEXT NOT NULL DEFAULT ''
  ) STRICT;

CREATE TABLE plan_template (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, kind TEXT NOT NULL CHECK (kind IN ('conserve', 'restore', 'customise', 'donor')),
    body TEXT NOT NULL, from_car_id INTEGER REFERENCES car(id) ON DELETE SET NULL, made_at TEXT NOT NULL
  ) STRICT;

CREATE TABLE release (
    id INTEGER PRIMARY KEY, casting_id INTEGER NOT NULL REFERENCES casting(id) ON DELETE CASCADE,
    name TEXT NOT NULL COLLATE NOCASE, year INTEGER, changed_part TEXT NOT NULL DEFAULT '', notes TEXT NOT NULL DEFAULT '',
    UNIQUE (casting_id, name, year)
  ) STRICT;

CREATE TABLE report_definition (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, kind TEXT NOT NULL, body TEXT NOT NULL, made_at TEXT NOT NULL
  ) STRICT;

CREATE TABLE report_kept (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL, kind TEXT NOT NULL, definition_id INTEGER REFERENCES report_definition(id) ON DELETE SET NULL,
    effective_on TEXT NOT NULL, made_at TEXT NOT NULL, total_minor INTEGER, currency TEXT, cars INTEGER, bytes INTEGER NOT NULL,
    sha256 TEXT NOT NULL, body TEXT NOT NULL DEFAULT '{}'
  ) STRICT;

CREATE TABLE restoration_plan (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL UNIQUE REFERENCES car(id) ON DELETE CASCADE,
    kind TEXT NOT NULL DEFAULT 'restore' CHECK (kind IN ('restore', 'customise')),
    target_half INTEGER NOT NULL CHECK (target_half BETWEEN 2 AND 20), deviations TEXT NOT NULL DEFAULT '[]',
    parts_after TEXT NOT NULL DEFAULT '[]',
    minutes_low INTEGER NOT NULL, minutes_likely INTEGER NOT NULL, minutes_high INTEGER NOT NULL,
    spoil_permille INTEGER NOT NULL DEFAULT 0, spoiled_share_permille INTEGER NOT NULL DEFAULT 500,
    notes TEXT NOT NULL DEFAULT ''
  , closure TEXT CHECK (closure IN ('screw', 'rivet', 'glue', 'as made')), wishes TEXT NOT NULL DEFAULT '{}', library_version INTEGER) STRICT;

CREATE TABLE sale_record (
    id INTEGER PRIMARY KEY, sold_on TEXT NOT NULL, price_minor INTEGER NOT NULL CHECK (price_minor > 0),
    currency TEXT NOT NULL, casting_id INTEGER REFERENCES casting(id), variation_id INTEGER REFERENCES variation(id),
    as_written TEXT NOT NULL DEFAULT '{}', grade_half INTEGER CHECK (grade_half BETWEEN 2 AND 20),
    finish_state TEXT NOT NULL DEFAULT 'original'
      CHECK (finish_state IN ('original', 'touched up', 'restored', 'customised', 'stripped')),
    missing_parts TEXT NOT NULL DEFAULT '[]', reproduction_parts TEXT NOT NULL DEFAULT '[]',
    source TEXT NOT NULL DEFAULT '', reference TEXT NOT NULL DEFAULT '', reliability_percent INTEGER,
    excluded INTEGER NOT NULL DEFAULT 0 CHECK (excluded IN (0, 1)), excluded_why TEXT NOT NULL DEFAULT '',
    disposal_id INTEGER REFERENCES disposal(id) ON DELETE CASCADE, identity TEXT NOT NULL UNIQUE, notes TEXT NOT NULL DEFAULT ''
  , unread TEXT NOT NULL DEFAULT '[]', heard TEXT NOT NULL DEFAULT '[]') STRICT;

CREATE VIRTUAL TABLE sale_search USING fts5(
    casting, release, variation, source, notes, written, content='', contentless_delete=1, prefix='1 2 3', tokenize="unicode61 remove_diacritics 2"
  );

CREATE TABLE 'sale_search_config'(k PRIMARY KEY, v) WITHOUT ROWID;

CREATE TABLE 'sale_search_data'(id INTEGER PRIMARY KEY, block BLOB);

CREATE TABLE 'sale_search_docsize'(id INTEGER PRIMARY KEY, sz BLOB, origin INTEGER);

CREATE TABLE 'sale_search_idx'(segid, term, pgno, PRIMARY KEY(segid, term)) WITHOUT ROWID;

CREATE TABLE saved_view (
    id INTEGER PRIMARY KEY, list TEXT NOT NULL, name TEXT NOT NULL COLLATE NOCASE, position INTEGER NOT NULL DEFAULT 0, body TEXT NOT NULL,
    made_at TEXT NOT NULL, UNIQUE (list, name)
  ) STRICT;

CREATE TABLE season (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE, made_on TEXT NOT NULL, closed_on TEXT,
    current INTEGER NOT NULL DEFAULT 0 CHECK (current IN (0, 1)),
    minutes INTEGER CHECK (minutes >= 0), cash_minor INTEGER CHECK (cash_minor >= 0), currency TEXT NOT NULL,
    per_casting INTEGER CHECK (per_casting > 0), parts TEXT NOT NULL DEFAULT '{}',
    expected_minor INTEGER, expected_low_minor INTEGER, expected_high_minor INTEGER, notes TEXT NOT NULL DEFAULT ''
  , most_cars INTEGER CHECK (most_cars > 0)) STRICT;

CREATE TABLE season_car (
    id INTEGER PRIMARY KEY, season_id INTEGER NOT NULL REFERENCES season(id) ON DELETE CASCADE,
    car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE, position INTEGER NOT NULL,
    kind TEXT NOT NULL DEFAULT 'restore' CHECK (kind IN ('conserve', 'restore', 'customise', 'donor')),
    expected_minor INTEGER, cost_minor INTEGER, minutes INTEGER, found_minor INTEGER, after_minor INTEGER,
    colour TEXT NOT NULL DEFAULT '', standing TEXT NOT NULL DEFAULT 'in' CHECK (standing IN ('in', 'must')), UNIQUE (season_id, car_id)
  ) STRICT;

CREATE TABLE season_excluded (
    id INTEGER PRIMARY KEY, season_id INTEGER NOT NULL REFERENCES season(id) ON DELETE CASCADE,
    car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE, UNIQUE (season_id, car_id)
  ) STRICT;

CREATE TABLE series (
    id INTEGER PRIMARY KEY, maker_id INTEGER NOT NULL REFERENCES maker(id), name TEXT NOT NULL COLLATE NOCASE,
    first_year INTEGER, last_year INTEGER, notes TEXT NOT NULL DEFAULT '', UNIQUE (maker_id, name)
  ) STRICT;

CREATE TABLE setting (id INTEGER PRIMARY KEY, key TEXT NOT NULL UNIQUE, value TEXT NOT NULL) STRICT;

CREATE TABLE settled_name (
    id INTEGER PRIMARY KEY, text TEXT NOT NULL UNIQUE COLLATE NOCASE,
    means TEXT NOT NULL CHECK (means IN ('casting', 'release', 'not a car')),
    casting_id INTEGER REFERENCES casting(id) ON DELETE CASCADE, release_id INTEGER REFERENCES release(id) ON DELETE CASCADE,
    settled_at TEXT NOT NULL
  ) STRICT;

CREATE TABLE settled_variation (
    id INTEGER PRIMARY KEY, casting_id INTEGER NOT NULL REFERENCES casting(id) ON DELETE CASCADE,
    variation_id INTEGER NOT NULL REFERENCES variation(id) ON DELETE CASCADE, seen TEXT NOT NULL, settled_at TEXT NOT NULL,
    UNIQUE (casting_id, seen)
  ) STRICT;

CREATE TABLE step_library (
    id INTEGER PRIMARY KEY, version INTEGER NOT NULL UNIQUE, body TEXT NOT NULL, note TEXT NOT NULL DEFAULT '', made_at TEXT NOT NULL
  ) STRICT;

CREATE TABLE valuation (
    id INTEGER PRIMARY KEY, car_id INTEGER NOT NULL REFERENCES car(id) ON DELETE CASCADE, effective_on TEXT NOT NULL,
    made_at TEXT NOT NULL, currency TEXT NOT NULL, basis TEXT NOT NULL, assumption_set_id INTEGER REFERENCES assumption_set(id),
    as_found_low INTEGER, as_found_mid INTEGER, as_found_high INTEGER,
    restored_low INTEGER, restored_mid INTEGER, restored_high INTEGER,
    original_low INTEGER, original_mid INTEGER, original_high INTEGER,
    evidence TEXT NOT NULL DEFAULT '{}', UNIQUE (car_id, effective_on, basis)
  ) STRICT;

CREATE TABLE variation (
    id INTEGER PRIMARY KEY, release_id INTEGER NOT NULL REFERENCES release(id) ON DELETE CASCADE,
    colour TEXT NOT NULL DEFAULT '' COLLATE NOCASE, body_finish TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
    base_paint TEXT NOT NULL DEFAULT '' CHECK (base_paint IN ('', 'none', 'front quarter', 'rear quarter', 'full')),
    rear_end TEXT NOT NULL DEFAULT '' COLLATE NOCASE, roof TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
    interior TEXT NOT NULL DEFAULT '' COLLATE NOCASE, glazing TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
    wheels TEXT NOT NULL DEFAULT '' COLLATE NOCASE, accessory TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
    country TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
    rarity TEXT CHECK (rarity IN ('common', 'uncommon', 'scarce', 'rare')),
    factory_specification TEXT NOT NULL DEFAULT '', notes TEXT NOT NULL DEFAULT '', base_words TEXT NOT NULL DEFAULT '', wheel_sizes TEXT NOT NULL DEFAULT '',
    UNIQUE (release_id, colour, body_finish, base_paint, rear_end, roof, interior, glazing, wheels, accessory, country)
  ) STRICT;

CREATE VIRTUAL TABLE variation_search USING fts5(
    release, words, casting, notes, content='', contentless_delete=1, prefix='1 2 3', tokenize="unicode61 remove_diacritics 2"
  );

CREATE TABLE 'variation_search_config'(k PRIMARY KEY, v) WITHOUT ROWID;

CREATE TABLE 'variation_search_data'(id INTEGER PRIMARY KEY, block BLOB);

CREATE TABLE 'variation_search_docsize'(id INTEGER PRIMARY KEY, sz BLOB, origin INTEGER);

CREATE TABLE 'variation_search_idx'(segid, term, pgno, PRIMARY KEY(segid, term)) WITHOUT ROWID;

CREATE TABLE word (
    id INTEGER PRIMARY KEY, column_name TEXT NOT NULL DEFAULT '*' COLLATE NOCASE, text TEXT NOT NULL COLLATE NOCASE,
    field TEXT NOT NULL, meaning TEXT NOT NULL DEFAULT '', added_at TEXT NOT NULL, UNIQUE (column_name, text, field)
  ) STRICT;
