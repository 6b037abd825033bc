import type { Kysely, Selectable, Updateable } from 'kysely';
import type { IsoDate, Minor, Range } from '../../../valuation/types.ts';
import type { CarStatus, FinishState, Grade } from '../../../valuation/words.ts';
import { gradeToHalf, halfToGrade, inChunks, readTexts } from '../../codec.ts';
import type { Schema } from '../../schema.ts';
import { readUnread, type UnreadText, unreadToJson } from '../unread.ts';

/** One physical example. Its cost is in its lot's currency. */
export interface CarRecord {
  id: number;
  inventoryNumber: string;
  lotId: number | null;
  castingId: number | null;
  releaseId: number | null;
  variationId: number | null;
  /** Text as typed or imported, by our import columns. */
  asWritten: Record<string, string>;
  grade: Grade | null;
  finishState: FinishState;
  status: CarStatus;
  location: string;
  notes: string;
  /** What it wears now, where that is recorded and not what it was made in; empty texts otherwise. */
  wornColour: string;
  wornFinish: string;
  restorerMark: string;
  cost: Minor | null;
  costFixed: boolean;
  /** Its own day of purchase and seller, where it was bought by itself; else those of its lot count. */
  boughtOn: IsoDate | null;
  seller: string;
  /** The owner's own figures, in the reporting currency. */
  ownWorth: Range | null;
  /** What was written beside its fields and is not understood. */
  unread: UnreadText[];
}

/** A car as its row keeps it, read. */
export const rowToCar = (row: Selectable<Schema['car']>): CarRecord => ({
  id: row.id,
  inventoryNumber: row.inventory_number,
  lotId: row.lot_id,
  castingId: row.casting_id,
  releaseId: row.release_id,
  variationId: row.variation_id,
  asWritten: row.as_written === '{}' ? {} : readTexts(row.as_written),
  grade: halfToGrade(row.grade_half),
  finishState: row.finish_state,
  status: row.status,
  location: row.location,
  notes: row.notes,
  wornColour: row.worn_colour,
  wornFinish: row.worn_finish,
  restorerMark: row.restorer_mark,
  cost: row.cost_minor,
  costFixed: row.cost_fixed === 1,
  boughtOn: row.bought_on,
  seller: row.seller,
  ownWorth:
    row.own_low_minor === null || row.own_mid_minor === null || row.own_high_minor === null
      ? null
      : { low: row.own_low_minor, mid: row.own_mid_minor, high: row.own_high_minor },
  unread: readUnread(row.unread),
});

/** The columns of those parts of a car that are given. */
export const carToRow = (car: Partial<Omit<CarRecord, 'id'>>) => {
  // Set one by one: a list of cars comes through here, and spreading parts together takes many times longer.
  const row: Updateable<Schema['car']> = {};
  if (car.inventoryNumber !== undefined) row.inventory_number = car.inventoryNumber;
  if (car.lotId !== undefined) row.lot_id = car.lotId;
  if (car.castingId !== undefined) row.casting_id = car.castingId;
  if (car.releaseId !== undefined) row.release_id = car.releaseId;
  if (car.variationId !== undefined) row.variation_id = car.variationId;
  if (car.asWritten !== undefined) row.as_written = JSON.stringify(car.asWritten);
  if (car.grade !== undefined) row.grade_half = gradeToHalf(car.grade);
  if (car.finishState !== undefined) row.finish_state = car.finishState;
  if (car.status !== undefined) row.status = car.status;
  if (car.location !== undefined) row.location = car.location;
  if (car.notes !== undefined) row.notes = car.notes;
  if (car.wornColour !== undefined) row.worn_colour = car.wornColour;
  if (car.wornFinish !== undefined) row.worn_finish = car.wornFinish;
  if (car.restorerMark !== undefined) row.restorer_mark = car.restorerMark;
  if (car.cost !== undefined) row.cost_minor = car.cost;
  if (car.costFixed !== undefined) row.cost_fixed = car.costFixed ? 1 : 0;
  if (car.boughtOn !== undefined) row.bought_on = car.boughtOn;
  if (car.seller !== undefined) row.seller = car.seller;
  if (car.ownWorth !== undefined) {
    row.own_low_minor = car.ownWorth?.low ?? null;
    row.own_mid_minor = car.ownWorth?.mid ?? null;
    row.own_high_minor = car.ownWorth?.high ?? null;
  }
  if (car.unread !== undefined) row.unread = unreadToJson(car.unread);
  return row;
};

/** Which cars a list shows; every part narrows it. */
export interface CarFilter {
  ids?: number[];
  lotId?: number;
  castingId?: number;
  variationId?: number;
  includeSold?: boolean;
}

/** Cars in the order in which they were entered. */
export const listCars = async (db: Kysely<Schema>, filter: CarFilter = {}): Promise<CarRecord[]> => {
  const read = async (ids?: number[]) => {
    let query = db.selectFrom('car').selectAll();
    if (ids) query = query.where('id', 'in', ids);
    if (filter.lotId !== undefined) query = query.where('lot_id', '=', filter.lotId);
    if (filter.castingId !== undefined) query = query.where('casting_id', '=', filter.castingId);
    if (filter.variationId !== undefined) query = query.where('variation_id', '=', filter.variationId);
    if (filter.includeSold === false) query = query.where('status', '!=', 'sold');
    return (await query.orderBy('id').execute()).map(rowToCar);
  };
  return inChunks(
    filter.ids?.toSorted((a, b) => a - b),
    read,
  );
};

/** What texts to look for words in are made of. */
export interface CarTexts
  extends Pick<
    CarRecord,
    | 'id'
    | 'inventoryNumber'
    | 'lotId'
    | 'castingId'
    | 'releaseId'
    | 'variationId'
    | 'asWritten'
    | 'location'
    | 'notes'
    | 'unread'
    | 'grade'
    | 'finishState'
  > {
  /** Alike for cars that are alike in what they are and in what was written of it. */
  identityKey: string;
}

const nothingWritten: CarRecord['asWritten'] = {};
const nothingUnread: UnreadText[] = [];

/** Cars are read as all that lie between the first and the last where not more than so many times as many can lie there. */
const withOthers = 4;

/** The texts of these cars, whose ids ascend; others between them may come too. */
export const carTextsOf = async (db: Kysely<Schema>, ids: readonly number[]): Promise<CarTexts[]> => {
  const query = db
    .selectFrom('car')
    .select(['id', 'inventory_number', 'lot_id', 'casting_id', 'release_id', 'variation_id'])
    .select(['location', 'notes', 'grade_half', 'finish_state'])
    .select(({ fn, val }) => [
      fn<string | null>('nullif', ['as_written', val('{}')]).as('as_written'),
      fn<string | null>('nullif', ['unread', val('[]')]).as('unread'),
    ]);
  const [first = 0, last = 0] = [ids[0], ids.at(-1)];
  const wanted =
    last - first < withOthers * ids.length
      ? query.where('id', '>=', first).where('id', '<=', last)
      : query.where('id', 'in', ids);
  return (await wanted.execute()).map(row => ({
    id: row.id,
    inventoryNumber: row.inventory_number,
    lotId: row.lot_id,
    castingId: row.casting_id,
    releaseId: row.release_id,
    variationId: row.variation_id,
    identityKey: `${row.casting_id} ${row.release_id} ${row.variation_id} ${row.as_written ?? ''}`,
    asWritten: row.as_written === null ? nothingWritten : readTexts(row.as_written),
    location: row.location,
    notes: row.notes,
    unread: row.unread === null ? nothingUnread : readUnread(row.unread),
    grade: halfToGrade(row.grade_half),
    finishState: row.finish_state,
  }));
};

/** Of all cars what tells whether they are the owner's, in the order in which they were entered. */
export const carStandings = async (
  db: Kysely<Schema>,
): Promise<Pick<CarRecord, 'id' | 'status' | 'lotId'>[]> =>
  (await db.selectFrom('car').select(['id', 'status', 'lot_id']).orderBy('id').execute()).map(
    ({ id, status, lot_id: lotId }) => ({ id, status, lotId }),
  );

/** The ids of the cars entered before and after this one. */
export const neighbours = async (db: Kysely<Schema>, id: number) => {
  const find = async (operator: '<' | '>', order: 'asc' | 'desc') =>
    (
      await db
        .selectFrom('car')
        .select('id')
        .where('id', operator, id)
        .orderBy('id', order)
        .limit(1)
        .executeTakeFirst()
    )?.id ?? null;
  return { previousId: await find('<', 'desc'), nextId: await find('>', 'asc') };
};

/** Variations that each open car may be, by car id; all cars, or those given. */
export const carCandidates = async (
  db: Kysely<Schema>,
  carIds?: number[],
): Promise<Map<number, number[]>> => {
  const rows = await inChunks(carIds, ids => {
    const query = db.selectFrom('car_candidate').select(['car_id', 'variation_id']).orderBy('id');
    return (ids ? query.where('car_id', 'in', ids) : query).execute();
  });
  return new Map(
    [...Map.groupBy(rows, row => row.car_id)].map(([id, group]) => [id, group.map(row => row.variation_id)]),
  );
};

/** The inventory numbers of these cars, by their ids. */
export const inventoryNumbers = async (
  db: Kysely<Schema>,
  carIds: number[],
): Promise<Map<number, string>> => {
  const rows = await inChunks(carIds, ids => {
    const query = db.selectFrom('car').select(['id', 'inventory_number']);
    return (ids ? query.where('id', 'in', ids) : query).execute();
  });
  return new Map(rows.map(row => [row.id, row.inventory_number]));
};

/** True where the collection has a car at all, sold ones counted. */
export const hasCars = async (db: Kysely<Schema>): Promise<boolean> =>
  (await db.selectFrom('car').select('id').limit(1).executeTakeFirst()) !== undefined;

/** The ids of the cars of a grade, or of a finish state. */
export const carsOf = async (
  db: Kysely<Schema>,
  { grade, finishState }: { grade?: Grade; finishState?: FinishState },
): Promise<number[]> => {
  let query = db.selectFrom('car').select('id').orderBy('id');
  if (grade !== undefined) query = query.where('grade_half', '=', gradeToHalf(grade));
  if (finishState !== undefined) query = query.where('finish_state', '=', finishState);
  return (await query.execute()).map(({ id }) => id);
};
