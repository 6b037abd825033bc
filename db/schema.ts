import type { Generated } from 'kysely';
import type { Currency, IsoDate, Minor } from '../valuation/types.ts';
import type {
  BasePaint,
  CarStatus,
  FinishState,
  LotCostKind,
  Option,
  Originality,
  PartName,
  PlanKind,
  PlanLineKind,
  Rarity,
  VariationFeature,
} from '../valuation/words.ts';

/** A grade doubled, as rows keep it so that it stays whole. */
export type HalfGrade = number & { readonly __unit?: 'half grade' };

interface MakerTable {
  id: Generated<number>;
  name: string;
  country: string | null;
  notes: Generated<string>;
}

interface SeriesTable {
  id: Generated<number>;
  maker_id: number;
  name: string;
  first_year: number | null;
  last_year: number | null;
  notes: Generated<string>;
}

interface CastingTable {
  id: Generated<number>;
  series_id: number;
  name: string;
  body_type: Generated<string>;
  first_year: number | null;
  length_mm: number | null;
  materials: Generated<string>;
  markings: Generated<string>;
  notes: Generated<string>;
}

interface CastingPartTable {
  id: Generated<number>;
  casting_id: number;
  part: PartName;
  detail: Generated<string>;
}

interface CastingFeatureTable {
  id: Generated<number>;
  casting_id: number;
  feature: VariationFeature;
  value: string;
}

interface ReleaseTable {
  id: Generated<number>;
  casting_id: number;
  name: string;
  year: number | null;
  changed_part: Generated<string>;
  notes: Generated<string>;
}

interface VariationTable {
  id: Generated<number>;
  release_id: number;
  colour: Generated<string>;
  body_finish: Generated<string>;
  base_paint: Generated<BasePaint | ''>;
  rear_end: Generated<string>;
  roof: Generated<string>;
  interior: Generated<string>;
  glazing: Generated<string>;
  wheels: Generated<string>;
  accessory: Generated<string>;
  country: Generated<string>;
  rarity: Rarity | null;
  factory_specification: Generated<string>;
  notes: Generated<string>;
}

interface ColourTable {
  id: Generated<number>;
  name: string;
  swatch: string;
}

interface LotTable {
  id: Generated<number>;
  name: string;
  bought_on: IsoDate | null;
  seller: Generated<string>;
  currency: Currency;
  notes: Generated<string>;
  created_at: string;
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

interface SaleRecordTable {
  id: Generated<number>;
  sold_on: IsoDate;
  price_minor: Minor;
  currency: Currency;
  casting_id: number | null;
  variation_id: number | null;
  as_written: Generated<string>;
  grade_half: HalfGrade | null;
  finish_state: Generated<FinishState>;
  missing_parts: Generated<string>;
  reproduction_parts: Generated<string>;
  source: Generated<string>;
  reference: Generated<string>;
  reliability_percent: number | null;
  excluded: Generated<0 | 1>;
  excluded_why: Generated<string>;
  disposal_id: number | null;
  identity: string;
  notes: Generated<string>;
  unread: Generated<string>;
}

interface ExchangeRateTable {
  id: Generated<number>;
  currency: Currency;
  on_date: IsoDate;
  rate_e9: number;
}

interface AssumptionSetTable {
  id: Generated<number>;
  version: number;
  body: string;
  note: Generated<string>;
  made_at: string;
}

interface ValuationTable {
  id: Generated<number>;
  car_id: number;
  effective_on: IsoDate;
  made_at: string;
  currency: Currency;
  basis: string;
  assumption_set_id: number | null;
  as_found_low: Minor | null;
  as_found_mid: Minor | null;
  as_found_high: Minor | null;
  restored_low: Minor | null;
  restored_mid: Minor | null;
  restored_high: Minor | null;
  original_low: Minor | null;
  original_mid: Minor | null;
  original_high: Minor | null;
  evidence: Generated<string>;
}

interface RestorationPlanTable {
  id: Generated<number>;
  car_id: number;
  kind: Generated<PlanKind>;
  target_half: HalfGrade;
  deviations: Generated<string>;
  parts_after: Generated<string>;
  minutes_low: number;
  minutes_likely: number;
  minutes_high: number;
  spoil_permille: Generated<number>;
  spoiled_share_permille: Generated<number>;
  notes: Generated<string>;
}

interface PlanLineTable {
  id: Generated<number>;
  plan_id: number;
  kind: PlanLineKind;
  name: string;
  low_minor: Minor;
  likely_minor: Minor;
  high_minor: Minor;
  part_id: number | null;
  quantity: Generated<number>;
}

interface PartTable {
  id: Generated<number>;
  name: string;
  in_stock: Generated<number>;
  unit_minor: Minor | null;
  currency: Currency | null;
  notes: Generated<string>;
}

interface DecisionTable {
  id: Generated<number>;
  car_id: number;
  decided_on: IsoDate;
  choice: Option;
  recommended: string;
  overruled: Generated<string>;
  reason: Generated<string>;
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
}

interface SettingTable {
  id: Generated<number>;
  key: string;
  value: string;
}

interface WordTable {
  id: Generated<number>;
  column_name: Generated<string>;
  text: string;
  field: string;
  meaning: Generated<string>;
  added_at: string;
}

interface SettledNameTable {
  id: Generated<number>;
  text: string;
  means: 'casting' | 'release' | 'not a car';
  casting_id: number | null;
  release_id: number | null;
  settled_at: string;
}

interface PartedNamesTable {
  id: Generated<number>;
  one: string;
  other: string;
}

interface BeliefTable {
  id: Generated<number>;
  series_id: number | null;
  casting_id: number | null;
  variation_id: number | null;
  grade_half: HalfGrade;
  finish_state: Generated<FinishState>;
  low_minor: Minor;
  high_minor: Minor;
  currency: Currency;
  believed_on: IsoDate;
  note: Generated<string>;
}

interface ChangeTable {
  id: Generated<number>;
  label: string;
  made_at: string;
  undone: Generated<0 | 1>;
}

interface ChangeRowTable {
  id: Generated<number>;
  change_id: number;
  table_name: string;
  row_id: number;
  last_row_id: number | null;
  before: string | null;
  after: string | null;
}

/** The tables as the current schema has them; snake_case and doubled grades never leave `db/`. */
export interface Schema {
  maker: MakerTable;
  series: SeriesTable;
  casting: CastingTable;
  casting_part: CastingPartTable;
  casting_feature: CastingFeatureTable;
  release: ReleaseTable;
  variation: VariationTable;
  colour: ColourTable;
  lot: LotTable;
  lot_cost: LotCostTable;
  car: CarTable;
  car_candidate: CarCandidateTable;
  condition_check: ConditionCheckTable;
  part_grade: PartGradeTable;
  photo: PhotoTable;
  sale_record: SaleRecordTable;
  exchange_rate: ExchangeRateTable;
  assumption_set: AssumptionSetTable;
  valuation: ValuationTable;
  restoration_plan: RestorationPlanTable;
  plan_line: PlanLineTable;
  part: PartTable;
  decision: DecisionTable;
  expense: ExpenseTable;
  disposal: DisposalTable;
  setting: SettingTable;
  word: WordTable;
  settled_name: SettledNameTable;
  parted_names: PartedNamesTable;
  belief: BeliefTable;
  change: ChangeTable;
  change_row: ChangeRowTable;
}
