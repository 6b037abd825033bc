import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { type SearchDocument, searchDocuments } from './search-documents.ts';
import { writeDocuments } from './search-index.ts';

const countOf = (sqlite: Database, from: string) =>
  Number(sqlite.prepare(`SELECT count(*) FROM ${from}`).pluck().get());

/** Every word of an index with its places, as one hash. */
const hashOfWords = (sqlite: Database, schema: 'main' | 'temp', index: string): string => {
  sqlite.exec(`CREATE VIRTUAL TABLE temp.checked_words USING fts5vocab(${schema}, ${index}, instance)`);
  try {
    const hash = createHash('sha256');
    const words = sqlite.prepare('SELECT term, doc, col, offset FROM temp.checked_words').raw();
    for (const word of words.iterate()) hash.update(`${(word as unknown[]).join('\t')}\n`);
    return hash.digest('hex');
  } finally {
    sqlite.exec('DROP TABLE temp.checked_words');
  }
};

/** True where an index holds exactly the words of its rows: the same as one written from them now. */
const isCurrent = (sqlite: Database, document: SearchDocument): boolean => {
  const { index, table } = document;
  if (countOf(sqlite, `main.${index}_docsize`) !== countOf(sqlite, `main.${table}`)) return false;
  const definition = sqlite
    .prepare('SELECT sql FROM main.sqlite_schema WHERE name = ?')
    .pluck()
    .get(index) as string;
  const fresh = 'checked_index';
  sqlite.exec(definition.replace(index, `temp.${fresh}`));
  try {
    writeDocuments(sqlite, document, `temp.${fresh}`);
    return hashOfWords(sqlite, 'main', index) === hashOfWords(sqlite, 'temp', fresh);
  } finally {
    sqlite.exec(`DROP TABLE temp.${fresh}`);
  }
};

const isDamage = (error: unknown) =>
  error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_CORRUPT');

/**
 * True where an index is whole inside, by SQLite's own check; that is a command to a
 * connection that may write.
 */
const isWhole = (writer: Database, index: string): boolean => {
  writer.exec(`INSERT INTO main.${index} (${index}) VALUES ('integrity-check')`);
  return true;
};

/**
 * The kinds of rows whose search index is not what it should be: not whole, or other than one written from
 * the rows now. `writer` is the writing connection where there is one.
 */
export const faultySearchIndexes = (reader: Database, writer: Database | undefined): string[] =>
  searchDocuments
    .filter(document => {
      try {
        return !((!writer || isWhole(writer, document.index)) && isCurrent(reader, document));
      } catch (error) {
        if (isDamage(error)) return true;
        throw error;
      }
    })
    .map(document => document.kind);
