import type { Kysely, Transaction } from 'kysely';
import { readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** A version of the owner's steps; `body` is what was saved, to be checked by whoever uses it. */
export interface StoredSteps {
  version: number;
  body: unknown;
  note: string;
  madeAt: string;
}

/** The newest version, or undefined while the owner has changed nothing. */
export const latestSteps = async (db: Kysely<Schema>): Promise<StoredSteps | undefined> => {
  const row = await db
    .selectFrom('step_library')
    .selectAll()
    .orderBy('version', 'desc')
    .limit(1)
    .executeTakeFirst();
  return row && { version: row.version, body: readJson(row.body), note: row.note, madeAt: row.made_at };
};

/** All versions, the newest first. */
export const listSteps = async (db: Kysely<Schema>): Promise<StoredSteps[]> => {
  const rows = await db.selectFrom('step_library').selectAll().orderBy('version', 'desc').execute();
  return rows.map(row => ({
    version: row.version,
    body: readJson(row.body),
    note: row.note,
    madeAt: row.made_at,
  }));
};

/** Adds a version; earlier ones stay, since plans rest on them. Returns its number. */
export const addSteps = async (
  trx: Transaction<Schema>,
  steps: readonly object[],
  note: string,
  at: string,
): Promise<number> => {
  const version = ((await latestSteps(trx))?.version ?? 0) + 1;
  await trx
    .insertInto('step_library')
    .values({ version, body: JSON.stringify(steps), note, made_at: at })
    .execute();
  return version;
};
