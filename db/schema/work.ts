import type { Generated } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';
import type {
  CareKind,
  Closure,
  FidelityGrade,
  FinishState,
  JobState,
  JobStepState,
  Originality,
  PhotoMoment,
  SeasonStanding,
  WorkKind,
} from '../../valuation/words.ts';
import type { HalfGrade } from './half-grade.ts';

interface StepLibraryTable {
  id: Generated<number>;
  version: number;
  body: string;
  note: Generated<string>;
  made_at: string;
}

interface PlanStepTable {
  id: Generated<number>;
  plan_id: number;
  position: number;
  step: Generated<string>;
  name: string;
  part: Generated<string>;
  hands_low: Generated<number>;
  hands_likely: Generated<number>;
  hands_high: Generated<number>;
  waiting_low: Generated<number>;
  waiting_likely: Generated<number>;
  waiting_high: Generated<number>;
  hazards: Generated<string>;
  why: Generated<string>;
  spoil_permille: Generated<number>;
  spoiled_share_permille: Generated<number>;
  materials: Generated<string>;
  note: Generated<string>;
}

interface PlanTemplateTable {
  id: Generated<number>;
  name: string;
  kind: WorkKind;
  body: string;
  from_car_id: number | null;
  made_at: string;
}

interface SeasonTable {
  id: Generated<number>;
  name: string;
  made_on: IsoDate;
  closed_on: IsoDate | null;
  current: Generated<0 | 1>;
  minutes: number | null;
  cash_minor: Minor | null;
  currency: Currency;
  per_casting: number | null;
  parts: Generated<string>;
  expected_minor: Minor | null;
  expected_low_minor: Minor | null;
  expected_high_minor: Minor | null;
  notes: Generated<string>;
  most_cars: number | null;
}

interface SeasonCarTable {
  id: Generated<number>;
  season_id: number;
  car_id: number;
  position: number;
  kind: Generated<WorkKind>;
  expected_minor: Minor | null;
  cost_minor: Minor | null;
  minutes: number | null;
  found_minor: Minor | null;
  after_minor: Minor | null;
  colour: Generated<string>;
  standing: Generated<SeasonStanding>;
}

interface CarePlanTable {
  id: Generated<number>;
  car_id: number;
  kind: CareKind;
  minutes_low: number;
  minutes_likely: number;
  minutes_high: number;
  low_minor: Minor;
  likely_minor: Minor;
  high_minor: Minor;
  spoil_permille: Generated<number>;
  spoiled_share_permille: Generated<number>;
  wishes: Generated<string>;
  library_version: number;
  lines: Generated<string>;
  notes: Generated<string>;
}

interface SeasonExcludedTable {
  id: Generated<number>;
  season_id: number;
  car_id: number;
}

interface JobTable {
  id: Generated<number>;
  car_id: number;
  season_id: number | null;
  kind: WorkKind;
  state: Generated<JobState>;
  position: Generated<number>;
  added_at: string;
  started_at: string | null;
  ended_at: string | null;
  reason: Generated<string>;
  plan: Generated<string>;
  who: Generated<string>;
  notes: Generated<string>;
  looked_at: Generated<string>;
}

interface JobStepTable {
  id: Generated<number>;
  job_id: number;
  position: number;
  step: Generated<string>;
  name: string;
  part: Generated<string>;
  state: Generated<JobStepState>;
  hands_low: Generated<number>;
  hands_likely: Generated<number>;
  hands_high: Generated<number>;
  waiting_low: Generated<number>;
  waiting_likely: Generated<number>;
  waiting_high: Generated<number>;
  hazards: Generated<string>;
  why: Generated<string>;
  waits_until: string | null;
  done_at: string | null;
  spoiled: Generated<0 | 1>;
  note: Generated<string>;
  heard_at: string | null;
}

interface JobTimeTable {
  id: Generated<number>;
  step_id: number;
  started_at: string;
  ended_at: string | null;
  seconds: number | null;
  shared_by: Generated<number>;
}

interface JobMaterialTable {
  id: Generated<number>;
  job_id: number;
  step_id: number | null;
  used_on: IsoDate;
  name: string;
  minor: Minor;
  currency: Currency;
  expense_id: number | null;
}

interface JobPartTable {
  id: Generated<number>;
  job_id: number;
  step_id: number | null;
  used_on: IsoDate;
  name: string;
  part: Generated<string>;
  originality: Exclude<Originality, 'missing'>;
  part_id: number | null;
  donor_car_id: number | null;
  quantity: Generated<number>;
  minor: Generated<Minor>;
  currency: Currency;
  expense_id: number | null;
}

interface JobPhotoTable {
  id: Generated<number>;
  job_id: number;
  step_id: number | null;
  photo_id: number;
  moment: Generated<PhotoMoment>;
}

interface FinishedWorkTable {
  id: Generated<number>;
  car_id: number;
  job_id: number | null;
  check_id: number | null;
  finished_on: IsoDate;
  kind: WorkKind;
  finish_state: FinishState;
  finish_before: FinishState;
  grade_before_half: HalfGrade | null;
  colour: Generated<string>;
  body_finish: Generated<string>;
  base_paint: Generated<string>;
  roof: Generated<string>;
  closure: Generated<Closure | 'not opened' | ''>;
  bearings: Generated<string>;
  axles: Generated<string>;
  fidelity: FidelityGrade | null;
  departures: Generated<string>;
  left_as_was: Generated<string>;
  minutes: number | null;
  materials: Generated<string>;
  parts: Generated<string>;
  who: Generated<string>;
  mark: Generated<string>;
  notes: Generated<string>;
}

interface CarEventTable {
  id: Generated<number>;
  car_id: number;
  happened_on: IsoDate;
  cause: string;
  note: Generated<string>;
  check_id: number | null;
  before_half: HalfGrade | null;
  after_half: HalfGrade | null;
  worth_before_minor: Minor | null;
  worth_after_minor: Minor | null;
  currency: Currency | null;
}

export interface WorkTables {
  step_library: StepLibraryTable;
  plan_step: PlanStepTable;
  plan_template: PlanTemplateTable;
  season: SeasonTable;
  season_car: SeasonCarTable;
  season_excluded: SeasonExcludedTable;
  care_plan: CarePlanTable;
  job: JobTable;
  job_step: JobStepTable;
  job_time: JobTimeTable;
  job_material: JobMaterialTable;
  job_part: JobPartTable;
  job_photo: JobPhotoTable;
  finished_work: FinishedWorkTable;
  car_event: CarEventTable;
}
