import type { Kysely, Transaction } from 'kysely';
import { readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** A version of the owner's assumptions; `body` is what was saved, to be checked by whoever uses it. */
export interface StoredAssumptions {
  id: number;
  version: number;
  body: unknown;
  note: string;
  madeAt: string;
}

/** The newest version, or undefined while the owner has changed nothing. */
export const latestAssumptions = async (db: Kysely<Schema>): Promise<StoredAssumptions | undefined> => {
  const row = await db
    .selectFrom('assumption_set')
    .selectAll()
    .orderBy('version', 'desc')
    .limit(1)
    .executeTakeFirst();
  return (
    row && {
      id: row.id,
      version: row.version,
      body: readJson(row.body),
      note: row.note,
      madeAt: row.made_at,
    }
  );
};

/** All versions without their bodies, the newest first. */
export const assumptionVersions = async (
  db: Kysely<Schema>,
): Promise<{ version: number; madeAt: string; note: string }[]> => {
  const rows = await db
    .selectFrom('assumption_set')
    .select(['version', 'made_at', 'note'])
    .orderBy('version', 'desc')
    .execute();
  return rows.map(row => ({ version: row.version, madeAt: row.made_at, note: row.note }));
};

/** Adds a version; earlier ones stay, since past valuations rest on them. Returns its number. */
export const addAssumptions = async (
  trx: Transaction<Schema>,
  body: object,
  note: string,
  at: string,
): Promise<number> => {
  const version = ((await latestAssumptions(trx))?.version ?? 0) + 1;
  await trx
    .insertInto('assumption_set')
    .values({ version, body: JSON.stringify(body), note, made_at: at })
    .execute();
  return version;
};
