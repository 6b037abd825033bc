import type { Transaction } from 'kysely';
import { isCurrency } from '../../../valuation/money.ts';
import { readDate } from '../../../valuation/reading/date.ts';
import { readMoney } from '../../../valuation/reading/money.ts';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import { seenCarIds } from '../../records/seen-lots.ts';
import type { Schema } from '../../schema.ts';

/** Why a row cannot be taken, and by which of its columns. */
export class Refusal extends Error {
  readonly column: string;
  /** Which of its record's rows it is about. */
  row = 0;
  constructor(column: string, reason: string) {
    super(reason);
    this.column = column;
  }
}

/** The text of one of a row's columns; '' where it is blank or absent. */
export type Row = (column: string) => string;

/** Takes a row, or finds that it is there already (false). Throws Refusal where it cannot stand. */
export type LedgerJudge = (row: Row) => Promise<boolean>;

export interface Terms {
  /** ISO instant of entering. */
  at: string;
  today: IsoDate;
  /** Takes the ids of cars that were sold, or of which it is newly known what has become of their finish. */
  soldCarIds: number[];
  /** Whether the file has a column of this name. */
  has: (column: string) => boolean;
  /** Says something of the whole list; the same twice is said once. */
  note: (text: string) => void;
}

export const text = (row: Row, column: string): string => {
  const said = row(column);
  if (said === '') throw new Refusal(column, 'this is missing');
  return said;
};

export const day = (row: Row, column: string, today: IsoDate | null): IsoDate => {
  const read = readDate(text(row, column), null, today);
  if (!read.ok) throw new Refusal(column, read.reason);
  return read.value;
};

export const currencyOf = (row: Row): Currency => {
  const code = text(row, 'currency').toUpperCase();
  if (!isCurrency(code))
    throw new Refusal('currency', `"${code}" is not a currency; write its ISO 4217 code`);
  return code;
};

export const amountOf = (written: string, column: string, currency: Currency): Minor => {
  // The lists are written with a point; a lone one before three digits is no thousand.
  const read = readMoney(written, currency, { chosen: '.', usual: null });
  if (!read.ok) throw new Refusal(column, read.reason);
  return read.value;
};

export const carsByNumber = async (trx: Transaction<Schema>): Promise<(row: Row) => number> => {
  const rows = await trx.selectFrom('car').select(['id', 'inventory_number']).execute();
  const ids = new Map(rows.map(row => [row.inventory_number.toLowerCase(), row.id]));
  return row => {
    const number = text(row, 'inventory_number');
    const id = ids.get(number.toLowerCase());
    if (id === undefined)
      throw new Refusal('inventory_number', `no car has the number ${number}: import the cars first`);
    return id;
  };
};

/** Refuses what only an owner can do with a car, of a car of a lot that was only seen. */
export const seenRefuser = async (trx: Transaction<Schema>): Promise<(carId: number) => void> => {
  const seen = new Set(await seenCarIds(trx));
  return carId => {
    if (seen.has(carId))
      throw new Refusal(
        'inventory_number',
        'this car is of a lot that was only seen: save the lot as bought first',
      );
  };
};

/** What is there already, counted, so that equal rows of one list are each taken. */
export const counted = (keys: readonly string[]) => {
  const counts = new Map<string, number>();
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1);
  return (key: string): boolean => {
    const left = counts.get(key) ?? 0;
    counts.set(key, left - 1);
    return left > 0;
  };
};
