import { extname } from 'node:path';
import type { TableFormat } from '../../../reports/tables/data-table.ts';
import { counted } from '../../../valuation/wording/reader.ts';
import type { ExportedList } from '../../api/exports/exports.ts';
import type { ReportResult } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { followed } from '../progress-bar.ts';
import { print } from '../terminal.ts';
import { outPath, writeWhole } from '../write-out.ts';

interface ExportOptions {
  collection: string;
  out: string;
  json?: boolean;
}

/** `playworn export`: a list whole, as CSV, XLSX or JSON lines by the file's ending. */
export const exportList = async (list: ExportedList, options: ExportOptions): Promise<void> => {
  const path = outPath(options.out);
  const format = extname(path).slice(1).toLowerCase() as TableFormat;
  await withCollection(options, async ({ api, signal }) => {
    const { token, rows, bytes } = await followed<ReportResult & { rows: number }>(
      await api.exports.make({ list, format }, { signal }),
    );
    const file = await api.reports.file({ token });
    writeWhole(path, new Uint8Array(await file.arrayBuffer()));
    print(options.json, { file: path, list, rows, bytes }, made => [
      `${made.file}, ${counted(made.rows, 'row')}, ${made.bytes} bytes`,
    ]);
  });
};

/**
 * `playworn share`: sale records and reference as one file that a friend can import; nothing of
 * the owner's cars.
 */
export const share = async (options: ExportOptions): Promise<void> => {
  const path = outPath(options.out);
  await withCollection(options, async ({ api }) => {
    const { token, sales, variations, bytes } = await api.exports.share();
    const file = await api.reports.file({ token });
    writeWhole(path, new Uint8Array(await file.arrayBuffer()));
    print(options.json, { file: path, sales, variations, bytes }, made => [
      `${made.file}: ${counted(made.sales, 'sale record')} and ${counted(made.variations, 'variation')}, ${made.bytes} bytes`,
    ]);
  });
};
