import type { SaleEntry } from '../../../db/records/sales/sales.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import type { Session } from '../session/session.ts';
import type { SaleRow } from '../views.ts';
import { judgedSales } from './judged-sales.ts';

type Named = Pick<SaleEntry, 'castingId' | 'variationId' | 'asWritten'>;

/** The casting that was sold by its name, or as it was written. */
export const castingText = (index: ReferenceIndex, { castingId, asWritten }: Named): string =>
  (castingId === null ? undefined : index.castings.get(castingId)?.name) ?? asWritten.casting ?? '';

/** The variation that was sold, or the colour that was written. */
export const variationText = (
  index: ReferenceIndex,
  { variationId, asWritten }: Named,
): { variation: string; swatch: string | null } => {
  const variation = variationId === null ? undefined : index.variations.get(variationId);
  if (variation) return { variation: variation.label, swatch: variation.swatch };
  const colour = asWritten.colour ?? '';
  return { variation: colour, swatch: index.swatchOf(colour) };
};

/** Sale records as lists show them. */
export const saleRows = async (session: Session, sales: readonly SaleEntry[]): Promise<SaleRow[]> => {
  const index = await referenceIndex(session);
  const { stateOf, doubtOf, amongOf } = await judgedSales(session);
  return sales.map(sale => ({
    id: sale.id,
    soldOn: sale.soldOn,
    price: sale.price,
    currency: sale.currency,
    castingId: sale.castingId,
    casting: castingText(index, sale),
    variationId: sale.variationId,
    ...variationText(index, sale),
    grade: sale.grade,
    finishState: sale.finishState,
    missingParts: sale.missingParts,
    reproductionParts: sale.reproductionParts,
    source: sale.source,
    reference: sale.reference,
    reliabilityPercent: sale.reliabilityPercent,
    excluded: sale.excluded,
    excludedWhy: sale.excludedWhy,
    own: sale.disposalId !== null,
    state: stateOf(sale),
    doubt: doubtOf(sale.id),
    among: amongOf(sale.id),
    notes: sale.notes,
    unread: sale.unread ?? [],
  }));
};
