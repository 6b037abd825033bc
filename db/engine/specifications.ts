import type { Kysely } from 'kysely';
import type { FactorySpecification, ShelfPart } from '../../valuation/types.ts';
import { partNames } from '../../valuation/words.ts';
import { halfToGrade } from '../codec.ts';
import type { CarRecord } from '../records/cars/cars.ts';
import { readReportingCurrency } from '../records/collection/settings.ts';
import type { Schema } from '../schema.ts';

/** What work on a car goes by: what the factory made, and the spare parts that fit. */
export interface WorkedFrom {
  spec?: FactorySpecification;
  shelf?: ShelfPart[];
}

/**
 * Spare parts that are there, by the casting that they fit. One whose price is in another currency is left
 * out: its cost is not known.
 */
const shelfByCasting = async (db: Kysely<Schema>): Promise<Map<number, ShelfPart[]>> => {
  const currency = await readReportingCurrency(db);
  const rows = await db
    .selectFrom('part')
    .select(['name', 'part', 'originality', 'grade_half', 'unit_minor', 'currency', 'casting_id'])
    .where('in_stock', '>', 0)
    .where('casting_id', 'is not', null)
    .orderBy('id')
    .execute();
  const shelf = new Map<number, ShelfPart[]>();
  for (const row of rows) {
    const part = partNames.find(name => name === row.part);
    if (!part || row.originality === '' || row.casting_id === null) continue;
    if (row.unit_minor !== null && row.currency !== currency) continue;
    const fits = shelf.get(row.casting_id) ?? [];
    fits.push({
      name: row.name,
      part,
      originality: row.originality,
      cost: row.unit_minor ?? 0,
      grade: halfToGrade(row.grade_half),
    });
    shelf.set(row.casting_id, fits);
  }
  return shelf;
};

/** By car id, what work on each car goes by; nothing for a car of which not even the casting is known. */
export const readWorkedFrom = async (
  db: Kysely<Schema>,
  cars: readonly CarRecord[],
): Promise<Map<number, WorkedFrom>> => {
  const castings = new Map(
    (await db.selectFrom('casting').select(['id', 'bearings']).execute()).map(row => [row.id, row.bearings]),
  );
  const partRows = await db.selectFrom('casting_part').select(['casting_id', 'part']).execute();
  const parts = Map.groupBy(partRows, row => row.casting_id);
  const variations = new Map(
    (
      await db
        .selectFrom('variation')
        .select(['id', 'body_finish', 'base_paint', 'roof', 'rear_end', 'accessory', 'glazing', 'interior'])
        .execute()
    ).map(row => [row.id, row]),
  );
  const shelf = await shelfByCasting(db);
  const found = new Map<number, WorkedFrom>();
  for (const { id, castingId, variationId } of cars) {
    if (castingId === null) continue;
    const row = variationId === null ? undefined : variations.get(variationId);
    const fits = shelf.get(castingId);
    found.set(id, {
      spec: {
        bodyFinish: row?.body_finish ?? '',
        basePaint: row?.base_paint ?? '',
        roof: row?.roof ?? '',
        rearEnd: row?.rear_end ?? '',
        accessory: row?.accessory ?? '',
        glazing: row?.glazing ?? '',
        interior: row?.interior ?? '',
        parts: parts.get(castingId)?.map(({ part }) => part) ?? null,
        captiveBearings: castings.get(castingId) === 'captive',
      },
      ...(fits && { shelf: fits }),
    });
  }
  return found;
};
