import type { Kysely, Transaction } from 'kysely';
import type { Minor } from '../../../valuation/types.ts';
import { readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** On what terms a lot is bid for: shares 0…1, and delivery in minor units of the reporting currency. */
export interface BidTerms {
  /** Share of what the cars bring that is to be left, and how sure of that. */
  margin: number;
  probability: number;
  /** What the house adds to the bid, and the tax on both. */
  premiumRate: number;
  taxRate: number;
  carriage: Minor;
}

const fields = ['margin', 'probability', 'premiumRate', 'taxRate', 'carriage'] as const;

/** The terms of a lot's bid as they were saved, or null; damaged ones are none. */
export const readLotBid = async (db: Kysely<Schema>, lotId: number): Promise<BidTerms | null> => {
  const row = await db.selectFrom('lot').select('bid').where('id', '=', lotId).executeTakeFirst();
  const terms = readJson(row?.bid ?? '') as BidTerms | null;
  return terms !== null && fields.every(field => Number.isFinite(terms[field])) ? terms : null;
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
