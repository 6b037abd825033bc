import type { Database } from 'better-sqlite3';
import { perSchema } from '../per-schema.ts';
import type { Schema } from '../schema.ts';

/** A table whose rows history follows. */
export interface TrackedTable {
  name: string;
  columns: { name: string; real: boolean }[];
}

/** Every ordinary table of a database, by name; the search index's own are not ordinary. */
export const tablesOf = perSchema((sqlite): TrackedTable[] => {
  const tables = sqlite.pragma('main.table_list') as { name: string; type: string }[];
  return tables
    .filter(table => table.type === 'table' && !table.name.startsWith('sqlite_'))
    .map(table => ({
      name: table.name,
      columns: (sqlite.pragma(`table_info("${table.name}")`) as { name: string; type: string }[]).map(
        column => ({ name: column.name, real: column.type === 'REAL' }),
      ),
    }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
});

const untracked = /^(kysely_|change$|change_row$)/;

/** The tables that history follows: all but its own and the migrations' list. */
export const trackedTables = perSchema(sqlite =>
  tablesOf(sqlite).filter(table => !untracked.test(table.name)),
);

/**
 * SQL for a row as JSON text. `row` is NEW, OLD or a table's name. SQLite writes a real number into JSON with
 * 15 digits, which is not always all of it, so those go in as text with 17; a STRICT REAL column takes that
 * text back unchanged.
 */
export const rowAsJson = (table: TrackedTable, row: string): string => {
  const parts = table.columns.map(column => {
    const value = `${row}."${column.name}"`;
    return `'${column.name}', ${column.real ? `iif(${value} IS NULL, NULL, format('%!.17g', ${value}))` : value}`;
  });
  return `json_object(${parts.join(', ')})`;
};

const events = ['INSERT', 'UPDATE', 'DELETE'] as const;
type RowEvent = (typeof events)[number];

const triggerName = (table: TrackedTable, event: RowEvent) => `history_${event.toLowerCase()}_${table.name}`;

/** True of every row while an action runs; in bulk work, of rows that were there before it alone. */
const isFollowed = (table: TrackedTable, row: 'NEW' | 'OLD') => `EXISTS (SELECT 1 FROM current_change)
    AND ${row}.id <= coalesce((SELECT last_id FROM bulk_start WHERE table_name = '${table.name}'), ${Number.MAX_SAFE_INTEGER})`;

const createTrigger = (table: TrackedTable, event: RowEvent): string => {
  const before = event === 'INSERT' ? 'NULL' : rowAsJson(table, 'OLD');
  const after = event === 'DELETE' ? 'NULL' : rowAsJson(table, 'NEW');
  const row = event === 'INSERT' ? 'NEW' : 'OLD';
  return `CREATE TEMP TRIGGER IF NOT EXISTS "${triggerName(table, event)}" AFTER ${event} ON main."${table.name}"
    WHEN ${isFollowed(table, row)}
    BEGIN
      INSERT INTO change_row (change_id, table_name, row_id, before, after)
      SELECT change_id, '${table.name}', ${event === 'DELETE' ? 'OLD' : 'NEW'}.id, ${before}, ${after} FROM current_change;
    END`;
};

/**
 * Installs what history needs on a writing connection: the action that is current, and for every tracked
 * table triggers that note each row's JSON before and after while there is one. They are TEMP: they belong to
 * the connection, cost the file nothing, and follow the schema by themselves.
 */
export const installHistory = (sqlite: Database): void => {
  sqlite.exec(`CREATE TEMP TABLE current_change (change_id INTEGER NOT NULL);
    CREATE TEMP TABLE bulk_start (table_name TEXT PRIMARY KEY, last_id INTEGER NOT NULL) WITHOUT ROWID;`);
  for (const table of trackedTables(sqlite))
    for (const event of events) sqlite.exec(createTrigger(table, event));
};

/**
 * Tables of which bulk work adds thousands of rows: a trigger that is never due still costs each of them some
 * time.
 */
const growing: ReadonlySet<string> = new Set<keyof Schema>([
  'car',
  'car_candidate',
  'casting',
  'casting_feature',
  'release',
  'sale_record',
  'valuation',
  'variation',
]);

const growingTables = perSchema(sqlite => trackedTables(sqlite).filter(({ name }) => growing.has(name)));

const startOfBulk = perSchema(
  sqlite =>
    `INSERT INTO bulk_start ${trackedTables(sqlite)
      .map(({ name }) => `SELECT '${name}', coalesce(max(id), 0) FROM main."${name}"`)
      .join(' UNION ALL ')}`,
);

/**
 * For bulk work: rows with a number beyond the last one go unnoted (their range is kept instead); changes to
 * older rows, and a new row in the place of an older one, are noted as ever.
 */
export const trackOnlyOlderRows = (sqlite: Database): void => {
  sqlite.exec(`DELETE FROM bulk_start; ${startOfBulk(sqlite)}`);
  const last = sqlite.prepare('SELECT last_id FROM bulk_start WHERE table_name = ?').pluck();
  for (const table of growingTables(sqlite))
    if (last.get(table.name) === 0) sqlite.exec(`DROP TRIGGER temp."${triggerName(table, 'INSERT')}"`);
};

/** Ends bulk work: every row is noted again. */
export const trackAllRows = (sqlite: Database): void => {
  sqlite.exec('DELETE FROM bulk_start');
  for (const table of growingTables(sqlite)) sqlite.exec(createTrigger(table, 'INSERT'));
};

const rangesOfBulk = perSchema(
  sqlite =>
    `INSERT INTO change_row (change_id, table_name, row_id, last_row_id) SELECT * FROM (${trackedTables(
      sqlite,
    )
      .map(
        ({ name }) => `SELECT @id, '${name}', min(id) AS first, max(id) FROM main."${name}"
         WHERE id > (SELECT last_id FROM bulk_start WHERE table_name = '${name}')`,
      )
      .join(' UNION ALL ')}) WHERE first IS NOT NULL`,
);

/** Notes which rows each table has gained since bulk work began. */
export const noteRanges = (sqlite: Database, id: number): void => {
  sqlite.prepare(rangesOfBulk(sqlite)).run({ id });
};
