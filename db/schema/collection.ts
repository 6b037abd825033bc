import type { Generated } from 'kysely';

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

export interface CollectionTables {
  setting: SettingTable;
  word: WordTable;
  change: ChangeTable;
  change_row: ChangeRowTable;
}
