import type { Insertable } from 'kysely';
import type { Schema } from '../../db/schema.ts';
import type { IsoDate, PartState } from '../../valuation/types.ts';
import type { FinishState, Grade } from '../../valuation/words.ts';
import type { DrawnView } from './drawing/spec.ts';

/** A row as it is written, with its id chosen by the demo, so that every reference is known beforehand. */
export type Row<T extends keyof Schema> = Insertable<Schema[T]> & { id: number };

/** The tables that the demo fills, in an order in which every reference already exists. */
export const demoTables = [
  'maker',
  'series',
  'casting',
  'casting_part',
  'casting_feature',
  'release',
  'variation',
  'colour',
  'lot',
  'lot_cost',
  'car',
  'car_candidate',
  'condition_check',
  'part_grade',
  'disposal',
  'sale_record',
  'exchange_rate',
  'part',
  'restoration_plan',
  'plan_line',
  'decision',
  'expense',
] as const satisfies (keyof Schema)[];
export type DemoTable = (typeof demoTables)[number];

/** A photograph still to be drawn: what it shows and where it belongs. */
export interface DemoPhoto {
  carId: number | null;
  lotId: number | null;
  view: string;
  caption: string;
  state: string;
  takenOn: IsoDate;
  position: number;
  drawn: DrawnView;
}

/** How a car stood on a day, for a valuation of that day. */
export interface CarThen {
  carId: number;
  grade: Grade | null;
  finishState: FinishState;
  parts: PartState[];
}

/** The cars that were in the collection on a day. */
export interface SnapshotDay {
  on: IsoDate;
  cars: CarThen[];
}

export interface DemoContent {
  tables: { [T in DemoTable]: Row<T>[] };
  photos: DemoPhoto[];
  snapshots: SnapshotDay[];
}
