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

/** All triggers that keep the index current: a document's own rows, and the rows whose words it carries. */
const triggers = (): { name: string; sql: string }[] =>
  searchDocuments.flatMap(document => {
    const { index, table } = document;
    const of = (ids: string) => `SELECT id FROM ${table} WHERE id IN (${ids})`;
    const own = [
      onEvent(`${index}_insert`, 'INSERT', table, note(document, 'VALUES (NEW.id)')),
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

const installTriggers = (sqlite: Database) => {
  for (const { sql } of triggers()) sqlite.exec(sql);
};

const dropTriggers = (sqlite: Database) => {
  for (const { name } of triggers()) sqlite.exec(`DROP TRIGGER IF EXISTS temp.${name}`);
};

/**
 * Installs what keeps the search index current, on the writing connection alone: triggers that note the
 * documents that a change touches, for `refreshSearch` to write at the end of the action.
 */
export const installSearch = (sqlite: Database): void => {
  for (const document of searchDocuments)
    sqlite.exec(`CREATE TEMP TABLE ${staleOf(document)} (id INTEGER PRIMARY KEY)`);
  installTriggers(sqlite);
};

/**
 * Writes the documents that were noted, once each and in the order of their numbers: the index writes out
 * what it has gathered whenever a lower number follows a higher one. Inside the transaction of the change.
 */
export const refreshSearch = (sqlite: Database): void => {
  for (const document of searchDocuments) {
    const stale = staleOf(document);
    if (sqlite.prepare(`SELECT 1 FROM temp.${stale} LIMIT 1`).get() === undefined) continue;
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

/** Writes the whole search index anew. */
export const rebuildSearch = (sqlite: Database): void => {
  for (const document of searchDocuments) {
    sqlite.exec(`INSERT INTO ${document.index} (${document.index}) VALUES ('delete-all')`);
    sqlite.exec(textOf(document, 'TRUE'));
  }
};

/** Stops keeping the index current; inside a transaction that then calls one of the two below. */
export const pauseSearch = (sqlite: Database): void => dropTriggers(sqlite);

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
 * Adds the documents of rows that came since bulk work began, see `bulk_start`, and keeps the
 * index current again.
 */
export const resumeSearchWithNewRows = (sqlite: Database): void => {
  for (const document of searchDocuments)
    gatheringMore(sqlite, document, () =>
      sqlite.exec(
        textOf(
          document,
          `${document.table}.id > (SELECT last_id FROM bulk_start WHERE table_name = '${document.table}')`,
        ),
      ),
    );
  installTriggers(sqlite);
};

/** Writes the index anew and keeps it current again. */
export const resumeSearchRebuilt = (sqlite: Database): void => {
  rebuildSearch(sqlite);
  installTriggers(sqlite);
};

/** Runs `work` without the triggers, then writes the index anew. Inside a transaction. */
export const withSearchRebuilt = (sqlite: Database, work: () => void): void => {
  pauseSearch(sqlite);
  work();
  resumeSearchRebuilt(sqlite);
};
