import type { Kysely } from 'kysely';
import type { Minor } from '../../../valuation/types.ts';
import type { CarStatus, FinishState, Grade } from '../../../valuation/words.ts';
import { halfToGrade, heldOnce, pieces, readTexts } from '../../codec.ts';
import type { Schema } from '../../schema.ts';
import { carCandidates } from './cars.ts';

/** Of a car what sums, groups and orders of a whole collection are made of. */
export interface BriefCar {
  readonly id: number;
  readonly inventoryNumber: string;
  readonly status: CarStatus;
  readonly isSold: boolean;
  readonly isKept: boolean;
  readonly lotId: number | null;
  readonly castingId: number | null;
  readonly releaseId: number | null;
  readonly variationId: number | null;
  /** Variations that it may be, where the one is not known. */
  readonly candidates: number[];
  /**
   * The colour that it wears, where that is recorded and another; else what was written of a car without a
   * variation.
   */
  readonly colour: string;
  readonly wornColour: string;
  /** What was written of it. */
  readonly written: { readonly casting?: string; readonly release?: string; readonly colour?: string };
  readonly grade: Grade | null;
  readonly finishState: FinishState;
  /** Its cost, in the currency of its lot. */
  readonly cost: Minor | null;
  readonly isDecided: boolean;
  readonly photos: number;
  /** Something that was written of it is not understood. */
  readonly isUnread: boolean;
}

const none: number[] = [];
const nothing = {};

const writtenOf = (json: string): BriefCar['written'] => {
  if (json === '{}') return nothing;
  const { casting, release_name: release, colour } = readTexts(json);
  return { ...(casting && { casting }), ...(release && { release }), ...(colour && { colour }) };
};

const rowsOf = (db: Kysely<Schema>) =>
  db
    .selectFrom('car')
    .select([
      'id',
      'inventory_number',
      'status',
      'lot_id',
      'casting_id',
      'release_id',
      'variation_id',
      'as_written',
      'worn_colour',
      'grade_half',
      'finish_state',
      'cost_minor',
      'unread',
    ])
    .select(eb => [
      eb
        .exists(eb.selectFrom('decision').select('decision.id').whereRef('decision.car_id', '=', 'car.id'))
        .as('decided'),
      eb
        .selectFrom('photo')
        .select(photo => photo.fn.countAll<number>().as('number'))
        .whereRef('photo.car_id', '=', 'car.id')
        .as('photos'),
    ])
    .orderBy('id');

type Row = Awaited<ReturnType<ReturnType<typeof rowsOf>['execute']>>[number];

/** Columns in which null is no number. */
const numbers = (rows: readonly Row[], of: (row: Row) => number | null) =>
  Float64Array.from(rows, row => of(row) ?? Number.NaN);
const orNull = (value: number): number | null => (Number.isNaN(value) ? null : value);

/** What was read of some cars, column by column, as that takes a third of the memory of an object for each. */
class BriefColumns {
  readonly inventoryNumber: string[];
  readonly status: CarStatus[];
  readonly finishState: FinishState[];
  readonly wornColour: string[];
  readonly written: BriefCar['written'][];
  readonly lotId: Float64Array;
  readonly castingId: Float64Array;
  readonly releaseId: Float64Array;
  readonly variationId: Float64Array;
  readonly grade: Float32Array;
  readonly cost: Float64Array;
  readonly isDecided: Uint8Array;
  readonly photos: Uint32Array;
  readonly isUnread: Uint8Array;

  constructor(rows: readonly Row[], one: <Text extends string>(text: Text) => Text) {
    this.inventoryNumber = rows.map(row => row.inventory_number);
    this.status = rows.map(row => one(row.status));
    this.finishState = rows.map(row => one(row.finish_state));
    this.wornColour = rows.map(row => one(row.worn_colour));
    this.written = rows.map(row => writtenOf(row.as_written));
    this.lotId = numbers(rows, row => row.lot_id);
    this.castingId = numbers(rows, row => row.casting_id);
    this.releaseId = numbers(rows, row => row.release_id);
    this.variationId = numbers(rows, row => row.variation_id);
    this.grade = Float32Array.from(rows, row => halfToGrade(row.grade_half) ?? Number.NaN);
    this.cost = numbers(rows, row => row.cost_minor);
    this.isDecided = Uint8Array.from(rows, row => Number(row.decided));
    this.photos = Uint32Array.from(rows, row => Number(row.photos));
    this.isUnread = Uint8Array.from(rows, row => Number(row.unread !== '[]'));
  }
}

/** A car by its place in columns. */
class ColumnCar implements BriefCar {
  readonly id: number;
  readonly candidates: number[];
  readonly #columns: BriefColumns;
  readonly #place: number;

  constructor(id: number, candidates: number[], columns: BriefColumns, place: number) {
    this.id = id;
    this.candidates = candidates;
    this.#columns = columns;
    this.#place = place;
  }

  get inventoryNumber() {
    return this.#columns.inventoryNumber[this.#place]!;
  }
  get status() {
    return this.#columns.status[this.#place]!;
  }
  get isSold() {
    return this.status === 'sold';
  }
  get isKept() {
    return this.status === 'kept';
  }
  get lotId() {
    return orNull(this.#columns.lotId[this.#place]!);
  }
  get castingId() {
    return orNull(this.#columns.castingId[this.#place]!);
  }
  get releaseId() {
    return orNull(this.#columns.releaseId[this.#place]!);
  }
  get variationId() {
    return orNull(this.#columns.variationId[this.#place]!);
  }
  get wornColour() {
    return this.#columns.wornColour[this.#place]!;
  }
  get written() {
    return this.#columns.written[this.#place]!;
  }
  get colour() {
    return this.wornColour || (this.variationId === null ? (this.written.colour ?? '') : '');
  }
  get grade() {
    return orNull(this.#columns.grade[this.#place]!);
  }
  get finishState() {
    return this.#columns.finishState[this.#place]!;
  }
  get cost() {
    return orNull(this.#columns.cost[this.#place]!);
  }
  get isDecided() {
    return this.#columns.isDecided[this.#place] === 1;
  }
  get photos() {
    return this.#columns.photos[this.#place]!;
  }
  get isUnread() {
    return this.#columns.isUnread[this.#place] === 1;
  }
}

/** So many rows are read together, and let go of when they stand in their columns. */
const readTogether = 5000;

/** The cars in the order in which they were entered, in brief; all, or those of these ids. */
export const briefCars = async (db: Kysely<Schema>, carIds?: number[]): Promise<BriefCar[]> => {
  const candidates = await carCandidates(db, carIds);
  const one = heldOnce();
  const cars: BriefCar[] = [];
  const take = (rows: readonly Row[]) => {
    const columns = new BriefColumns(rows, one);
    for (const [place, { id }] of rows.entries())
      cars.push(new ColumnCar(id, candidates.get(id) ?? none, columns, place));
  };
  if (carIds) for (const ids of pieces(carIds)) take(await rowsOf(db).where('id', 'in', ids).execute());
  else
    for (let last = 0; ; last = cars.at(-1)!.id) {
      const rows = await rowsOf(db).where('id', '>', last).limit(readTogether).execute();
      take(rows);
      if (rows.length < readTogether) break;
    }
  return cars;
};
