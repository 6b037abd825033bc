import {
  excludeSales,
  insertSale,
  listSales,
  removeSales,
  type SaleEntry,
  updateSale,
} from '../../db/sales.ts';
import { currencyDecimals } from '../../valuation/money.ts';
import { needsCollection } from './context.ts';
import { notFound, refused } from './errors.ts';
import * as inputs from './inputs.ts';
import { marketToday } from './market.ts';
import { type ReferenceIndex, referenceIndex } from './reference-index.ts';
import type { SaleRow } from './views.ts';

const variationText = (
  index: ReferenceIndex,
  sale: SaleEntry,
): { variation: string; swatch: string | null } => {
  const variation = sale.variationId === null ? undefined : index.variations.get(sale.variationId);
  if (variation) return { variation: variation.label, swatch: variation.swatch };
  const colour = sale.asWritten.colour ?? '';
  return { variation: colour, swatch: index.swatchOf(colour) };
};

const list = needsCollection
  .input(inputs.listSales)
  .handler(async ({ context, input }): Promise<SaleRow[]> => {
    const index = await referenceIndex(context.session);
    const fitted = await marketToday(context.session);
    const aside = new Map(fitted.setAside.map(({ id, why }) => [id, why]));
    const doubted = new Map(
      fitted.doubtful.map(({ id, departure }) => [
        id,
        `${Math.abs(departure).toFixed(1)} standard deviations ${departure > 0 ? 'above' : 'below'} what the other records foretell; it counts little`,
      ]),
    );
    return (await listSales(context.db, input)).map(sale => ({
      id: sale.id,
      soldOn: sale.soldOn,
      price: sale.price,
      currency: sale.currency,
      castingId: sale.castingId,
      casting:
        (sale.castingId === null ? undefined : index.castings.get(sale.castingId)?.name) ??
        sale.asWritten.casting ??
        '',
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
      doubt: aside.get(sale.id) ?? doubted.get(sale.id) ?? null,
      notes: sale.notes,
    }));
  });

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
  currencyDecimals(input.currency);
  checkReference(index, input.castingId, input.variationId);
  const label = `Added a sale record of ${castingName(index, input.castingId)}`;
  return {
    id: await context.session.act(label, trx =>
      insertSale(trx, { ...input, asWritten: {}, excluded: false, excludedWhy: '', disposalId: null }),
    ),
  };
});

const update = needsCollection.input(inputs.updateSale).handler(async ({ context, input }) => {
  const index = await referenceIndex(context.session);
  const [sale] = await listSales(context.db, { ids: [input.id] });
  if (!sale) throw notFound('sale record', input.id);
  if (sale.disposalId !== null)
    throw refused('This record follows your own sale of a car. Change it on that car’s page.');
  if (input.currency !== undefined) currencyDecimals(input.currency);
  const given = Object.fromEntries(
    Object.entries(input).filter(([, value]) => value !== undefined),
  ) as Partial<SaleEntry>;
  const changed: SaleEntry = { ...sale, ...given };
  if (input.castingId !== undefined && input.variationId === undefined && input.castingId !== sale.castingId)
    changed.variationId = null;
  if (changed.castingId !== null) checkReference(index, changed.castingId, changed.variationId);
  await context.session.act(`Changed a sale record of ${castingName(index, changed.castingId)}`, trx =>
    updateSale(trx, changed),
  );
});

const count = (number: number) => (number === 1 ? 'a sale record' : `${number} sale records`);

const remove = needsCollection.input(inputs.byIds).handler(async ({ context, input }) => {
  const sales = await listSales(context.db, { ids: input.ids });
  if (sales.some(sale => sale.disposalId !== null))
    throw refused('A record of your own sale of a car goes with that sale. Take it back on the car’s page.');
  await context.session.act(`Removed ${count(sales.length)}`, trx => removeSales(trx, input.ids));
});

const exclude = needsCollection.input(inputs.excludeSales).handler(async ({ context, input }) => {
  const label = input.excluded
    ? `Left ${count(input.ids.length)} out`
    : `Took ${count(input.ids.length)} in again`;
  await context.session.act(label, trx => excludeSales(trx, input.ids, input.excluded, input.why));
});

export const sales = { list, create, update, remove, exclude };
