import type { Generated } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';
import type { FinishState } from '../../valuation/words.ts';
import type { HalfGrade } from './half-grade.ts';

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
  heard: Generated<string>;
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

export interface MarketTables {
  sale_record: SaleRecordTable;
  exchange_rate: ExchangeRateTable;
  assumption_set: AssumptionSetTable;
  valuation: ValuationTable;
  belief: BeliefTable;
}
