import type { Database } from 'better-sqlite3';
import type { Insertable, Transaction } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import type { Grade, Originality, PartName } from '../../../valuation/words.ts';
import { gradeToHalf, pieces } from '../../codec.ts';
import { preparedInsert } from '../../prepared-insert.ts';
import type { Schema } from '../../schema.ts';
import { type HeardText, heardToJson, type UnreadText, unreadToJson } from '../unread.ts';
import { type CarRecord, carToRow } from './cars.ts';

export type NewCar = Partial<Omit<CarRecord, 'id' | 'inventoryNumber'>> & { inventoryNumber: string };

/** The row of a new car; `at` is the instant of entering. */
const newCarToRow = (car: NewCar, at: string) => {
  // Set one by one, as in `carToRow`: an import brings thousands.
  const row = carToRow(car) as Insertable<Schema['car']>;
  row.inventory_number = car.inventoryNumber;
  row.created_at = at;
  row.updated_at = at;
  return row;
};

/** Adds cars and returns their ids in the same order. `at` is the instant of entering. */
export const insertCars = async (trx: Transaction<Schema>, cars: NewCar[], at: string): Promise<number[]> => {
  const ids: number[] = [];
  for (const car of cars) {
    const row = await trx
      .insertInto('car')
      .values(newCarToRow(car, at))
      .returning('id')
      .executeTakeFirstOrThrow();
    ids.push(row.id);
  }
  return ids;
};

/** What a text says of one part of a car. */
export interface PartSaid {
  part: PartName;
  grade: Grade | null;
  originality: Originality;
  note: string;
}

/** What a list says of a new car besides its own row. */
export interface WithCar {
  /** Variations that it may be. */
  candidates: readonly number[];
  /** Texts of its row that were not understood. */
  unread: readonly UnreadText[];
  /** Texts that words gave a meaning. */
  heard: readonly HeardText[];
  /** Parts that are not its own; they become a condition check of the day of entering. */
  missing: readonly PartName[];
  reproductions: readonly PartName[];
  parts: readonly PartSaid[];
  /** The day of that check, where it is said. */
  checkedOn: IsoDate | null;
  /** Why what was paid for it is left out of estimates; null where it counts. */
  purchaseLeftOut: string | null;
  sold: { soldOn: IsoDate; proceeds: Minor; currency: Currency } | null;
}

/**
 * Adds thousands of cars inside an action, one by one and each with the same parts given; `at` is the
 * instant of entering.
 */
export const carInserter = (sqlite: Database, at: string) => {
  const insertCar = preparedInsert(sqlite, 'car');
  const insertCandidate = preparedInsert(sqlite, 'car_candidate');
  const insertCheck = preparedInsert(sqlite, 'condition_check');
  const insertPart = preparedInsert(sqlite, 'part_grade');
  const insertDisposal = preparedInsert(sqlite, 'disposal');
  return (
    car: NewCar,
    { candidates, unread, heard, missing, reproductions, parts, checkedOn, purchaseLeftOut, sold }: WithCar,
  ): number => {
    const row = newCarToRow(car, at);
    row.purchase_left_out = purchaseLeftOut === null ? 0 : 1;
    row.purchase_left_out_why = purchaseLeftOut ?? '';
    row.unread = unreadToJson(unread);
    row.heard = heardToJson(heard);
    const id = insertCar(row);
    for (const variationId of candidates) insertCandidate({ car_id: id, variation_id: variationId });
    if (checkedOn !== null || missing.length + reproductions.length + parts.length > 0) {
      const grade = car.grade === undefined || car.grade === null ? null : gradeToHalf(car.grade);
      const on = checkedOn ?? at.slice(0, 10);
      const checkId = insertCheck({ car_id: id, checked_on: on, grade_half: grade, notes: '' });
      const insert = (originality: Originality) => (part: PartName) =>
        insertPart({ check_id: checkId, part, grade_half: null, originality, note: '' });
      missing.forEach(insert('missing'));
      reproductions.forEach(insert('reproduction'));
      for (const { part, grade: own, originality, note } of parts) {
        if (missing.includes(part) || reproductions.includes(part)) continue;
        const half = own === null ? null : gradeToHalf(own);
        insertPart({ check_id: checkId, part, grade_half: half, originality, note });
      }
    }
    if (sold)
      insertDisposal({
        car_id: id,
        sold_on: sold.soldOn,
        proceeds_minor: sold.proceeds,
        fees_minor: 0,
        currency: sold.currency,
        buyer: '',
        venue: '',
        notes: '',
      });
    return id;
  };
};

/** Replaces the variations that an open car may be. */
export const replaceCandidates = async (
  trx: Transaction<Schema>,
  carId: number,
  variationIds: number[],
): Promise<void> => {
  await trx.deleteFrom('car_candidate').where('car_id', '=', carId).execute();
  const rows = [...new Set(variationIds)].map(id => ({ car_id: carId, variation_id: id }));
  if (rows.length > 0) await trx.insertInto('car_candidate').values(rows).execute();
};

/**
 * Removes cars with all that hangs on them: checks, photographs' places, plans,
 * decisions, expenses, disposals.
 */
export const removeCars = async (trx: Transaction<Schema>, carIds: number[]): Promise<void> => {
  for (const ids of pieces(carIds)) await trx.deleteFrom('car').where('id', 'in', ids).execute();
};

/**
 * Gives the next free inventory numbers: the last car's number (of the lot, or of the collection) counted on
 * with as many digits, such as A-017 after A-016; 0001 in an empty collection. `given` are numbers about to
 * be entered beside them.
 */
export const inventoryNumberer = async (
  trx: Transaction<Schema>,
  lotId: number | null,
  given: Iterable<string> = [],
): Promise<() => string> => {
  const kept = await trx
    .selectFrom('car')
    .select(['inventory_number', 'lot_id'])
    .orderBy('id', 'desc')
    .execute();
  const rows = [...Array.from(given, inventory_number => ({ inventory_number, lot_id: lotId })), ...kept];
  const taken = new Set(rows.map(row => row.inventory_number.toLowerCase()));
  const numbered = (number: string) => /^(.*?)(\d+)$/.exec(number);
  const last =
    rows.find(row => lotId !== null && row.lot_id === lotId && numbered(row.inventory_number)) ??
    rows.find(row => numbered(row.inventory_number));
  const [, prefix = '', digits = '0000'] = (last && numbered(last.inventory_number)) ?? [];
  let next = Number(digits);
  for (const row of rows) {
    const parts = numbered(row.inventory_number);
    // Only numbers of the same form count on: A-2024-017 does not make A-016 jump.
    if (parts && parts[1]?.toLowerCase() === prefix.toLowerCase()) next = Math.max(next, Number(parts[2]));
  }
  return () => {
    for (;;) {
      next += 1;
      const number = `${prefix}${String(next).padStart(digits.length, '0')}`;
      if (!taken.has(number.toLowerCase())) return number;
    }
  };
};

/** So many of the next free inventory numbers, as `inventoryNumberer` gives them. */
export const nextInventoryNumbers = async (
  trx: Transaction<Schema>,
  count: number,
  lotId: number | null,
  given: string[] = [],
): Promise<string[]> => {
  const next = await inventoryNumberer(trx, lotId, given);
  return Array.from({ length: count }, next);
};

/** Changes many cars; those with the same changes are written together. */
export const updateCars = async (
  trx: Transaction<Schema>,
  updates: { id: number; changes: Partial<Omit<CarRecord, 'id'>> }[],
  at: string,
): Promise<void> => {
  const groups = new Map<string, { values: ReturnType<typeof carToRow>; ids: number[] }>();
  for (const { id, changes } of updates) {
    const values = carToRow(changes);
    if (Object.keys(values).length === 0) continue;
    const key = JSON.stringify(values);
    const group = groups.get(key);
    if (group) group.ids.push(id);
    else groups.set(key, { values, ids: [id] });
  }
  for (const { values, ids } of groups.values())
    for (const piece of pieces(ids))
      await trx
        .updateTable('car')
        .set({ ...values, updated_at: at })
        .where('id', 'in', piece)
        .execute();
};
