import type { Insertable } from 'kysely';
import type { PaperTables } from '../../db/schema/paper.ts';
import type { WorkTables } from '../../db/schema/work.ts';
import type { Schema } from '../../db/schema.ts';
import type { IsoDate, PartState, PlanWishes } from '../../valuation/types.ts';
import type { FinishState, Grade } from '../../valuation/words.ts';
import type { DrawnView } from './drawing/spec.ts';

/** A row as it is written, with its id chosen by the demo, so that every reference is known beforehand. */
export type Row<T extends keyof Schema> = Insertable<Schema[T]> & { id: number };

/** What the program itself writes, and the demo does not bring as rows of its own. */
type OwnTable =
  | 'photo'
  | 'valuation'
  | 'assumption_set'
  | 'setting'
  | 'change'
  | 'change_row'
  | 'restoration_plan'
  | 'plan_line'
  | keyof WorkTables
  | keyof PaperTables;
/** The tables that the demo fills. */
export type DemoTable = Exclude<keyof Schema, OwnTable>;

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

/** What the owner plans for a car: what it takes is worked out from the car when the demo is written. */
export interface DemoPlan {
  carId: number;
  wishes: PlanWishes;
  notes: string;
}

export interface DemoContent {
  tables: { [T in DemoTable]: Row<T>[] };
  plans: DemoPlan[];
  photos: DemoPhoto[];
  snapshots: SnapshotDay[];
}
