import type { LotRecord } from '../../../db/records/lots/lots.ts';
import { purchasesOfLot } from '../figures/purchase-evidence.ts';
import type { Session } from '../session/session.ts';
import type { LotEvidence } from '../views.ts';

/** What was paid for the cars of a lot, and whether it counts as evidence of what such cars bring. */
export const lotEvidence = async (
  session: Session,
  lot: Pick<LotRecord, 'id' | 'currency'>,
  cars: readonly { id: number; inventoryNumber: string }[],
  hasCost: boolean,
): Promise<LotEvidence> => {
  const numbers = new Map(cars.map(({ id, inventoryNumber }) => [id, inventoryNumber]));
  const purchases = await purchasesOfLot(session, lot.id, id => numbers.get(id) ?? '');
  return {
    purchases: purchases.map(({ purchase }) => purchase),
    lacks: purchases.length > 0 ? null : cars.length === 0 ? 'cars' : hasCost ? 'day' : 'cost',
    currency: lot.currency,
  };
};
