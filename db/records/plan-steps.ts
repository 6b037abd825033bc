import type { Selectable } from 'kysely';
import type { WorkLine } from '../../valuation/types.ts';
import { hazards, partNames } from '../../valuation/words.ts';
import { readJson, readWords } from '../codec.ts';
import type { Schema } from '../schema.ts';

/** A line as it is saved with a plan. */
export type SavedLine = Omit<WorkLine, 'after' | 'brings'>;

/** A line of a plan as a row, without the plan that it belongs to. Shares are kept to the thousandth. */
export const stepToRow = (line: SavedLine, position: number) => ({
  position,
  step: line.id,
  name: line.name,
  part: line.part ?? '',
  hands_low: Math.round(line.hands.low),
  hands_likely: Math.round(line.hands.likely),
  hands_high: Math.round(line.hands.high),
  waiting_low: Math.round(line.waiting.low),
  waiting_likely: Math.round(line.waiting.likely),
  waiting_high: Math.round(line.waiting.high),
  hazards: JSON.stringify(line.hazards),
  why: JSON.stringify(line.why),
  spoil_permille: Math.round(line.spoilChance * 1000),
  spoiled_share_permille: Math.round(line.spoiledShare * 1000),
  materials: JSON.stringify(line.materials),
});

/** The line that a row says. */
export const rowToStep = (row: Selectable<Schema['plan_step']>): SavedLine => ({
  id: row.step,
  name: row.name,
  part: partNames.find(part => part === row.part) ?? null,
  hands: { low: row.hands_low, likely: row.hands_likely, high: row.hands_high },
  waiting: { low: row.waiting_low, likely: row.waiting_likely, high: row.waiting_high },
  hazards: readWords(row.hazards, hazards),
  why: readJson(row.why) as WorkLine['why'],
  spoilChance: row.spoil_permille / 1000,
  spoiledShare: row.spoiled_share_permille / 1000,
  materials: readJson(row.materials) as WorkLine['materials'],
});
