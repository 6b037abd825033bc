import type { Kysely, Transaction } from 'kysely';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import type { Schema } from '../../schema.ts';
import { rowToCar } from '../cars/cars.ts';
import { readReportingCurrency } from '../collection/settings.ts';
import { rowToSale } from '../sales/sales.ts';
import {
  type HeardText,
  heardToJson,
  isSaidOf,
  readHeard,
  readUnread,
  type UnreadText,
  unreadToJson,
} from '../unread.ts';
import { divide, isOfScale } from './divide.ts';
import { type SettleTerms, settleCar, unsettleCar } from './settle-car.ts';
import { settleSale, unsettleSale } from './settle-sale.ts';
import { namingOf } from './texts.ts';

/** The rows that an answer changed. */
export interface Settled {
  carIds: number[];
  saleIds: number[];
  /** Lots whose cost is to be shared out again. */
  toShare: number[];
}

const nothing = (): Settled => ({ carIds: [], saleIds: [], toShare: [] });

const rowsWith = async (db: Kysely<Schema>, column: 'unread' | 'heard') => ({
  cars: await db.selectFrom('car').selectAll().where(column, '!=', '[]').orderBy('id').execute(),
  sales: await db.selectFrom('sale_record').selectAll().where(column, '!=', '[]').orderBy('id').execute(),
});

const termsOf = async (db: Kysely<Schema>, at: string): Promise<SettleTerms> => ({
  naming: await namingOf(db),
  reporting: await readReportingCurrency(db),
  at,
});

const keep = (
  trx: Transaction<Schema>,
  table: 'car' | 'sale_record',
  id: number,
  texts: { heard: HeardText[]; unread?: UnreadText[] },
) =>
  trx
    .updateTable(table)
    .set({
      heard: heardToJson(texts.heard),
      ...(texts.unread && { unread: unreadToJson(texts.unread) }),
    })
    .where('id', '=', id)
    .execute();

/**
 * Applies words to all cars and sale records in which their texts were not understood, and to no other: each
 * takes what the text means where its owner has not given that himself meanwhile, and is identified again
 * where the text names what it is. `at` is the instant of the change.
 */
export const settleWords = async (
  trx: Transaction<Schema>,
  words: readonly OwnWord[],
  at: string,
): Promise<Settled> => {
  const done = nothing();
  const { cars, sales } = await rowsWith(trx, 'unread');
  if (words.length === 0 || cars.length + sales.length === 0) return done;
  const terms = await termsOf(trx, at);
  for (const row of cars) {
    const divided = divide(readUnread(row.unread), words);
    if (divided.settled.length === 0) continue;
    const { toShare, freed } = await settleCar(trx, rowToCar(row), divided, terms);
    const completes = divided.settled.findLast(({ gave }) => gave.sold_on ?? gave.sold_for);
    const settled = divided.settled.map(one => (freed && one === completes ? { ...one, freed } : one));
    await keep(trx, 'car', row.id, { heard: [...readHeard(row.heard), ...settled] });
    done.toShare.push(...toShare);
    done.carIds.push(row.id);
  }
  for (const row of sales) {
    const { settled, rest } = divide(readUnread(row.unread), words);
    if (settled.length === 0) continue;
    await settleSale(trx, rowToSale(row), settled, terms.naming);
    await keep(trx, 'sale_record', row.id, { heard: [...readHeard(row.heard), ...settled], unread: rest });
    done.saleIds.push(row.id);
  }
  return done;
};

/** True where a text was given its meaning by this word. */
const isHeardBy = (word: OwnWord, heard: HeardText): boolean =>
  heard.byScale ? isOfScale(word, heard) : word.field !== 'grade_scale' && isSaidOf(word, heard);

/** How many cars and sale records were read by each of these words, in their order. */
export const countUses = async (
  db: Kysely<Schema>,
  words: readonly OwnWord[],
): Promise<{ cars: number; sales: number }[]> => {
  const counts = words.map(() => ({ cars: 0, sales: 0 }));
  if (words.length === 0) return counts;
  for (const [table, what] of [
    ['car', 'cars'],
    ['sale_record', 'sales'],
  ] as const) {
    const rows = await db.selectFrom(table).select('heard').where('heard', '!=', '[]').execute();
    for (const { heard: json } of rows) {
      const heard = readHeard(json);
      for (const [i, word] of words.entries())
        if (heard.some(one => isHeardBy(word, one))) counts[i]![what]++;
    }
  }
  return counts;
};

/**
 * Takes from all rows that were read by one of these words what they gave them, where it still stands: their
 * texts wait again. A word that told how many cars a row is of keeps its cars.
 */
export const takeBackWords = async (
  trx: Transaction<Schema>,
  words: readonly OwnWord[],
  at: string,
): Promise<Settled> => {
  const done = nothing();
  const { cars, sales } = await rowsWith(trx, 'heard');
  if (words.length === 0 || cars.length + sales.length === 0) return done;
  const terms = await termsOf(trx, at);
  const part = (json: string, unreadJson: string) => {
    const all = readHeard(json);
    const gone = all.filter(
      entry => entry.gave.quantity === undefined && words.some(word => isHeardBy(word, entry)),
    );
    const known = readUnread(unreadJson);
    const waits = gone.filter(
      ({ column, text }) => !known.some(one => !one.holds && one.column === column && one.text === text),
    );
    return {
      gone,
      heard: all.filter(entry => !gone.includes(entry)),
      unread: [...known, ...waits.map(({ column, text, field }) => ({ column, text, field }))],
    };
  };
  for (const row of cars) {
    const { gone, heard, unread } = part(row.heard, row.unread);
    if (gone.length === 0) continue;
    done.toShare.push(...(await unsettleCar(trx, rowToCar(row), { heard: gone, unread }, terms)));
    await keep(trx, 'car', row.id, { heard });
    done.carIds.push(row.id);
  }
  for (const row of sales) {
    const { gone, heard, unread } = part(row.heard, row.unread);
    if (gone.length === 0) continue;
    await unsettleSale(trx, rowToSale(row), gone, terms.naming);
    await keep(trx, 'sale_record', row.id, { heard, unread });
    done.saleIds.push(row.id);
  }
  return done;
};
