import type { Database } from 'better-sqlite3';
import type { Kysely, Selectable, Transaction } from 'kysely';
import type { Currency, IsoDate, Minor, SaleRecord } from '../../../valuation/types.ts';
import { type FinishState, type Grade, type PartName, partNames } from '../../../valuation/words.ts';
import { gradeToHalf, halfToGrade, inChunks, pieces, readTexts, readWords } from '../../codec.ts';
import { preparedInsert } from '../../prepared-insert.ts';
import { plain } from '../../reference/plain.ts';
import type { Schema } from '../../schema.ts';
import { readUnread, type UnreadText, unreadToJson } from '../unread.ts';

/** One observed sale of a comparable car, with what its owner keeps beside it. */
export interface SaleEntry {
  id: number;
  soldOn: IsoDate;
  price: Minor;
  currency: Currency;
  castingId: number | null;
  variationId: number | null;
  asWritten: Record<string, string>;
  grade: Grade | null;
  finishState: FinishState;
  missingParts: PartName[];
  reproductionParts: PartName[];
  source: string;
  reference: string;
  reliabilityPercent: number | null;
  excluded: boolean;
  excludedWhy: string;
  /** Set where it came from the owner's own disposal. */
  disposalId: number | null;
  notes: string;
  /** What was written beside its fields and is not understood; left out, a write leaves it as it is. */
  unread?: UnreadText[];
}

/** A sale record as its row keeps it, read. */
export const rowToSale = (row: Selectable<Schema['sale_record']>): SaleEntry => ({
  id: row.id,
  soldOn: row.sold_on,
  price: row.price_minor,
  currency: row.currency,
  castingId: row.casting_id,
  variationId: row.variation_id,
  asWritten: row.as_written === '{}' ? {} : readTexts(row.as_written),
  grade: halfToGrade(row.grade_half),
  finishState: row.finish_state,
  missingParts: row.missing_parts === '[]' ? [] : readWords(row.missing_parts, partNames),
  reproductionParts: row.reproduction_parts === '[]' ? [] : readWords(row.reproduction_parts, partNames),
  source: row.source,
  reference: row.reference,
  reliabilityPercent: row.reliability_percent,
  excluded: row.excluded === 1,
  excludedWhy: row.excluded_why,
  disposalId: row.disposal_id,
  notes: row.notes,
  unread: readUnread(row.unread),
});

/** The columns of a sale record, its identity included. */
export const saleToRow = (sale: Omit<SaleEntry, 'id'>) => ({
  sold_on: sale.soldOn,
  price_minor: sale.price,
  currency: sale.currency,
  casting_id: sale.castingId,
  variation_id: sale.variationId,
  as_written: JSON.stringify(sale.asWritten),
  grade_half: gradeToHalf(sale.grade),
  finish_state: sale.finishState,
  missing_parts: sale.missingParts.length === 0 ? '[]' : JSON.stringify(sale.missingParts),
  reproduction_parts: sale.reproductionParts.length === 0 ? '[]' : JSON.stringify(sale.reproductionParts),
  source: sale.source,
  reference: sale.reference,
  reliability_percent: sale.reliabilityPercent,
  excluded: sale.excluded ? (1 as const) : (0 as const),
  excluded_why: sale.excludedWhy,
  disposal_id: sale.disposalId,
  identity: saleKey(sale),
  notes: sale.notes,
  ...(sale.unread && { unread: unreadToJson(sale.unread) }),
});

/**
 * What two records of one observation share in any case; every identity but an own disposal's begins with it.
 */
const sharedIdentity = (sale: Omit<SaleEntry, 'id'>): string => {
  const kind = sale.reference.trim() === '' ? 'seen' : 'reference';
  return [kind, plain(sale.source), sale.soldOn, sale.price, sale.currency, ''].join('|');
};

/** What besides tells two sales of one day, price and source apart. */
const ownIdentity = (sale: Omit<SaleEntry, 'id'>): string =>
  sale.reference.trim() === ''
    ? [sale.grade ?? '', sale.finishState, sale.missingParts.join('+')].join('|')
    : plain(sale.reference);

/**
 * What makes two sale records the same observation: an own disposal's number; else the source and
 * its reference where both are given; else day, price, casting, variation, grade, finish state
 * and source together.
 */
export const saleKey = (sale: Omit<SaleEntry, 'id'>): string => {
  if (sale.disposalId !== null) return `disposal ${sale.disposalId}`;
  // Where the variation is not known, the text tells one record from another.
  const of =
    sale.variationId === null
      ? `${sale.castingId ?? ''}${JSON.stringify(sale.asWritten)}`
      : `${sale.castingId}`;
  return `${sharedIdentity(sale)}${of}|${sale.variationId ?? ''}|${ownIdentity(sale)}`;
};

/** The observation as its text alone tells it, whatever the reference made of that text. */
const textIdentity = (sale: Omit<SaleEntry, 'id'>): string =>
  `${ownIdentity(sale)}|${plain(JSON.stringify(Object.entries(sale.asWritten).sort()))}`;

/**
 * Tells whether a sale is recorded already: as the same observation, or from the same text, which the
 * reference may have led elsewhere since. Each is looked up by what such records share, so that many records
 * cost no more than few.
 */
export const knownSales = (
  sqlite: Database,
): ((sale: Omit<SaleEntry, 'id'>, identity: string) => boolean) => {
  if (sqlite.prepare('SELECT 1 FROM sale_record LIMIT 1').get() === undefined) return () => false;
  const select = sqlite.prepare(
    'SELECT * FROM sale_record WHERE identity >= ? AND identity < ? AND disposal_id IS NULL',
  );
  return (sale, identity) => {
    const shared = sharedIdentity(sale);
    const rows = select.all(shared, `${shared.slice(0, -1)}}`) as Selectable<Schema['sale_record']>[];
    if (rows.length === 0) return false;
    const text = textIdentity(sale);
    return rows.some(row => row.identity === identity || textIdentity(rowToSale(row)) === text);
  };
};

/**
 * Adds thousands of sale records inside an action. Those of a casting that was `just` added may come to one
 * observation from several texts; they are numbered. `unread` are the texts of its row that were not
 * understood, as rows keep them.
 */
export const saleInserter = (sqlite: Database) => {
  const insert = preparedInsert(sqlite, 'sale_record');
  const taken = new Map<string, number>();
  return (
    row: ReturnType<typeof saleToRow>,
    just: boolean,
    texts: { unread: string; heard: string },
  ): void => {
    const times = just ? (taken.get(row.identity) ?? 0) + 1 : 1;
    if (just) taken.set(row.identity, times);
    // Set on the row, which nobody else has: to copy it takes as long as to make it.
    if (times > 1) row.identity = `${row.identity}|${times}`;
    insert(Object.assign(row, texts));
  };
};

/** The sale record that a disposal became, or undefined. */
export const saleOfDisposal = async (
  db: Kysely<Schema>,
  disposalId: number,
): Promise<SaleEntry | undefined> => {
  const row = await db
    .selectFrom('sale_record')
    .selectAll()
    .where('disposal_id', '=', disposalId)
    .executeTakeFirst();
  return row && rowToSale(row);
};

/**
 * A sale record as the engine takes it; null where it may not be used: its casting is not known, or its
 * owner left it out.
 */
export const saleToMarket = (sale: SaleEntry): SaleRecord | null =>
  sale.castingId === null || sale.excluded
    ? null
    : {
        id: sale.id,
        soldOn: sale.soldOn,
        price: sale.price,
        currency: sale.currency,
        castingId: sale.castingId,
        variationId: sale.variationId,
        grade: sale.grade,
        finishState: sale.finishState,
        missingParts: sale.missingParts,
        reproductionParts: sale.reproductionParts,
        reliability: sale.reliabilityPercent === null ? null : sale.reliabilityPercent / 100,
        source: sale.source,
      };

export interface SaleFilter {
  ids?: number[];
  castingId?: number;
  variationId?: number;
}

/** Sale records, the newest first. */
export const listSales = async (db: Kysely<Schema>, filter: SaleFilter = {}): Promise<SaleEntry[]> => {
  const read = async (ids?: number[]) => {
    let query = db.selectFrom('sale_record').selectAll();
    if (ids) query = query.where('id', 'in', ids);
    if (filter.castingId !== undefined) query = query.where('casting_id', '=', filter.castingId);
    if (filter.variationId !== undefined) query = query.where('variation_id', '=', filter.variationId);
    return (await query.orderBy('sold_on', 'desc').orderBy('id', 'desc').execute()).map(rowToSale);
  };
  return inChunks(filter.ids, read);
};

/** Adds a sale record. A second observation that is the same in all that tells sales apart gets a number. */
export const insertSale = async (trx: Transaction<Schema>, sale: Omit<SaleEntry, 'id'>): Promise<number> => {
  const values = saleToRow(sale);
  const identity = await freeIdentity(trx, values.identity, null);
  return (
    await trx
      .insertInto('sale_record')
      .values({ ...values, identity })
      .returning('id')
      .executeTakeFirstOrThrow()
  ).id;
};

/** Changes a sale record to these values. */
export const updateSale = async (trx: Transaction<Schema>, sale: SaleEntry): Promise<void> => {
  const { id, ...rest } = sale;
  const values = saleToRow(rest);
  const identity = await freeIdentity(trx, values.identity, id);
  await trx
    .updateTable('sale_record')
    .set({ ...values, identity })
    .where('id', '=', id)
    .executeTakeFirstOrThrow();
};

const freeIdentity = async (trx: Transaction<Schema>, identity: string, ownId: number | null) => {
  for (let number = 1; ; number += 1) {
    const candidate = number === 1 ? identity : `${identity}|${number}`;
    const taken = await trx
      .selectFrom('sale_record')
      .select('id')
      .where('identity', '=', candidate)
      .executeTakeFirst();
    if (!taken || taken.id === ownId) return candidate;
  }
};

/** Leaves sale records out of every estimate, or takes them in again. */
export const excludeSales = async (
  trx: Transaction<Schema>,
  saleIds: number[],
  excluded: boolean,
  why: string,
): Promise<void> => {
  for (const ids of pieces(saleIds))
    await trx
      .updateTable('sale_record')
      .set({ excluded: excluded ? 1 : 0, excluded_why: excluded ? why : '' })
      .where('id', 'in', ids)
      .execute();
};

/** Removes sale records. */
export const removeSales = async (trx: Transaction<Schema>, saleIds: number[]): Promise<void> => {
  for (const ids of pieces(saleIds)) await trx.deleteFrom('sale_record').where('id', 'in', ids).execute();
};
