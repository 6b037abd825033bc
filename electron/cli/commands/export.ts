import { extname } from 'node:path';
import type { TableFormat } from '../../../reports/tables/data-table.ts';
import { counted, plainLocale } from '../../../valuation/wording/reader.ts';
import { listsAboutCars } from '../../api/exports/about-cars.ts';
import type { ExportedList } from '../../api/exports/exports.ts';
import type { ReportResult } from '../../api/views.ts';
import { type Api, withCollection } from '../collection.ts';
import { followed } from '../progress-bar.ts';
import { print, Refused, say } from '../terminal.ts';
import { outPath, writeWhole } from '../write-out.ts';

interface ExportOptions {
  collection: string;
  out: string;
  /** Name of a saved view. */
  view?: string;
  json?: boolean;
}

/** What a saved view shows, of a list about cars what is said of them; says what it names that is no longer there. */
const seenBy = async (api: Api, wanted: ExportedList, name: string) => {
  const isAboutCars = listsAboutCars.includes(wanted);
  if (wanted !== 'cars' && wanted !== 'sales' && !isAboutCars)
    throw new Refused(`There are saved views of cars and of sales, not of ${wanted}.`);
  const list = wanted === 'sales' ? 'sales' : 'cars';
  const views = await api.savedViews.list({ list });
  const view = views.find(one => one.name.toLowerCase() === name.trim().toLowerCase());
  if (!view)
    throw new Refused(
      views.length === 0
        ? `There is no saved view of ${list}.`
        : `No view of ${list} is called "${name}". There are: ${views.map(one => one.name).join(', ')}.`,
    );
  if (view.leftOut.length > 0) say(`Left out, because it is no longer there: ${view.leftOut.join(', ')}.`);
  const seen = { query: view.query, locale: plainLocale };
  return isAboutCars ? { ofCars: seen } : { seen };
};

/** `playworn export`: a list whole, or as a saved view shows it, as CSV, XLSX or JSON lines by the file's ending. */
export const exportList = async (list: ExportedList, options: ExportOptions): Promise<void> => {
  const path = outPath(options.out);
  const format = extname(path).slice(1).toLowerCase() as TableFormat;
  await withCollection(options, async ({ api, signal }) => {
    const view = options.view === undefined ? {} : await seenBy(api, list, options.view);
    const { token, rows, bytes } = await followed<ReportResult & { rows: number }>(
      await api.exports.make({ list, format, ...view }, { signal }),
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
