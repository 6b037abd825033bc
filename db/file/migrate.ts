import type { Database } from 'better-sqlite3';
import { sql } from 'kysely';
import { type Migration, Migrator } from 'kysely/migration';
import { migrations as shippedMigrations } from '../../migrations/index.ts';
import { CollectionError } from '../errors.ts';
import { kyselyOver } from './dialect.ts';

export type Steps = Record<string, Migration>;

/** Throws when the steps are not numbered 0001, 0002, … in the order in which they are listed. */
export const checkOrder = (steps: Steps): void => {
  Object.keys(steps).forEach((name, position) => {
    const expected = String(position + 1).padStart(4, '0');
    if (!new RegExp(`^${expected}-[a-z0-9-]+$`).test(name))
      throw new Error(`The schema step "${name}" is in place ${expected}`);
  });
};

/**
 * Brings an open database to the newest schema: all steps, the list of steps taken and `user_version` in one
 * transaction, so that a failed or killed migration leaves the file as it was. Foreign keys are off meanwhile
 * (a step may rebuild a table) and all of them are checked before the end.
 */
export const migrate = async (
  sqlite: Database,
  at: string,
  steps: Steps = shippedMigrations,
): Promise<void> => {
  checkOrder(steps);
  const db = kyselyOver(sqlite);
  sqlite.pragma('foreign_keys = OFF');
  try {
    await db.transaction().execute(async trx => {
      const migrator = new Migrator({ db: trx, provider: { getMigrations: async () => steps } });
      const { error, results } = await migrator.migrateToLatest();
      if (error) throw error;
      // Kysely takes its own time; the caller's makes the same collection the same bytes.
      const taken = results?.map(result => result.migrationName) ?? [];
      for (const name of taken)
        await sql`UPDATE kysely_migration SET timestamp = max(${at}, coalesce(
          (SELECT max(timestamp) FROM kysely_migration WHERE name < ${name}), ''))
          WHERE name = ${name}`.execute(trx);
      const broken = sqlite.pragma('foreign_key_check') as unknown[];
      if (broken.length > 0) throw new CollectionError({ kind: 'broken-migration', rows: broken.length });
      sqlite.pragma(`user_version = ${Object.keys(steps).length}`);
    });
  } finally {
    sqlite.pragma('foreign_keys = ON');
  }
};
