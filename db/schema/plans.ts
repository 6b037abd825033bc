import type { Generated } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';
import type {
  Closure,
  Option,
  Originality,
  PartName,
  PlanKind,
  PlanLineKind,
} from '../../valuation/words.ts';
import type { HalfGrade } from './half-grade.ts';

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
  closure: Closure | null;
  wishes: Generated<string>;
  library_version: number | null;
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
  part: Generated<PartName | ''>;
  originality: Generated<Exclude<Originality, 'missing'> | ''>;
  grade_half: HalfGrade | null;
  casting_id: number | null;
  donor_car_id: number | null;
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

export interface PlanTables {
  restoration_plan: RestorationPlanTable;
  plan_line: PlanLineTable;
  part: PartTable;
  decision: DecisionTable;
}
