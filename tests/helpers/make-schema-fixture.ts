import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { layout } from '../../db/file/layout.ts';
import { runAction } from '../../db/history/history.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { schemaVersion } from '../../migrations/index.ts';

/**
 * Writes schema-N.sqlite: a small collection of the newest schema, with a row in every table. It is made
 * once, when a schema step has landed, and kept from then on, so that every later version is tried on a file
 * that this one made.
 *
 *     npx node tests/helpers/make-schema-fixture.ts
 */
const at = '2026-01-02T03:04:05.000Z';

const rows: [string, Record<string, unknown>][] = [
  ['maker', { name: 'Quillon Toys', country: 'Wrenmoor' }],
  ['series', { maker_id: 1, name: 'Weir', first_year: 1966, last_year: 1970 }],
  ['casting', { series_id: 1, name: 'Harrow', body_type: 'estate', first_year: 1967, length_mm: 71.3 }],
  ['casting_part', { casting_id: 1, part: 'roof', detail: 'lifts off' }],
  ['casting_feature', { casting_id: 1, feature: 'wheels', value: 'spoked' }],
  ['release', { casting_id: 1, name: 'Barrow', year: 1968, changed_part: 'base' }],
  ['variation', { release_id: 1, colour: 'Teal', base_paint: 'rear quarter', rarity: 'scarce' }],
  ['colour', { name: 'Teal', swatch: '#2a8a86' }],
  [
    'lot',
    {
      name: 'Loft find',
      bought_on: '2025-11-30',
      currency: 'USD',
      created_at: at,
      bid: '{"margin":0.2,"probability":0.8,"premiumRate":0.25,"taxRate":0,"carriage":500}',
    },
  ],
  ['lot_cost', { lot_id: 1, kind: 'price', minor: 41_250 }],
  [
    'car',
    {
      inventory_number: 'Q-1',
      lot_id: 1,
      casting_id: 1,
      release_id: 1,
      variation_id: 1,
      as_written: '{"colour":"teal-ish"}',
      grade_half: 13,
      cost_minor: 41_250,
      bought_on: '2025-11-30',
      unread: '[{"column":"Cond.","text":"nice"}]',
      heard: '[{"column":"Base","text":"plain","field":"base_paint","gave":{"base_paint":"none"}}]',
      seller: 'Hall fair',
      created_at: at,
      updated_at: at,
    },
  ],
  ['car_candidate', { car_id: 1, variation_id: 1 }],
  ['condition_check', { car_id: 1, checked_on: '2025-12-01', grade_half: 13 }],
  ['part_grade', { check_id: 1, part: 'roof', grade_half: 15, originality: 'reproduction' }],
  [
    'photo',
    { sha256: 'ab'.repeat(32), format: 'jpeg', bytes: 9, width: 3, height: 2, car_id: 1, added_at: at },
  ],
  ['part', { name: 'Spoked wheel', in_stock: 4 }],
  ['disposal', { car_id: 1, sold_on: '2026-01-01', proceeds_minor: 5_000, fees_minor: 400, currency: 'USD' }],
  [
    'sale_record',
    {
      sold_on: '2026-01-01',
      price_minor: 5_000,
      currency: 'USD',
      casting_id: 1,
      variation_id: 1,
      disposal_id: 1,
      identity: 'own-1',
    },
  ],
  ['exchange_rate', { currency: 'JPY', on_date: '2026-01-01', rate_e9: 6_400_000 }],
  ['assumption_set', { version: 1, body: '{}', made_at: at }],
  [
    'valuation',
    {
      car_id: 1,
      effective_on: '2026-01-02',
      made_at: at,
      currency: 'USD',
      basis: 'open market',
      as_found_mid: 5_000,
    },
  ],
  [
    'restoration_plan',
    { car_id: 1, target_half: 18, minutes_low: 60, minutes_likely: 90, minutes_high: 180 },
  ],
  [
    'plan_line',
    {
      plan_id: 1,
      kind: 'part',
      name: 'Spoked wheel',
      low_minor: 1,
      likely_minor: 2,
      high_minor: 3,
      part_id: 1,
    },
  ],
  ['decision', { car_id: 1, decided_on: '2026-01-02', choice: 'leave', recommended: 'restore' }],
  ['expense', { car_id: 1, spent_on: '2026-01-02', what: 'Polish', minor: 350, currency: 'USD' }],
  ['word', { column_name: 'Base', text: 'plain', field: 'base_paint', meaning: 'none', added_at: at }],
  ['settled_name', { text: 'Harow', means: 'casting', casting_id: 1, settled_at: at }],
  ['settled_variation', { casting_id: 1, variation_id: 1, seen: '{"colour":"tealish"}', settled_at: at }],
  ['parted_names', { one: 'Barrow', other: 'Harrow' }],
  [
    'belief',
    {
      casting_id: 1,
      grade_half: 16,
      low_minor: 6_000,
      high_minor: 9_000,
      currency: 'USD',
      believed_on: '2026-01-02',
    },
  ],
  ['step_library', { version: 1, body: '[]', made_at: at }],
  ['plan_step', { plan_id: 1, position: 0, step: 'strip', name: 'Strip', hands_likely: 20 }],
  ['plan_template', { name: 'As Q-1 was done', kind: 'restore', body: '{}', from_car_id: 1, made_at: at }],
  [
    'season',
    { name: 'Winter', made_on: '2026-01-02', current: 1, minutes: 1_200, most_cars: 8, currency: 'USD' },
  ],
  ['season_car', { season_id: 1, car_id: 1, position: 0, expected_minor: 900, standing: 'must' }],
  [
    'care_plan',
    {
      car_id: 1,
      kind: 'conserve',
      minutes_low: 10,
      minutes_likely: 20,
      minutes_high: 40,
      low_minor: 0,
      likely_minor: 50,
      high_minor: 90,
      library_version: 0,
    },
  ],
  ['season_excluded', { season_id: 1, car_id: 1 }],
  ['job', { car_id: 1, season_id: 1, kind: 'restore', state: 'open', added_at: at, started_at: at }],
  ['job_step', { job_id: 1, position: 0, step: 'strip', name: 'Strip', hands_likely: 20 }],
  ['job_time', { step_id: 1, started_at: at, ended_at: at, seconds: 0 }],
  ['job_material', { job_id: 1, used_on: '2026-01-02', name: 'Stripper', minor: 90, currency: 'USD' }],
  [
    'job_part',
    {
      job_id: 1,
      step_id: 1,
      used_on: '2026-01-02',
      name: 'Spoked wheel',
      part: 'wheels',
      originality: 'original',
      part_id: 1,
      currency: 'USD',
    },
  ],
  ['job_photo', { job_id: 1, step_id: 1, photo_id: 1, moment: 'before' }],
  [
    'finished_work',
    {
      car_id: 1,
      job_id: 1,
      check_id: 1,
      finished_on: '2026-01-02',
      kind: 'restore',
      finish_state: 'restored',
      finish_before: 'original',
      colour: 'Teal',
      closure: 'screw',
      fidelity: 'with deviations',
      departures: '["visible post closure"]',
    },
  ],
  ['car_event', { car_id: 1, happened_on: '2026-01-02', cause: 'dropped', before_half: 13, after_half: 12 }],
  ['saved_view', { list: 'cars', name: 'Unsold', body: '{}', made_at: at }],
  ['report_definition', { name: 'For the insurer', kind: 'collection', body: '{}', made_at: at }],
  [
    'report_kept',
    {
      name: 'Collection',
      kind: 'collection',
      definition_id: 1,
      effective_on: '2026-01-02',
      made_at: at,
      bytes: 9,
      sha256: 'cd'.repeat(32),
    },
  ],
  ['casting_set', { name: 'First year', made_at: at }],
  ['casting_set_member', { set_id: 1, casting_id: 1 }],
];

const dir = mkdtempSync(join(tmpdir(), 'playworn-fixture-'));
await createCollection(dir, { at, reportingCurrency: 'USD' });
const collection = await openCollection(dir, { at, host: 'command line' });
await runAction(collection, 'Filled every table', at, async () => {
  for (const [table, row] of rows)
    collection.write.sqlite
      .prepare(
        `INSERT INTO ${table} (${Object.keys(row).join(', ')}) VALUES (${Object.keys(row)
          .map(() => '?')
          .join(', ')})`,
      )
      .run(...Object.values(row));
});
await collection.close({ at });
const target = new URL(`../fixtures/schema-${schemaVersion}.sqlite`, import.meta.url).pathname;
copyFileSync(layout(dir).database, target);
rmSync(dir, { recursive: true });
console.log(`Wrote ${target}`);
