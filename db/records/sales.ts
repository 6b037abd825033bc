import type { Kysely, Selectable, Transaction } from 'kysely';
import { type FinishState, type Grade, type PartName, partNames } from '../../valuation/words.ts';
import { gradeToHalf, halfToGrade, inChunks, readTexts, readWords } from '../codec.ts';
import { plain } from '../reference/match.ts';
import type { Schema } from '../schema.ts';

/** One observed sale of a comparable car, with what its owner keeps beside it. */
export interface SaleEntry {
  id: number;
  soldOn: string;
  price: number;
  currency: string;
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
  missing_parts: JSON.stringify(sale.missingParts),
  reproduction_parts: JSON.stringify(sale.reproductionParts),
  source: sale.source,
  reference: sale.reference,
  reliability_percent: sale.reliabilityPercent,
  excluded: sale.excluded ? (1 as const) : (0 as const),
  excluded_why: sale.excludedWhy,
  disposal_id: sale.disposalId,
  identity: saleIdentity(sale),
  notes: sale.notes,
});

/**
 * What makes two sale records the same observation: an own disposal's number; else the source and its reference where
 * both are given; else day, price, casting, variation, grade, finish state and source together.
 */
export const saleIdentity = (sale: Omit<SaleEntry, 'id'>): string => {
  if (sale.disposalId !== null) return `disposal ${sale.disposalId}`;
  // Where the variation is not known, the text tells one record from another.
  const of =
    sale.variationId === null
      ? `${sale.castingId ?? ''}${JSON.stringify(sale.asWritten)}`
      : `${sale.castingId}`;
  const shared = [plain(sale.source), sale.soldOn, sale.price, sale.currency, of, sale.variationId ?? ''];
  return sale.reference.trim() === ''
    ? ['seen', ...shared, sale.grade ?? '', sale.finishState, sale.missingParts.join('+')].join('|')
    : ['reference', ...shared, plain(sale.reference)].join('|');
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
  if (!filter.ids) return read();
  const sales: SaleEntry[] = [];
  for (const ids of inChunks(filter.ids)) sales.push(...(await read(ids)));
  return sales;
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
  for (const ids of inChunks(saleIds))
    await trx
      .updateTable('sale_record')
      .set({ excluded: excluded ? 1 : 0, excluded_why: excluded ? why : '' })
      .where('id', 'in', ids)
      .execute();
};

/** Removes sale records. */
export const removeSales = async (trx: Transaction<Schema>, saleIds: number[]): Promise<void> => {
  for (const ids of inChunks(saleIds)) await trx.deleteFrom('sale_record').where('id', 'in', ids).execute();
};
