import type { Kysely, Transaction } from 'kysely';
import { plain } from '../../reference/plain.ts';
import type { Schema } from '../../schema.ts';
import { insertSale, type SaleEntry, saleKey } from './sales.ts';

/** A sale record that was read from a text, with what was not understood of it. */
export interface SeenSale {
  sale: Omit<SaleEntry, 'id'>;
  unread: { column: string; text: string }[];
}

/**
 * Those that are not recorded yet: neither from the same line nor as the same observation, nor
 * twice among themselves.
 */
export const unrecordedSales = async <T extends SeenSale>(db: Kysely<Schema>, sales: T[]): Promise<T[]> => {
  const fresh: T[] = [];
  const seen = new Set<string>();
  for (const one of sales) {
    const { sale } = one;
    const identity = saleKey(sale);
    const rows = await db
      .selectFrom('sale_record')
      .select(['identity', 'notes'])
      .where('sold_on', '=', sale.soldOn)
      .where('price_minor', '=', sale.price)
      .where('currency', '=', sale.currency)
      .where('disposal_id', 'is', null)
      .execute();
    const isKnown = rows.some(row => row.identity === identity || plain(row.notes) === plain(sale.notes));
    if (!isKnown && !seen.has(identity) && !seen.has(plain(sale.notes))) fresh.push(one);
    seen.add(identity).add(plain(sale.notes));
  }
  return fresh;
};

/** Adds sale records with what was not understood of them. */
export const insertSeenSales = async (trx: Transaction<Schema>, sales: SeenSale[]): Promise<void> => {
  for (const { sale, unread } of sales) {
    const id = await insertSale(trx, sale);
    await trx
      .updateTable('sale_record')
      .set({ unread: JSON.stringify(unread) })
      .where('id', '=', id)
      .execute();
  }
};
