import type { Database } from 'better-sqlite3';
import type { Kysely } from 'kysely';
import type { Schema } from './schema.ts';

/** An open collection. Times are ISO 8601 instants in UTC, given by the host. */
export interface Collection {
  dir: string;
  readOnly: boolean;
  /** The writing connection, for prepared statements inside an action; never used outside one. */
  sqlite: Database;
  /** The reading connection: every reader takes it. It cannot write, and sees what has been committed. */
  db: Kysely<Schema>;
  /** The same connection, for prepared statements. */
  reader: Database;
  /** Kysely on the writing connection; history.ts alone uses it. */
  writer: Kysely<Schema>;
  /** What was found at opening that its owner should know, as sentences. Usually empty. */
  notices: string[];
  /** Rows written since opening, and how many of them the newest backup holds; tells whether one is due. */
  rowsWritten(): number;
  backedUpRows: number;
  /** Backs up what changed, then closes. A backup that fails keeps nothing open: its reason comes back as a notice. */
  close(options: { at: string }): Promise<{ notices: string[] }>;
}
