import type { StoredDecision } from '../../../db/records/decisions.ts';
import type { Decision } from '../../../valuation/index.ts';
import type { CarRow, DecisionView } from '../views.ts';

/** A decision with the car it is about and what its owner recorded. */
export const decisionView = (
  decision: Decision,
  car: Pick<CarRow, 'inventoryNumber' | 'casting' | 'variation'>,
  recorded: StoredDecision | undefined,
): DecisionView => ({
  ...decision,
  inventoryNumber: car.inventoryNumber,
  casting: car.casting,
  variation: car.variation,
  recorded: recorded
    ? {
        choice: recorded.choice,
        decidedOn: recorded.decidedOn,
        recommended: recorded.recommended,
        overruled: recorded.overruled,
        reason: recorded.reason,
      }
    : null,
});
