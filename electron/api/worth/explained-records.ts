import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import { listLots } from '../../../db/records/lots/lots.ts';
import { listSales } from '../../../db/records/sales/sales.ts';
import { listBeliefs } from '../../../db/records/worth/beliefs.ts';
import type { AdjustedRecord } from '../../../valuation/index.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { WorthExplanation } from '../views.ts';

/** The evidence of one kind that is among the records, by its id. */
const idsOf = (records: AdjustedRecord[], kinds: (string | undefined)[]): number[] =>
  records.filter(({ from }) => kinds.includes(from?.kind)).map(({ id }) => id);

/** Adjusted records with what each of them is: a sale record, a car that was bought, or a belief. */
export const explainedRecords = async (
  session: Session,
  car: CarRecord,
  records: AdjustedRecord[],
): Promise<WorthExplanation['records']> => {
  const { db } = openOf(session).read;
  const index = await referenceIndex(session);
  const labelOf = (castingId: number | null, variationId: number | null): string => {
    const variation = variationId === null ? undefined : index.variations.get(variationId);
    const casting = castingId === null ? undefined : index.castings.get(castingId);
    return [castingId === car.castingId ? undefined : casting?.name, variation?.label]
      .filter(Boolean)
      .join(', ');
  };
  const sales = new Map(
    (await listSales(db, { ids: idsOf(records, [undefined]) })).map(one => [one.id, one]),
  );
  const boughtIds = idsOf(records, ['purchase', 'lot']);
  const bought = new Map(
    boughtIds.length === 0
      ? []
      : (await listCars(db, { ids: boughtIds, includeSold: true })).map(one => [one.id, one]),
  );
  const lots = new Map(bought.size === 0 ? [] : (await listLots(db)).map(lot => [lot.id, lot]));
  const isBelieved = records.some(({ from }) => from?.kind === 'belief');
  const beliefs = new Map(isBelieved ? (await listBeliefs(db)).map(one => [one.id, one]) : []);
  return records.flatMap((record): WorthExplanation['records'] => {
    const { from } = record;
    if (!from) {
      const sale = sales.get(record.id);
      if (!sale) return [];
      const { soldOn, grade, finishState, source, castingId, variationId } = sale;
      return [{ ...record, soldOn, grade, finishState, variation: labelOf(castingId, variationId), source }];
    }
    if (from.kind === 'belief') {
      const belief = beliefs.get(record.id);
      if (!belief) return [];
      const { believedOn, grade, finishState, level, of, low, high, note } = belief;
      const variation =
        level === 'variation'
          ? labelOf(index.variations.get(of)?.castingId ?? null, of)
          : labelOf(level === 'casting' ? of : null, null);
      return [
        {
          ...record,
          soldOn: believedOn,
          grade,
          finishState,
          variation,
          source: note,
          believed: { low, high },
        },
      ];
    }
    const one = bought.get(record.id);
    const lot = lots.get(from.lotId);
    if (!one || !lot) return [];
    return [
      {
        ...record,
        soldOn: from.on,
        grade: from.grade,
        finishState: one.finishState,
        variation: labelOf(one.castingId, one.variationId),
        source: lot.seller,
        lot: lot.name,
      },
    ];
  });
};
