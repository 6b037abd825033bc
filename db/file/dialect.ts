import type { Database } from 'better-sqlite3';
import {
  CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  Kysely,
  SqliteAdapter,
  SqliteDialect,
  SqliteDriver,
} from 'kysely';
import type { Schema } from '../schema.ts';

/** SQLite can roll a schema change back; Kysely's own adapter says that it cannot. */
class TransactionalAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

const refusing = (reason: unknown): DatabaseConnection => ({
  executeQuery: () => Promise.reject(reason),
  streamQuery: () => {
    throw reason;
  },
});

class CollectionDriver extends SqliteDriver {
  readonly #sqlite: Database;
  readonly #beforeUse: () => void;

  constructor(sqlite: Database, beforeUse: () => void) {
    super({ database: sqlite });
    this.#sqlite = sqlite;
    this.#beforeUse = beforeUse;
  }

  /**
   * A refusal comes with the query: one thrown here would leave Kysely's lock taken, and every later query
   * waiting for it.
   */
  override async acquireConnection(): Promise<DatabaseConnection> {
    try {
      this.#beforeUse();
    } catch (reason) {
      return refusing(reason);
    }
    return super.acquireConnection();
  }

  /**
   * Takes the write lock at once: a transaction that reads first can otherwise fail when it comes to write.
   */
  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw('begin immediate'));
  }

  /** SQLite has already rolled back by itself after some errors, a full disk among them. */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#sqlite.inTransaction) await super.rollbackTransaction(connection);
  }
}

/**
 * Kysely over an open better-sqlite3 handle; every transaction is BEGIN IMMEDIATE. `beforeUse` may
 * throw to refuse one.
 */
export const kyselyOver = (sqlite: Database, beforeUse: () => void = () => {}): Kysely<Schema> => {
  const plain = new SqliteDialect({ database: sqlite });
  const dialect: Dialect = {
    createAdapter: () => new TransactionalAdapter(),
    createDriver: () => new CollectionDriver(sqlite, beforeUse),
    createIntrospector: db => plain.createIntrospector(db),
    createQueryCompiler: () => plain.createQueryCompiler(),
  };
  return new Kysely<Schema>({ dialect });
};
