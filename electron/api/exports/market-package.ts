import { Uint8ArrayReader, Uint8ArrayWriter, ZipWriter } from '@zip.js/zip.js';
import { csvFile, packageProfile, tableSchemaProfile } from '../../../db/archive/tables.ts';
import { readSetting } from '../../../db/records/collection/settings.ts';
import type { DataTable } from '../../../reports/tables/data-table.ts';
import { tableCsv } from '../../../reports/tables/table-csv.ts';
import { finishStates } from '../../../valuation/words.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { sharedReferenceTable } from './reference-table.ts';
import { sharedSalesTable } from './sales-table.ts';

/** The files of a market that is passed on; a friend's import looks for these names. */
export const marketFiles = {
  reference: 'reference.csv',
  sales: 'sales.csv',
  description: 'datapackage.json',
} as const;

const typeOf: Record<string, { type: string; format?: string }> = {
  sold_on: { type: 'date' },
  price: { type: 'number' },
  grade: { type: 'number' },
};

const meaningOf: Record<string, string> = {
  sold_on: 'Day of the sale',
  price: 'What it brought, in the currency of its row',
  currency: 'ISO 4217 code',
  grade: 'C1 to C10 in half points',
  finish_state: finishStates.join(', '),
  base_paint: 'none, front quarter, rear quarter or full',
  missing_parts: 'Parts that were missing, separated by semicolons',
  reproduction_parts: 'Parts that were reproductions, separated by semicolons',
  source: 'Kind of source',
  reference: 'What finds the record again',
  rarity: 'common, uncommon, scarce or rare',
};

const resource = (path: string, title: string, { columns }: DataTable) => ({
  name: path.replace(/\.csv$/, ''),
  path,
  title,
  ...csvFile,
  schema: {
    $schema: tableSchemaProfile,
    fields: columns.map(({ name }) => ({
      name,
      ...(typeOf[name] ?? { type: 'string' }),
      ...(meaningOf[name] && { description: meaningOf[name] }),
    })),
    missingValues: [''],
  },
});

/**
 * The sale records and the reference as one ZIP file that a friend can take in: a Data Package (version 2)
 * with a Table Schema for each. It names no car of the owner's, no price paid, no place and no person; own
 * sales and records that were left out stay here. The same records on the same day give the same bytes.
 */
export const marketPackage = async (
  session: Session,
): Promise<{ bytes: Uint8Array; variations: number; sales: number }> => {
  const reference = await sharedReferenceTable(session);
  const sales = await sharedSalesTable(session);
  const today = await session.today();
  const currency = await readSetting(openOf(session).read.db, 'reporting-currency');
  const described = {
    $schema: packageProfile,
    name: 'toy-car-market',
    title: 'Sale records and reference of vintage toy cars',
    description: `Observed sales, each in its own currency (the sender reports in ${currency}), and the castings, releases and variations that they name.`,
    version: today,
    created: `${today}T00:00:00Z`,
    resources: [
      resource(marketFiles.reference, 'Reference', reference),
      resource(marketFiles.sales, 'Sale records', sales),
    ],
  };
  const zip = new ZipWriter(new Uint8ArrayWriter(), {
    useWebWorkers: false,
    lastModDate: new Date(1980, 0, 1),
    extendedTimestamp: false,
  });
  const encode = (text: string) => new Uint8ArrayReader(new TextEncoder().encode(text));
  await zip.add(marketFiles.description, encode(`${JSON.stringify(described, null, 1)}\n`));
  // Without the mark that spreadsheets want: a reader of Data Packages would take it for a part of the first name.
  for (const [path, table] of [
    [marketFiles.reference, reference],
    [marketFiles.sales, sales],
  ] as const)
    await zip.add(path, encode([...tableCsv(table)].join('').replace(/^\ufeff/, '')));
  return { bytes: await zip.close(), variations: reference.count, sales: sales.count };
};
