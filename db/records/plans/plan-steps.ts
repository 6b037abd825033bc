import type { Selectable } from 'kysely';
import type { WorkLine } from '../../../valuation/types.ts';
import { partNames } from '../../../valuation/words.ts';
import { readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';
import { rowToWork, workToRow } from './work-step.ts';

/** A line as it is saved with a plan. */
export type SavedLine = Omit<WorkLine, 'after' | 'brings'>;

/** A line of a plan as a row, without the plan that it belongs to. Shares are kept to the thousandth. */
export const stepToRow = (line: SavedLine, position: number) => ({
  position,
  ...workToRow(line),
  spoil_permille: Math.round(line.spoilChance * 1000),
  spoiled_share_permille: Math.round(line.spoiledShare * 1000),
  materials: JSON.stringify(line.materials),
});

/** The line that a row says. */
export const rowToStep = (row: Selectable<Schema['plan_step']>): SavedLine => ({
  id: row.step,
  name: row.name,
  part: partNames.find(part => part === row.part) ?? null,
  ...rowToWork(row),
  why: readJson(row.why) as WorkLine['why'],
  spoilChance: row.spoil_permille / 1000,
  spoiledShare: row.spoiled_share_permille / 1000,
  materials: readJson(row.materials) as WorkLine['materials'],
});
