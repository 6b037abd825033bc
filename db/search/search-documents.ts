import { featureColumns } from '../../valuation/reading/feature-columns.ts';
import type { SearchKind } from '../../valuation/words.ts';

/** What the search index holds of one kind of thing, and where its words come from. */
export interface SearchDocument {
  kind: SearchKind;
  index: string;
  table: string;
  /** Columns of the index, each with the SQL of its words; the first counts most. */
  columns: Record<string, string>;
  from: string;
  /** The table's own columns on which its words depend. */
  own: string[];
  /** Other tables whose words it carries. `documents` is SQL for the ids that a changed row touches. */
  carried: {
    table: string;
    columns: string[];
    documents: (row: 'NEW' | 'OLD') => string;
    comesAndGoes?: boolean;
  }[];
}

/** The values of a JSON object, for searching what a spreadsheet said; nothing where it is not JSON. */
const writtenWords = (table: string) =>
  `(SELECT group_concat(value, ' ') FROM json_each(iif(json_valid(${table}.as_written), ${table}.as_written, '{}')))`;

const features = Object.values(featureColumns).filter(column => column !== 'base_paint');
const variationColumns = [...features, 'base_paint', 'rarity'];

/** "full" alone would say nothing, so the base's paint is searched as "full base". */
const variationWords = `concat_ws(' ', ${features.map(feature => `variation.${feature}`).join(', ')},
  nullif(variation.base_paint, '') || ' base', variation.rarity)`;

const castingWords = `concat_ws(' ', casting.name, series.name, maker.name)`;

const upFromVariation = `LEFT JOIN release ON release.id = coalesce(variation.release_id, car.release_id)
  LEFT JOIN casting ON casting.id = coalesce(release.casting_id, car.casting_id)`;
const upFromCasting =
  'LEFT JOIN series ON series.id = casting.series_id LEFT JOIN maker ON maker.id = series.maker_id';

const castingsOfSeries = (id: string) => `SELECT id FROM casting WHERE series_id = ${id}`;
const castingsOfMaker = (id: string) =>
  `SELECT casting.id FROM casting JOIN series ON series.id = casting.series_id WHERE series.maker_id = ${id}`;
const releasesOf = (castings: string) => `SELECT id FROM release WHERE casting_id IN (${castings})`;
const variationsOf = (castings: string) =>
  `SELECT id FROM variation WHERE release_id IN (${releasesOf(castings)})`;
const carsOf = (castings: string) =>
  `SELECT id FROM car WHERE casting_id IN (${castings})
   UNION SELECT id FROM car WHERE release_id IN (${releasesOf(castings)})
   UNION SELECT id FROM car WHERE variation_id IN (${variationsOf(castings)})`;
const salesOf = (castings: string) =>
  `SELECT id FROM sale_record WHERE casting_id IN (${castings})
   UNION SELECT id FROM sale_record WHERE variation_id IN (${variationsOf(castings)})`;

/** The reference's names, for a document that carries them; `of` gives the documents of some castings. */
const reference = (of: (castings: string) => string): SearchDocument['carried'] => [
  { table: 'casting', columns: ['name', 'series_id'], documents: row => of(`${row}.id`) },
  { table: 'series', columns: ['name', 'maker_id'], documents: row => of(castingsOfSeries(`${row}.id`)) },
  { table: 'maker', columns: ['name'], documents: row => of(castingsOfMaker(`${row}.id`)) },
];

/** What the search finds: the table and columns behind each index, by SQL expression. */
export const searchDocuments: SearchDocument[] = [
  {
    kind: 'car',
    index: 'car_search',
    table: 'car',
    columns: {
      number: 'car.inventory_number',
      casting: castingWords,
      release: 'release.name',
      variation: `concat_ws(' ', ${variationWords}, nullif(car.worn_colour, ''), nullif(car.worn_finish, ''))`,
      lot: 'lot.name',
      location: 'car.location',
      notes: 'car.notes',
      written: writtenWords('car'),
    },
    from: `car LEFT JOIN variation ON variation.id = car.variation_id ${upFromVariation} ${upFromCasting}
      LEFT JOIN lot ON lot.id = car.lot_id`,
    own: [
      'inventory_number',
      'lot_id',
      'casting_id',
      'release_id',
      'variation_id',
      'as_written',
      'location',
      'notes',
      'worn_colour',
      'worn_finish',
    ],
    carried: [
      ...reference(carsOf),
      { table: 'release', columns: ['name', 'casting_id'], documents: row => carsOf(`${row}.casting_id`) },
      {
        table: 'variation',
        columns: [...variationColumns, 'release_id'],
        documents: row => `SELECT id FROM car WHERE variation_id = ${row}.id`,
      },
      { table: 'lot', columns: ['name'], documents: row => `SELECT id FROM car WHERE lot_id = ${row}.id` },
    ],
  },
  {
    kind: 'lot',
    index: 'lot_search',
    table: 'lot',
    columns: { name: 'lot.name', seller: 'lot.seller', notes: 'lot.notes' },
    from: 'lot',
    own: ['name', 'seller', 'notes'],
    carried: [],
  },
  {
    kind: 'casting',
    index: 'casting_search',
    table: 'casting',
    columns: {
      name: 'casting.name',
      releases: `(SELECT group_concat(concat_ws(' ', release.name, release.year), ' ') FROM release
        WHERE release.casting_id = casting.id)`,
      range: `concat_ws(' ', series.name, maker.name, casting.body_type, casting.first_year)`,
      notes: `concat_ws(' ', casting.markings, casting.materials, casting.notes)`,
    },
    from: `casting ${upFromCasting}`,
    own: ['name', 'series_id', 'body_type', 'first_year', 'markings', 'materials', 'notes'],
    carried: [
      ...reference(castings => castings).slice(1),
      {
        table: 'release',
        columns: ['name', 'year', 'casting_id'],
        documents: row => `${row}.casting_id`,
        comesAndGoes: true,
      },
    ],
  },
  {
    kind: 'variation',
    index: 'variation_search',
    table: 'variation',
    columns: {
      release: `concat_ws(' ', release.name, release.year)`,
      words: variationWords,
      casting: castingWords,
      notes: `concat_ws(' ', variation.factory_specification, variation.notes)`,
    },
    from: `variation JOIN release ON release.id = variation.release_id
      JOIN casting ON casting.id = release.casting_id ${upFromCasting}`,
    own: [...variationColumns, 'release_id', 'factory_specification', 'notes'],
    carried: [
      ...reference(variationsOf),
      {
        table: 'release',
        columns: ['name', 'year', 'casting_id'],
        documents: row => `SELECT id FROM variation WHERE release_id = ${row}.id`,
      },
    ],
  },
  {
    kind: 'sale record',
    index: 'sale_search',
    table: 'sale_record',
    columns: {
      casting: castingWords,
      release: 'release.name',
      variation: variationWords,
      source: `concat_ws(' ', sale_record.source, sale_record.reference)`,
      notes: `concat_ws(' ', sale_record.notes, sale_record.excluded_why)`,
      written: writtenWords('sale_record'),
    },
    from: `sale_record LEFT JOIN variation ON variation.id = sale_record.variation_id
      LEFT JOIN release ON release.id = variation.release_id
      LEFT JOIN casting ON casting.id = coalesce(release.casting_id, sale_record.casting_id) ${upFromCasting}`,
    own: ['casting_id', 'variation_id', 'source', 'reference', 'notes', 'excluded_why', 'as_written'],
    carried: [
      ...reference(salesOf),
      { table: 'release', columns: ['name', 'casting_id'], documents: row => salesOf(`${row}.casting_id`) },
      {
        table: 'variation',
        columns: [...variationColumns, 'release_id'],
        documents: row => `SELECT id FROM sale_record WHERE variation_id = ${row}.id`,
      },
    ],
  },
];
