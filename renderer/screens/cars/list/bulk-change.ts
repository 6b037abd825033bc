import type { ChosenCars } from '../../../../electron/api/views.ts';
import type { CarStatus, FinishState, Grade } from '../../../../valuation/words.ts';

export type BulkPatch =
  | { grade: Grade | null }
  | { finishState: FinishState }
  | { status: Exclude<CarStatus, 'sold'> }
  | { location: string };

/** One action for all of them; a sold car keeps its status until its sale is taken back. */
export const bulkChange = ({ ids, sold, only }: ChosenCars, patch: BulkPatch, says: string) => {
  const isSold = new Set(sold);
  const changed = 'status' in patch ? ids.filter(id => !isSold.has(id)) : ids;
  const verb = 'grade' in patch ? 'Graded' : 'location' in patch ? 'Moved' : 'Marked';
  const whose = changed.length === 1 ? (only ?? '') : `${changed.length} cars`;
  return {
    changes: changed.map(id => ({ id, patch })),
    label: `${verb} ${whose} ${says}`,
  };
};
