import type { Database } from 'better-sqlite3';
import type { Kysely } from 'kysely';
import type { Schema } from './schema.ts';

/** A connection to the collection's file. */
export interface Connection {
  db: Kysely<Schema>;
  /** The same connection, for prepared statements. */
  sqlite: Database;
}

/** An open collection. Times are ISO 8601 instants in UTC, given by the host. */
export interface Collection {
  dir: string;
  readOnly: boolean;
  /** Every reader takes it; it cannot write, and sees what has been committed. */
  read: Connection;
  /** Used inside an action alone, whose writers take its transaction; see history.ts. */
  write: Connection;
  /** What was found at opening that its owner should know, as sentences. Usually empty. */
  notices: string[];
  /** Rows written since opening, and how many of them the newest backup holds; tells whether one is due. */
  rowsWritten(): number;
  backedUpRows: number;
  /**
   * Backs up what changed, then closes. A backup that fails keeps nothing open: its reason comes
   * back as a notice.
   */
  close(options: { at: string }): Promise<{ notices: string[] }>;
}
