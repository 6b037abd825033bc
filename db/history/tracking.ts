import type { Database } from 'better-sqlite3';

/** A table whose rows history follows. */
export interface TrackedTable {
  name: string;
  columns: { name: string; real: boolean }[];
}

/** Every ordinary table of a database, by name; the search index's own are not ordinary. */
export const tablesOf = (sqlite: Database): TrackedTable[] => {
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
};

const untracked = /^(kysely_|change$|change_row$)/;

/** The tables that history follows: all but its own and the migrations' list. */
export const trackedTables = (sqlite: Database): TrackedTable[] =>
  tablesOf(sqlite).filter(table => !untracked.test(table.name));

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

const createTrigger = (table: TrackedTable, event: RowEvent, when: string): string => {
  const before = event === 'INSERT' ? 'NULL' : rowAsJson(table, 'OLD');
  const after = event === 'DELETE' ? 'NULL' : rowAsJson(table, 'NEW');
  return `CREATE TEMP TRIGGER "${triggerName(table, event)}" AFTER ${event} ON main."${table.name}" WHEN ${when}
    BEGIN
      INSERT INTO change_row (change_id, table_name, row_id, before, after)
      SELECT change_id, '${table.name}', ${event === 'DELETE' ? 'OLD' : 'NEW'}.id, ${before}, ${after} FROM current_change;
    END`;
};

const whileActing = 'EXISTS (SELECT 1 FROM current_change)';

/**
 * Installs what history needs on a writing connection: the action that is current, and for every tracked
 * table triggers that note each row's JSON before and after while there is one. They are TEMP: they belong to
 * the connection, cost the file nothing, and follow the schema by themselves.
 */
export const installHistory = (sqlite: Database): void => {
  sqlite.exec(`CREATE TEMP TABLE current_change (change_id INTEGER NOT NULL);
    CREATE TEMP TABLE bulk_start (table_name TEXT PRIMARY KEY, last_id INTEGER NOT NULL) WITHOUT ROWID;`);
  for (const table of trackedTables(sqlite))
    for (const event of events) sqlite.exec(createTrigger(table, event, whileActing));
};

const dropTriggers = (sqlite: Database, table: TrackedTable) => {
  for (const event of events) sqlite.exec(`DROP TRIGGER IF EXISTS temp."${triggerName(table, event)}"`);
};

const replaceTriggers = (sqlite: Database, table: TrackedTable, when: (event: RowEvent) => string) => {
  dropTriggers(sqlite, table);
  for (const event of events) sqlite.exec(createTrigger(table, event, when(event)));
};

/**
 * For bulk work: rows with a number beyond the last one go unnoted (their range is kept instead); changes to
 * older rows, and a new row in the place of an older one, are noted as ever.
 */
export const trackOnlyOlderRows = (sqlite: Database): void => {
  sqlite.exec('DELETE FROM bulk_start');
  for (const table of trackedTables(sqlite)) {
    const last = Number(
      sqlite.prepare(`SELECT coalesce(max(id), 0) FROM main."${table.name}"`).pluck().get(),
    );
    sqlite.prepare('INSERT INTO bulk_start VALUES (?, ?)').run(table.name, last);
    // A table that was empty has no older rows, and a trigger that is never due still costs every row some time.
    if (last === 0) dropTriggers(sqlite, table);
    else replaceTriggers(sqlite, table, event => `${event === 'INSERT' ? 'NEW' : 'OLD'}.id <= ${last}`);
  }
};

/** Ends bulk work: every row is noted again. */
export const trackAllRows = (sqlite: Database): void => {
  sqlite.exec('DELETE FROM bulk_start');
  for (const table of trackedTables(sqlite)) replaceTriggers(sqlite, table, () => whileActing);
};
