import { listSales, type SaleEntry } from '../../../db/records/sales/sales.ts';
import {
  amountCell,
  type CellValue,
  type DataTable,
  dateCell,
  type ListColumn,
  listTable,
  numberCell,
  textCell,
} from '../../../reports/tables/data-table.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

/** A sale record with what the reference says of the car that was sold. */
interface SaleRow {
  sale: SaleEntry;
  of: (column: string) => string;
}

const featureNames: ReadonlySet<string> = new Set(variationFeatures.map(feature => featureColumns[feature]));

/** What is written in each feature's column, with what of it was not understood: "gold, maybe". */
const wholeTexts = ({ asWritten, unread }: SaleEntry): Record<string, string> => {
  const texts = { ...asWritten };
  for (const { field, text } of unread ?? []) {
    const said = featureNames.has(field) ? texts[field] : undefined;
    if (said && !said.toLowerCase().includes(text.toLowerCase())) texts[field] = `${said}, ${text}`;
  }
  return texts;
};

/** What a record says in a column: as identified, else as written. */
const textsOf = (index: ReferenceIndex, sale: SaleEntry): Record<string, string> => {
  const casting = sale.castingId === null ? undefined : index.castings.get(sale.castingId);
  const variation = sale.variationId === null ? undefined : index.variations.get(sale.variationId);
  const known: Record<string, string> = {
    ...(casting && { maker: casting.maker, series: casting.series, casting: casting.name }),
    ...(variation && {
      release_name: variation.releaseName,
      release_year: String(variation.releaseYear ?? ''),
    }),
  };
  if (variation)
    for (const feature of variationFeatures) known[featureColumns[feature]] = variation.features[feature];
  return { ...(variation ? {} : wholeTexts(sale)), ...known };
};

const yearCell = (text: string): CellValue =>
  /^\d{4}$/.test(text) ? numberCell(Number(text)) : textCell(text);

const written = (name: string, width: number): ListColumn<SaleRow> => ({
  name,
  width,
  value: ({ of }) => (name === 'release_year' ? yearCell(of(name)) : textCell(of(name))),
});

const own = (name: string, width: number, value: (sale: SaleEntry) => CellValue): ListColumn<SaleRow> => ({
  name,
  width,
  value: ({ sale }) => value(sale),
});

/** The columns of sale records that a friend may have; a file of them is imported as sales. */
export const sharedSaleColumns: readonly ListColumn<SaleRow>[] = [
  own('sold_on', 12, sale => dateCell(sale.soldOn)),
  own('price', 12, sale => amountCell(sale.price, sale.currency)),
  own('currency', 10, sale => textCell(sale.currency)),
  written('maker', 20),
  written('series', 16),
  written('casting', 24),
  written('release_name', 24),
  written('release_year', 12),
  ...variationFeatures.map(feature => written(featureColumns[feature], 14)),
  own('grade', 8, sale => numberCell(sale.grade)),
  own('finish_state', 13, sale => textCell(sale.finishState)),
  own('missing_parts', 20, sale => textCell(sale.missingParts.join('; '))),
  own('reproduction_parts', 20, sale => textCell(sale.reproductionParts.join('; '))),
  own('source', 14, sale => textCell(sale.source)),
  own('reference', 20, sale => textCell(sale.reference)),
];

const furtherColumns: readonly ListColumn<SaleRow>[] = [
  own('reliability_percent', 12, sale => numberCell(sale.reliabilityPercent)),
  own('excluded', 10, sale => textCell(sale.excluded ? 'yes' : '')),
  own('excluded_why', 24, sale => textCell(sale.excludedWhy)),
  own('own_sale', 10, sale => textCell(sale.disposalId === null ? '' : 'yes')),
  own('notes', 30, sale => textCell(sale.notes)),
];

const rowsOf = async (session: Session, ids?: number[]): Promise<SaleRow[]> => {
  const index = await referenceIndex(session);
  const sales = await listSales(openOf(session).read.db, ids ? { ids } : {});
  const place = ids && new Map(ids.map((id, i) => [id, i]));
  if (place) sales.sort((a, b) => place.get(a.id)! - place.get(b.id)!);
  return sales.map(sale => {
    const texts = textsOf(index, sale);
    return { sale, of: column => texts[column] ?? '' };
  });
};

/** All sale records, or those given in their order, with every column. */
export const salesTable = async (session: Session, ids?: number[]): Promise<DataTable> =>
  listTable('Sales', [...sharedSaleColumns, ...furtherColumns], await rowsOf(session, ids));

/**
 * The sale records that may be passed on: seen elsewhere, not the owner's own sales, and not left
 * out by the owner.
 */
export const sharedSalesTable = async (session: Session): Promise<DataTable> =>
  listTable(
    'Sales',
    sharedSaleColumns,
    (await rowsOf(session)).filter(({ sale }) => sale.disposalId === null && !sale.excluded),
  );
