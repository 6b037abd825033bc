import type { Kysely, Transaction } from 'kysely';
import type { BidCell } from '../../../valuation/reading/bid-cell.ts';
import { readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/**
 * On what terms a lot is bid for: the share of what the cars bring that is to be left, how sure of that, what the
 * house adds to the bid and the tax on both (shares 0…1), and delivery in minor units of the reporting currency.
 */
export type BidTerms = BidCell;

/** As bids begin. */
export const usualBid: BidTerms = { margin: 0.2, probability: 0.8, premiumRate: 0, taxRate: 0, carriage: 0 };

const fields = ['margin', 'probability', 'premiumRate', 'taxRate', 'carriage'] as const;

const termsOf = (bid: string): BidTerms | null => {
  const terms = readJson(bid) as BidTerms | null;
  return terms !== null && fields.every(field => Number.isFinite(terms[field])) ? terms : null;
};

/** The terms of a lot's bid as they were saved, or null; damaged ones are none. */
export const readLotBid = async (db: Kysely<Schema>, lotId: number): Promise<BidTerms | null> =>
  termsOf((await db.selectFrom('lot').select('bid').where('id', '=', lotId).executeTakeFirst())?.bid ?? '');

/** The terms of every lot that has some, by lot id. */
export const readLotBids = async (db: Kysely<Schema>): Promise<Map<number, BidTerms>> => {
  const bids = new Map<number, BidTerms>();
  for (const { id, bid } of await db
    .selectFrom('lot')
    .select(['id', 'bid'])
    .where('bid', '!=', '')
    .execute()) {
    const terms = termsOf(bid);
    if (terms) bids.set(id, terms);
  }
  return bids;
};

/** Saves the terms of a lot's bid. */
export const saveLotBid = async (
  trx: Transaction<Schema>,
  lotId: number,
  { margin, probability, premiumRate, taxRate, carriage }: BidTerms,
): Promise<void> => {
  const bid = JSON.stringify({ margin, probability, premiumRate, taxRate, carriage });
  await trx.updateTable('lot').set({ bid }).where('id', '=', lotId).executeTakeFirstOrThrow();
};

/** Removes the terms of a lot's bid: without a day and costs, it is then a lot that is there, not one that was seen. */
export const clearLotBid = async (trx: Transaction<Schema>, lotId: number): Promise<void> => {
  await trx.updateTable('lot').set({ bid: '' }).where('id', '=', lotId).executeTakeFirstOrThrow();
};
