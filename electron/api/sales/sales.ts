import {
  excludeSales,
  insertSale,
  listSales,
  removeSales,
  type SaleEntry,
  updateSale,
} from '../../../db/records/sales/sales.ts';
import * as inputs from '../inputs.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { SaleRow } from '../views.ts';
import { saleLines } from './sale-lines.ts';
import { saleList } from './sale-list.ts';
import { saleRows } from './sale-rows.ts';

const list = needsCollection
  .input(inputs.listSales)
  .handler(
    async ({ context, input }): Promise<SaleRow[]> =>
      saleRows(context.session, await listSales(context.db, input)),
  );

/** The casting of a sale must exist, and its variation must be one of that casting's. */
const checkReference = (index: ReferenceIndex, castingId: number, variationId: number | null): void => {
  if (!index.castings.has(castingId)) throw notFound('casting', castingId);
  if (variationId === null) return;
  const variation = index.variations.get(variationId);
  if (!variation) throw notFound('variation', variationId);
  if (variation.castingId !== castingId) throw refused('That variation belongs to another casting.');
};

const castingName = (index: ReferenceIndex, castingId: number | null): string =>
  (castingId === null ? undefined : index.castings.get(castingId)?.name) ?? 'a car';

const create = needsCollection.input(inputs.saleRecord).handler(async ({ context, input }) => {
  const index = await referenceIndex(context.session);
  checkReference(index, input.castingId, input.variationId);
  const label = `Added a sale record of ${castingName(index, input.castingId)}`;
  return {
    id: await context.session.act(label, trx =>
      insertSale(trx, { ...input, asWritten: {}, excluded: false, excludedWhy: '', disposalId: null }),
    ),
  };
});

type SalePatch = Partial<Omit<SaleEntry, 'id'>>;

/** The record as a patch leaves it; another casting lets go of the variation. */
const changed = (
  index: ReferenceIndex,
  sale: SaleEntry,
  patch: { [Key in keyof SalePatch]: SalePatch[Key] | undefined },
): SaleEntry => {
  if (sale.disposalId !== null)
    throw refused('This record follows your own sale of a car. Change it on that car’s page.');
  const given = Object.fromEntries(
    Object.entries(patch).filter(([, value]) => value !== undefined),
  ) as SalePatch;
  const after: SaleEntry = { ...sale, ...given };
  if (patch.castingId !== undefined && patch.variationId === undefined && patch.castingId !== sale.castingId)
    after.variationId = null;
  if (after.castingId !== null) checkReference(index, after.castingId, after.variationId);
  return after;
};

const update = needsCollection.input(inputs.updateSale).handler(async ({ context, input }) => {
  const index = await referenceIndex(context.session);
  const { id, ...patch } = input;
  const [sale] = await listSales(context.db, { ids: [id] });
  if (!sale) throw notFound('sale record', id);
  const after = changed(index, sale, patch);
  await context.session.act(`Changed a sale record of ${castingName(index, after.castingId)}`, trx =>
    updateSale(trx, after),
  );
});

const updateMany = needsCollection.input(inputs.updateSales).handler(async ({ context, input }) => {
  const index = await referenceIndex(context.session);
  const ids = [...new Set(input.changes.map(change => change.id))];
  const sales = new Map((await listSales(context.db, { ids })).map(sale => [sale.id, sale]));
  for (const { id, patch } of input.changes) {
    const sale = sales.get(id);
    if (!sale) throw notFound('sale record', id);
    sales.set(id, changed(index, sale, patch));
  }
  await context.session.act(`Changed ${count(sales.size)}`, async trx => {
    for (const sale of sales.values()) await updateSale(trx, sale);
  });
});

const count = (number: number) => (number === 1 ? 'a sale record' : `${number} sale records`);

const remove = needsCollection.input(inputs.byIds).handler(async ({ context, input }) => {
  const sales = await listSales(context.db, { ids: input.ids });
  if (sales.some(sale => sale.disposalId !== null))
    throw refused('A record of your own sale of a car goes with that sale. Undo it on the car’s page.');
  await context.session.act(`Removed ${count(sales.length)}`, trx => removeSales(trx, input.ids));
});

const exclude = needsCollection.input(inputs.excludeSales).handler(async ({ context, input }) => {
  const label = input.excluded
    ? `Left ${count(input.ids.length)} out`
    : `Included ${count(input.ids.length)} again`;
  await context.session.act(label, trx => excludeSales(trx, input.ids, input.excluded, input.why));
});

export const sales = { list, create, update, updateMany, remove, exclude, ...saleList, ...saleLines };
