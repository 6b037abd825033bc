import type { Database } from 'better-sqlite3';
import { type SearchDocument, searchDocuments } from './search-documents.ts';

const columnList = (document: SearchDocument) => Object.keys(document.columns).join(', ');

const textOf = (document: SearchDocument, which: string, index = document.index) =>
  `INSERT INTO ${index} (rowid, ${columnList(document)})
   SELECT ${document.table}.id, ${Object.values(document.columns).join(', ')} FROM ${document.from} WHERE ${which}`;

const staleOf = (document: SearchDocument) => `${document.index}_stale`;

/** Notes documents whose words are no longer those of their rows; `ids` is a query of their numbers. */
const note = (document: SearchDocument, ids: string) => `INSERT OR IGNORE INTO ${staleOf(document)} ${ids};`;

/** A trigger on columns that are really other than before; an update often sets more than it changes. */
const onChanged = (name: string, table: string, columns: string[], body: string) => ({
  name,
  sql: `CREATE TEMP TRIGGER ${name} AFTER UPDATE OF ${columns.join(', ')} ON main.${table}
    WHEN ${columns.map(column => `OLD.${column} IS NOT NEW.${column}`).join(' OR ')} BEGIN ${body} END`,
});

const onEvent = (name: string, event: 'INSERT' | 'DELETE', table: string, body: string) => ({
  name,
  sql: `CREATE TEMP TRIGGER ${name} AFTER ${event} ON main.${table} BEGIN ${body} END`,
});

const onNewRow = (document: SearchDocument) =>
  onEvent(`${document.index}_insert`, 'INSERT', document.table, note(document, 'VALUES (NEW.id)'));

/** All triggers that keep the index current: a document's own rows, and the rows whose words it carries. */
const triggers = (): { name: string; sql: string }[] =>
  searchDocuments.flatMap(document => {
    const { index, table } = document;
    const of = (ids: string) => `SELECT id FROM ${table} WHERE id IN (${ids})`;
    const own = [
      onNewRow(document),
      onChanged(`${index}_update`, table, document.own, note(document, 'VALUES (NEW.id)')),
      onEvent(`${index}_delete`, 'DELETE', table, note(document, 'VALUES (OLD.id)')),
    ];
    const carried = document.carried.flatMap(source => {
      const name = `${index}_${source.table}`;
      const changed = note(document, of(source.documents('NEW')));
      const updated = onChanged(`${name}_update`, source.table, source.columns, changed);
      if (!source.comesAndGoes) return [updated];
      const gone = note(document, of(source.documents('OLD')));
      return [
        updated,
        onEvent(`${name}_insert`, 'INSERT', source.table, changed),
        onEvent(`${name}_delete`, 'DELETE', source.table, gone),
      ];
    });
    return [...own, ...carried];
  });

/**
 * Installs what keeps the search index current, on the writing connection alone: triggers that note the
 * documents that a change touches, for `refreshSearch` to write at the end of the action.
 */
export const installSearch = (sqlite: Database): void => {
  for (const document of searchDocuments)
    sqlite.exec(`CREATE TEMP TABLE ${staleOf(document)} (id INTEGER PRIMARY KEY)`);
  for (const { sql } of triggers()) sqlite.exec(sql);
};

const newestOf = (sqlite: Database, table: string): number =>
  Number(sqlite.prepare(`SELECT max(id) FROM main.${table}`).pluck().get() ?? 0);

/**
 * Where more than one document in so many is to be written, all are written again, which takes less time for
 * each.
 */
const fewest = 4;
/** Up to so many documents it makes no difference. */
const usualChange = 100;

/**
 * Writes the documents that were noted, once each and in the order of their numbers: the index writes out
 * what it has gathered whenever a lower number follows a higher one. Inside the transaction of the change.
 */
export const refreshSearch = (sqlite: Database): void => {
  for (const document of searchDocuments) {
    const stale = staleOf(document);
    const noted = Number(sqlite.prepare(`SELECT count(*) FROM temp.${stale}`).pluck().get());
    if (noted === 0) continue;
    if (noted > usualChange && noted * fewest > newestOf(sqlite, document.table)) {
      writeAnew(sqlite, document);
      sqlite.exec(`DELETE FROM temp.${stale}`);
      continue;
    }
    sqlite.exec(`DELETE FROM ${document.index} WHERE rowid IN (SELECT id FROM temp.${stale});
      ${textOf(document, `${document.table}.id IN (SELECT id FROM temp.${stale})`)}
      ORDER BY ${document.table}.id;
      DELETE FROM temp.${stale}`);
  }
};

/** Writes the documents of all rows of one kind into an empty index. */
export const writeDocuments = (sqlite: Database, document: SearchDocument, index: string): void => {
  sqlite.exec(textOf(document, 'TRUE', index));
};

const writeAnew = (sqlite: Database, document: SearchDocument): void => {
  const { index } = document;
  sqlite.exec(`INSERT INTO ${index} (${index}) VALUES ('delete-all')`);
  gatheringMore(sqlite, document, () => writeDocuments(sqlite, document, index));
};

/** Writes the whole search index again. */
export const rebuildSearch = (sqlite: Database): void => {
  for (const document of searchDocuments) writeAnew(sqlite, document);
};

/** Bytes of words that FTS5 gathers before it writes them: its own measure, and one for thousands of rows. */
const usualGathered = 1_048_576;
const bulkGathered = 4_194_304;

/** Gathers more words at once while many documents are written, which takes a quarter less time. */
const gatheringMore = (sqlite: Database, { index }: SearchDocument, write: () => void): void => {
  const gather = (bytes: number) =>
    sqlite.exec(`INSERT INTO ${index} (${index}, rank) VALUES ('hashsize', ${bytes})`);
  gather(bulkGathered);
  write();
  gather(usualGathered);
};

/**
 * For bulk work, inside its transaction: new rows go unnoted until `searchNewRows`, which finds them by their
 * numbers. What changes of older ones, and of what they carry, is noted as ever.
 */
export const searchLater = (sqlite: Database): void => {
  for (const { index } of searchDocuments) sqlite.exec(`DROP TRIGGER temp.${index}_insert`);
};

/**
 * Adds the documents of rows that came since bulk work began, see `bulk_start`, and notes those of rows that
 * the action `change` put in the place of older ones; new rows are noted again from here on.
 */
export const searchNewRows = (sqlite: Database, change: number): void => {
  for (const document of searchDocuments) {
    const { table } = document;
    const before = Number(
      sqlite.prepare('SELECT last_id FROM bulk_start WHERE table_name = ?').pluck().get(table) ?? 0,
    );
    sqlite
      .prepare(
        `INSERT OR IGNORE INTO temp.${staleOf(document)} SELECT row_id FROM change_row
         WHERE change_id = ? AND table_name = ? AND before IS NULL`,
      )
      .run(change, table);
    sqlite.prepare(`DELETE FROM temp.${staleOf(document)} WHERE id > ?`).run(before);
    if (newestOf(sqlite, table) > before)
      gatheringMore(sqlite, document, () => sqlite.exec(textOf(document, `${table}.id > ${before}`)));
    sqlite.exec(onNewRow(document).sql);
  }
};
