import type { Transaction } from 'kysely';
import { pieces } from '../../codec.ts';
import { plain } from '../../reference/plain.ts';
import { ensureRelease, saveCasting } from '../../reference/reference-write.ts';
import { rememberNames } from '../../reference/settled-names.ts';
import type { Schema } from '../../schema.ts';
import { listSales, updateSale } from '../sales/sales.ts';
import { readUnread, unreadToJson } from '../unread.ts';
import { type Followed, followReference } from './follow-reference.ts';
import { nameOfUnread, withoutNames } from './names-unread.ts';
import { nameWritten, type WaitingGroup } from './waiting-names.ts';

/** What the owner says that spellings mean. */
export type Settlement =
  | { as: 'casting'; name: string; maker: string; series: string }
  | { as: 'same'; castingId: number }
  | { as: 'release'; castingId: number; name: string }
  | { as: 'not a car' };

/** The casting of this name in this series, added where there is none. */
const castingNamed = async (
  trx: Transaction<Schema>,
  { name, maker, series }: { name: string; maker: string; series: string },
  firstYear: number | null,
): Promise<number> => {
  const rows = await trx
    .selectFrom('casting')
    .innerJoin('series', 'series.id', 'casting.series_id')
    .innerJoin('maker', 'maker.id', 'series.maker_id')
    .select(['casting.id', 'casting.name', 'series.name as series', 'maker.name as maker'])
    .execute();
  const found = rows.find(
    row =>
      plain(row.name) === plain(name) &&
      plain(row.series) === plain(series) &&
      plain(row.maker) === plain(maker),
  );
  if (found) return found.id;
  const blank = { bodyType: '', lengthMm: null, materials: '', markings: '', notes: '' };
  return saveCasting(trx, { ...blank, maker, series, name, firstYear });
};

/** The releases of these years, or one of no known year; the first one's id. */
const releasesOf = async (
  trx: Transaction<Schema>,
  castingId: number,
  name: string,
  years: readonly number[],
): Promise<number> => {
  const ids: number[] = [];
  for (const year of years.length > 0 ? years : [null])
    ids.push(await ensureRelease(trx, castingId, name, year));
  return ids[0]!;
};

const written = async (
  trx: Transaction<Schema>,
  { years }: Pick<WaitingGroup, 'years'>,
  settlement: Settlement,
): Promise<{
  means: 'casting' | 'release' | 'not a car';
  castingId: number | null;
  releaseId: number | null;
}> => {
  switch (settlement.as) {
    case 'casting': {
      const castingId = await castingNamed(trx, settlement, years[0] ?? null);
      if (years.length > 0) await releasesOf(trx, castingId, settlement.name, years);
      return { means: 'casting', castingId, releaseId: null };
    }
    case 'same':
      return { means: 'casting', castingId: settlement.castingId, releaseId: null };
    case 'release': {
      const { castingId, name } = settlement;
      return { means: 'release', castingId, releaseId: await releasesOf(trx, castingId, name, years) };
    }
    case 'not a car':
      return { means: 'not a car', castingId: null, releaseId: null };
  }
};

/** Sale records without a name, in whose texts that were not understood one of these names stands, have it. */
const nameSales = async (trx: Transaction<Schema>, saleIds: readonly number[], names: readonly string[]) => {
  const settled = new Set(names.map(plain));
  for (const sale of await listSales(trx, { ids: [...saleIds] })) {
    if (nameWritten(sale.asWritten) !== '') continue;
    const name = nameOfUnread(sale.unread ?? [], settled);
    if (name) await updateSale(trx, { ...sale, asWritten: { ...sale.asWritten, casting: name } });
  }
};

/** What was not understood of sale records, now without the names that are. */
const understand = async (trx: Transaction<Schema>, saleIds: readonly number[], names: readonly string[]) => {
  for (const ids of pieces(saleIds)) {
    const rows = await trx
      .selectFrom('sale_record')
      .select(['id', 'unread'])
      .where('id', 'in', ids)
      .where('unread', '!=', '[]')
      .execute();
    for (const row of rows) {
      const unread = unreadToJson(withoutNames(readUnread(row.unread), names));
      if (unread !== row.unread)
        await trx.updateTable('sale_record').set({ unread }).where('id', '=', row.id).execute();
    }
  }
};

/**
 * Settles a group of spellings: the reference gains what was said, the spellings are remembered for what is
 * imported later, and the cars and sale records that waited follow. `at` is the instant of settling.
 */
export const settleNames = async (
  trx: Transaction<Schema>,
  group: WaitingGroup,
  settlement: Settlement,
  at: string,
): Promise<Followed & { castingId: number | null }> => {
  const meaning = await written(trx, group, settlement);
  const texts = group.texts.map(({ text }) => text);
  await rememberNames(trx, texts, meaning, at);
  if (meaning.castingId === null) return { carIds: [], saleIds: [], castingId: null };
  await nameSales(trx, group.saleIds, texts);
  const followed = await followReference(trx, group, at);
  await understand(trx, followed.saleIds, texts);
  return { ...followed, castingId: meaning.castingId };
};
