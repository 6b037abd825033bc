import type { Generated } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';

interface SavedViewTable {
  id: Generated<number>;
  list: string;
  name: string;
  position: Generated<number>;
  body: string;
  made_at: string;
}

interface ReportDefinitionTable {
  id: Generated<number>;
  name: string;
  kind: string;
  body: string;
  made_at: string;
}

interface ReportKeptTable {
  id: Generated<number>;
  name: string;
  kind: string;
  definition_id: number | null;
  effective_on: IsoDate;
  made_at: string;
  total_minor: Minor | null;
  currency: Currency | null;
  cars: number | null;
  bytes: number;
  sha256: string;
  body: Generated<string>;
}

interface CastingSetTable {
  id: Generated<number>;
  name: string;
  notes: Generated<string>;
  made_at: string;
}

interface CastingSetMemberTable {
  id: Generated<number>;
  set_id: number;
  position: Generated<number>;
  casting_id: number | null;
  release_id: number | null;
  variation_id: number | null;
}

export interface PaperTables {
  saved_view: SavedViewTable;
  report_definition: ReportDefinitionTable;
  report_kept: ReportKeptTable;
  casting_set: CastingSetTable;
  casting_set_member: CastingSetMemberTable;
}
