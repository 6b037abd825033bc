import { extname } from 'node:path';
import type { PaperSize } from '../../../reports/types.ts';
import type { ValueBasis } from '../../../valuation/words.ts';
import type { ReportResult } from '../../api/views.ts';
import { type Api, withCollection } from '../collection.ts';
import { followed } from '../progress-bar.ts';
import { print, Refused, say } from '../terminal.ts';
import { outPath, writeWhole } from '../write-out.ts';

export interface ReportOptions {
  collection: string;
  out: string;
  lot?: string;
  on?: string;
  title?: string;
  basis?: ValueBasis;
  paper?: PaperSize;
  photographs: boolean;
  prepared?: boolean;
  json?: boolean;
}

const formats = { '.pdf': 'pdf', '.csv': 'csv', '.xlsx': 'xlsx' } as const;

export const reportFormat = (out: string) => formats[extname(out).toLowerCase() as keyof typeof formats];

const lotNamed = async (api: Api, name: string): Promise<number> => {
  const lots = await api.lots.list();
  const same = (left: string, right: string) =>
    left.localeCompare(right, 'en', { sensitivity: 'accent' }) === 0;
  const found = lots.find(lot => lot.name === name) ?? lots.find(lot => same(lot.name, name));
  if (found) return found.id;
  const names = lots.map(lot => `"${lot.name}"`).join(', ') || 'none yet';
  throw new Refused(`There is no lot "${name}". The collection's lots: ${names}.`);
};

/** `playworn report`: the collection, or one lot, as a document. */
export const report = async (options: ReportOptions): Promise<void> => {
  const path = outPath(options.out);
  await withCollection(options, async ({ api, signal }) => {
    const { on, title, basis, paper, lot } = options;
    const wanted = {
      format: reportFormat(path),
      ...(lot !== undefined && { lotId: await lotNamed(api, lot) }),
      ...(on !== undefined && { on }),
      ...(title !== undefined && { title }),
      ...(basis !== undefined && { basis }),
      ...(paper !== undefined && { paper }),
      withPhotographs: options.photographs,
      sayPrepared: options.prepared ?? false,
    };
    const { token, warnings, bytes } = await followed<ReportResult>(
      await api.reports.make(wanted, { signal }),
    );
    const file = await api.reports.file({ token });
    writeWhole(path, new Uint8Array(await file.arrayBuffer()));
    for (const warning of warnings) say(warning);
    print(options.json, { file: path, bytes, warnings }, made => [`${made.file}, ${made.bytes} bytes`]);
  });
};
