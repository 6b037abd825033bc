import type { Generated } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';
import type { CarStatus, FinishState, LotCostKind, Originality, PartName } from '../../valuation/words.ts';
import type { HalfGrade } from './half-grade.ts';

interface LotTable {
  id: Generated<number>;
  name: string;
  bought_on: IsoDate | null;
  seller: Generated<string>;
  currency: Currency;
  notes: Generated<string>;
  created_at: string;
  price_from: Generated<'lot' | 'cars'>;
  purchase_left_out: Generated<0 | 1>;
  purchase_left_out_why: Generated<string>;
  /** JSON of its bid's terms; empty where none are saved. */
  bid: Generated<string>;
}

interface LotCostTable {
  id: Generated<number>;
  lot_id: number;
  kind: LotCostKind;
  minor: Minor;
  note: Generated<string>;
}

interface CarTable {
  id: Generated<number>;
  inventory_number: string;
  lot_id: number | null;
  casting_id: number | null;
  release_id: number | null;
  variation_id: number | null;
  as_written: Generated<string>;
  grade_half: HalfGrade | null;
  finish_state: Generated<FinishState>;
  status: Generated<CarStatus>;
  location: Generated<string>;
  notes: Generated<string>;
  cost_minor: Minor | null;
  cost_fixed: Generated<0 | 1>;
  own_low_minor: Minor | null;
  own_mid_minor: Minor | null;
  own_high_minor: Minor | null;
  created_at: string;
  updated_at: string;
  bought_on: IsoDate | null;
  unread: Generated<string>;
  worn_colour: Generated<string>;
  worn_finish: Generated<string>;
  restorer_mark: Generated<string>;
  heard: Generated<string>;
  seller: Generated<string>;
  purchase_left_out: Generated<0 | 1>;
  purchase_left_out_why: Generated<string>;
}

interface CarCandidateTable {
  id: Generated<number>;
  car_id: number;
  variation_id: number;
}

interface ConditionCheckTable {
  id: Generated<number>;
  car_id: number;
  checked_on: IsoDate;
  grade_half: HalfGrade | null;
  notes: Generated<string>;
}

interface PartGradeTable {
  id: Generated<number>;
  check_id: number;
  part: PartName;
  grade_half: HalfGrade | null;
  originality: Generated<Originality>;
  note: Generated<string>;
}

interface PhotoTable {
  id: Generated<number>;
  sha256: string;
  format: string;
  bytes: number;
  width: number;
  height: number;
  car_id: number | null;
  lot_id: number | null;
  variation_id: number | null;
  view: Generated<string>;
  caption: Generated<string>;
  state: Generated<string>;
  taken_on: IsoDate | null;
  position: Generated<number>;
  added_at: string;
}

interface ExpenseTable {
  id: Generated<number>;
  car_id: number;
  spent_on: IsoDate;
  what: string;
  minor: Minor;
  currency: Currency;
}

interface DisposalTable {
  id: Generated<number>;
  car_id: number;
  sold_on: IsoDate;
  proceeds_minor: Minor;
  fees_minor: Generated<Minor>;
  currency: Currency;
  buyer: Generated<string>;
  venue: Generated<string>;
  notes: Generated<string>;
  lot_id: number | null;
}

export interface CarTables {
  lot: LotTable;
  lot_cost: LotCostTable;
  car: CarTable;
  car_candidate: CarCandidateTable;
  condition_check: ConditionCheckTable;
  part_grade: PartGradeTable;
  photo: PhotoTable;
  expense: ExpenseTable;
  disposal: DisposalTable;
}
