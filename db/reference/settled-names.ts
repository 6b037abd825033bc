import type { Kysely, Transaction } from 'kysely';
import type { Parted } from '../../valuation/reading/names/group-names.ts';
import { pieces, readJson } from '../codec.ts';
import type { Schema } from '../schema.ts';
import { plain } from './plain.ts';

/** What the owner has said that a text means which is no name of the reference. */
export interface SettledName {
  text: string;
  means: Schema['settled_name']['means'];
  castingId: number | null;
  releaseId: number | null;
}

/** All settled texts, by their plain text. */
export const settledNames = async (db: Kysely<Schema>): Promise<Map<string, SettledName>> => {
  const rows = await db.selectFrom('settled_name').selectAll().orderBy('id').execute();
  return new Map(
    rows.map(row => [
      plain(row.text),
      { text: row.text, means: row.means, castingId: row.casting_id, releaseId: row.release_id },
    ]),
  );
};

/** Removes what was settled of these texts. */
export const forgetNames = async (trx: Transaction<Schema>, texts: readonly string[]): Promise<void> => {
  const gone = new Set(texts.map(plain));
  const rows = await trx.selectFrom('settled_name').select(['id', 'text']).execute();
  const ids = rows.filter(row => gone.has(plain(row.text))).map(row => row.id);
  for (const some of pieces(ids)) await trx.deleteFrom('settled_name').where('id', 'in', some).execute();
};

/**
 * Remembers what texts mean, in the place of what was settled of them before; `at` is the
 * instant of settling.
 */
export const rememberNames = async (
  trx: Transaction<Schema>,
  texts: readonly string[],
  meaning: Omit<SettledName, 'text'>,
  at: string,
): Promise<void> => {
  await forgetNames(trx, texts);
  const once = new Map(texts.map(text => [plain(text), text]));
  for (const text of once.values())
    await trx
      .insertInto('settled_name')
      .values({
        text,
        means: meaning.means,
        casting_id: meaning.castingId,
        release_id: meaning.releaseId,
        settled_at: at,
      })
      .execute();
};

/** The pairs of texts that are never one name, by their plain texts. */
export const partedNames = async (db: Kysely<Schema>): Promise<Parted[]> => {
  const rows = await db.selectFrom('parted_names').select(['one', 'other']).orderBy('id').execute();
  return rows.map(({ one, other }) => [plain(one), plain(other)] as const);
};

/** Remembers that a text is never one name with any of the others. */
export const partNames = async (
  trx: Transaction<Schema>,
  text: string,
  others: readonly string[],
): Promise<void> => {
  for (const other of new Set(others.map(plain))) {
    const [one = '', two = ''] = [plain(text), other].sort();
    if (one === two) continue;
    await trx
      .insertInto('parted_names')
      .values({ one, other: two })
      .onConflict(conflict => conflict.columns(['one', 'other']).doNothing())
      .execute();
  }
};

/** A text that was settled, as it is listed; `settledAt` is the instant. */
export interface Settlement extends SettledName {
  id: number;
  settledAt: string;
}

/** Two texts that are never one name. */
export interface PartedPair {
  id: number;
  one: string;
  other: string;
}

/** What was settled and parted, the newest first. */
export const listSettlements = async (
  db: Kysely<Schema>,
): Promise<{ settled: Settlement[]; parted: PartedPair[] }> => {
  const settled = await db
    .selectFrom('settled_name')
    .selectAll()
    .orderBy('settled_at', 'desc')
    .orderBy('id', 'desc')
    .execute();
  return {
    settled: settled.map(row => ({
      id: row.id,
      text: row.text,
      means: row.means,
      castingId: row.casting_id,
      releaseId: row.release_id,
      settledAt: row.settled_at,
    })),
    parted: await db
      .selectFrom('parted_names')
      .select(['id', 'one', 'other'])
      .orderBy('id', 'desc')
      .execute(),
  };
};

/** Lets go of what was settled and parted: later lists are read without it. What followed from it stays. */
export const takeBackSettlements = async (
  trx: Transaction<Schema>,
  {
    settled,
    parted,
    variations = [],
  }: { settled: readonly number[]; parted: readonly number[]; variations?: readonly number[] },
): Promise<void> => {
  for (const some of pieces(variations))
    await trx.deleteFrom('settled_variation').where('id', 'in', some).execute();
  for (const some of pieces(settled)) await trx.deleteFrom('settled_name').where('id', 'in', some).execute();
  for (const some of pieces(parted)) await trx.deleteFrom('parted_names').where('id', 'in', some).execute();
};

/** The variation that each settled description of a casting's cars means, by casting and text. */
export const settledVariations = async (db: Kysely<Schema>): Promise<Map<string, number>> => {
  const rows = await db
    .selectFrom('settled_variation')
    .select(['casting_id', 'seen', 'variation_id'])
    .execute();
  return new Map(rows.map(row => [`${row.casting_id} ${row.seen}`, row.variation_id]));
};

/** All settled descriptions, with the texts that they are made of. */
export const listSettledVariations = async (
  db: Kysely<Schema>,
): Promise<{ id: number; castingId: number; variationId: number; texts: Record<string, string> }[]> => {
  const rows = await db.selectFrom('settled_variation').selectAll().orderBy('id').execute();
  return rows.map(row => {
    const entries = readJson(row.seen);
    return {
      id: row.id,
      castingId: row.casting_id,
      variationId: row.variation_id,
      texts: Array.isArray(entries) ? Object.fromEntries(entries as [string, string][]) : {},
    };
  });
};

/**
 * Remembers that cars of a casting which are described so are of this variation; `at` is the instant of
 * settling.
 */
export const rememberVariation = async (
  trx: Transaction<Schema>,
  { castingId, variationId, seen }: { castingId: number; variationId: number; seen: string },
  at: string,
): Promise<void> => {
  await trx
    .insertInto('settled_variation')
    .values({ casting_id: castingId, variation_id: variationId, seen, settled_at: at })
    .onConflict(conflict =>
      conflict.columns(['casting_id', 'seen']).doUpdateSet({ variation_id: variationId, settled_at: at }),
    )
    .execute();
};
