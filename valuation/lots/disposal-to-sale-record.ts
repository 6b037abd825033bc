import type { Currency, IsoDate, Minor, SaleRecord, Subject } from '../types.ts';

/** The kind of source under which the owner's own sales stand in `AssumptionSet.sourceReliability`. */
export const ownSaleSource = 'own sale';

/**
 * The sale record that a disposal makes, so that the engine learns from the owner's own sales. Its price is
 * the proceeds before the owner's fees, which is what the buyer paid. Null where the casting is unknown or
 * nothing was paid: that tells nothing.
 */
export const disposalToSaleRecord = (
  id: number,
  car: Pick<Subject, 'castingId' | 'variationId' | 'grade' | 'finishState' | 'parts'>,
  disposal: { soldOn: IsoDate; proceeds: Minor; currency: Currency },
): SaleRecord | null => {
  if (car.castingId === null || disposal.proceeds <= 0) return null;
  const named = (originality: 'missing' | 'reproduction') =>
    car.parts.filter(part => part.originality === originality).map(({ part }) => part);
  return {
    id,
    soldOn: disposal.soldOn,
    price: disposal.proceeds,
    currency: disposal.currency,
    castingId: car.castingId,
    variationId: car.variationId,
    grade: car.grade,
    finishState: car.finishState,
    missingParts: named('missing'),
    reproductionParts: named('reproduction'),
    reliability: null,
    source: ownSaleSource,
  };
};
