import { type Kysely, sql } from 'kysely';
import type { SearchKind } from '../../valuation/words.ts';
import type { Schema } from '../schema.ts';
import { type SearchDocument, searchDocuments } from './search-documents.ts';

/** Something found; its screen is told by the kind. */
export interface SearchMatch {
  kind: SearchKind;
  id: number;
}

/** Words beyond these are left out of a query: each one costs time, and none of them narrows any more. */
const mostWords = 16;

/**
 * What the owner typed as a full-text query: every word quoted, so that none is an operator, and matched from
 * its beginning. Undefined where there is no letter or digit to look for.
 */
export const searchQuery = (text: string): string | undefined => {
  const words = text
    .replaceAll('\0', ' ')
    .split(/\s+/u)
    .filter(word => /[\p{L}\p{N}]/u.test(word));
  const asked = [...new Set(words)].slice(0, mostWords);
  return asked.length === 0 ? undefined : asked.map(word => `"${word.replaceAll('"', '""')}"*`).join(' ');
};

/**
 * Ranking every row of a large collection takes longer than a keystroke may; beyond this many,
 * order is as entered.
 */
const mostRanked = 2_000;

const match = async (
  db: Kysely<Schema>,
  { index }: SearchDocument,
  query: string,
  limit: number,
): Promise<number[]> => {
  const table = sql.table(index);
  const counted = await sql<{ n: number }>`
    SELECT count(*) AS n FROM (SELECT 1 FROM ${table} WHERE ${table} MATCH ${query} LIMIT ${mostRanked + 1})`.execute(
    db,
  );
  const order = (counted.rows[0]?.n ?? 0) > mostRanked ? sql`rowid` : sql`rank`;
  const found = await sql<{ id: number }>`
    SELECT rowid AS id FROM ${table} WHERE ${table} MATCH ${query} ORDER BY ${order} LIMIT ${limit}`.execute(
    db,
  );
  return found.rows.map(row => row.id);
};

/**
 * Finds cars, lots, castings, variations and sale records with all the words typed, each matched from its
 * beginning, best first within a kind; at most `limit` of each. A car whose inventory number is just what was
 * typed comes first.
 */
export const search = async (db: Kysely<Schema>, text: string, limit: number): Promise<SearchMatch[]> => {
  const query = searchQuery(text);
  if (query === undefined) return [];
  const exact = await db
    .selectFrom('car')
    .select('id')
    .where('inventory_number', '=', text.replaceAll('\0', '').trim())
    .executeTakeFirst();
  const matches: SearchMatch[] = exact ? [{ kind: 'car', id: exact.id }] : [];
  for (const document of searchDocuments)
    for (const id of await match(db, document, query, limit))
      if (document.kind !== 'car' || id !== exact?.id) matches.push({ kind: document.kind, id });
  return matches;
};

/** Every car with all the words typed, in the order of their entry: what the grid's filter shows. */
export const searchCarIds = async (db: Kysely<Schema>, text: string): Promise<number[]> => {
  const query = searchQuery(text);
  if (query === undefined) return [];
  const found = await sql<{ id: number }>`
    SELECT rowid AS id FROM car_search WHERE car_search MATCH ${query} ORDER BY rowid`.execute(db);
  return found.rows.map(row => row.id);
};
